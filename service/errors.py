"""Every way in which a request can fail, each with one code, one status and one title, for good.

    RequestError
    ├── Malformed             400  the request cannot be read at all: broken JSON, text that is not UTF-8
    ├── Unauthorized          401  a token is needed, or the one shown is not valid
    ├── Forbidden             403  the token only reads
    ├── NotFound              404  no such path, table or form of a resource
    ├── NotDone               404  the job has no result yet
    ├── MethodNotAllowed      405  the path does not know the method
    ├── NotAcceptable         406  none of the forms asked for by Accept is offered
    ├── Gone                  410  the job was cancelled or deleted while its rows were received
    ├── Stale                 412  the order was changed since it was read
    ├── TooLarge              413  the body, the line or the number of checks is over its limit
    ├── UnsupportedMedia      415  the body is of a type that is not read
    ├── Invalid               422  (not raised itself)
    │   ├── UnknownField           a name that the resource does not know
    │   ├── MissingField           a name that the resource needs
    │   ├── BadValue               a value that cannot be understood
    │   ├── NothingToCheck         an empty order is an error, never "fits"
    │   └── KeyReused              one Idempotency-Key for two different requests
    ├── NoPrecondition        428  a change that does not say which revision it changes
    ├── TooManyRequests       429  more than the limit within a minute
    ├── Internal              500  a fault of ours
    └── NotReady              503  a part that the service needs does not answer

A verdict other than ``fits`` is an answer, no error. The body of an error is RFC 9457's, the same shape on every route;
what turns it into a reply stands in ``service.api.problems``. Codes are never reused.
"""

# ruff: noqa: N818 - each is named after what is wrong; that they are errors says their base

from typing import Any, ClassVar

SHOWN = 200
"""How many characters of a value that was given are shown in an error."""


def shown(value: object) -> str:
    """Return a value as it can be shown anywhere: short, and with what does not print spelt out.

    >>> shown("5 Q7"), shown("bad \\udcff\\x00"), shown(None)
    ('5 Q7', 'bad \\\\udcff\\\\x00', '')
    """
    text = "" if value is None else str(value)
    text = text if len(text) <= SHOWN else text[:SHOWN] + "…"
    if text.isprintable():
        return text
    return "".join(one if one.isprintable() else one.encode("unicode_escape").decode() for one in text)


class RequestError(Exception):
    """A request that cannot be answered: where it fails, the value given, what is accepted, and an example."""

    code: ClassVar[str] = "internal"
    status: ClassVar[int] = 500
    title: ClassVar[str] = "The service failed"

    def __init__(
        self,
        detail: str,
        *,
        field: str = "",
        value: object = None,
        accepted: str = "",
        example: str = "",
        also: tuple[str, ...] = (),
        headers: tuple[tuple[str, str], ...] = (),
    ) -> None:
        """Keep the parts; ``also`` names further faults of the same request in one line each."""
        super().__init__(detail)
        self.detail = shown(detail)
        self.field = shown(field)
        self.value = shown(value)
        self.accepted = accepted
        self.example = example
        self.also = also
        self.headers = headers

    def body(self, request_id: str) -> dict[str, Any]:
        """Return the RFC 9457 body; every name is always there, empty where it does not apply."""
        return {
            "type": f"/docs#{self.code}",
            "title": self.title,
            "status": self.status,
            "detail": self.detail,
            "field": self.field,
            "value": self.value,
            "accepted": self.accepted,
            "example": self.example,
            "also": list(self.also),
            "request_id": request_id,
        }

    def line(self) -> str:
        """Return the error as one plain line, for text formats and sheets."""
        parts = [f"error: {self.field}: {self.detail}" if self.field else f"error: {self.detail}"]
        parts += [f"given: {self.value}"] if self.value else []
        parts += [f"accepted: {self.accepted}"] if self.accepted else []
        parts += [f"example: {self.example}"] if self.example else []
        return " ".join("; ".join(parts).split())


class Malformed(RequestError):
    """The request cannot be read at all."""

    code, status, title = "malformed", 400, "The request cannot be read"


class Unauthorized(RequestError):
    """A token is needed, or the one that is shown is not valid."""

    code, status, title = "unauthorized", 401, "A valid token is needed"


class Forbidden(RequestError):
    """The token does not allow this."""

    code, status, title = "forbidden", 403, "The token does not allow this"


class NotFound(RequestError):
    """There is no such path, table or form of a resource."""

    code, status, title = "not-found", 404, "There is no such resource"


class NotDone(RequestError):
    """The job is there, but its result is not: it is still worked, or it was cancelled before a row was judged."""

    code, status, title = "not-done", 404, "The job has no result yet"


class MethodNotAllowed(RequestError):
    """The path does not know the method."""

    code, status, title = "method-not-allowed", 405, "The method is not known here"


class NotAcceptable(RequestError):
    """None of the forms that the client accepts is offered."""

    code, status, title = "not-acceptable", 406, "None of the accepted forms is offered"


class Gone(RequestError):
    """The job was cancelled or deleted while its rows were received; the rest of them was not taken."""

    code, status, title = "gone", 410, "The job was ended while its rows were received"


class Stale(RequestError):
    """The order was changed since the caller read it; nothing was overwritten."""

    code, status, title = "stale", 412, "The order was changed in the meantime"


class TooLarge(RequestError):
    """The body, the line or the number of checks is over its limit."""

    code, status, title = "too-large", 413, "The request is too large"


class UnsupportedMedia(RequestError):
    """The body is of a type that is not read."""

    code, status, title = "unsupported-media", 415, "The body's type is not read"


class Invalid(RequestError):
    """A field of the request is at fault."""

    code, status, title = "invalid", 422, "A field is at fault"


class UnknownField(Invalid):
    """A name that the resource does not know."""

    code, title = "unknown-field", "A field is not known"


class MissingField(Invalid):
    """A name that the resource needs."""

    code, title = "missing-field", "A field is missing"


class BadValue(Invalid):
    """A value that cannot be understood."""

    code, title = "bad-value", "A value is not understood"


class NothingToCheck(Invalid):
    """The request holds nothing to check."""

    code, title = "nothing-to-check", "There is nothing to check"


class KeyReused(Invalid):
    """The Idempotency-Key was used before, for a request that was another one."""

    code, title = "idempotency-key-reused", "The Idempotency-Key belongs to another request"


class NoPrecondition(RequestError):
    """A change has to say by If-Match which revision it changes."""

    code, status, title = "no-precondition", 428, "The change does not say which revision it changes"


class TooManyRequests(RequestError):
    """The caller sent more requests than are allowed within a minute."""

    code, status, title = "too-many-requests", 429, "Too many requests"


class Internal(RequestError):
    """A fault of ours; the log holds what happened under the request id."""

    code, status, title = "internal", 500, "The service failed"


class NotReady(RequestError):
    """A part that the service needs does not answer."""

    code, status, title = "not-ready", 503, "The service is not ready"


EVERY: tuple[type[RequestError], ...] = (
    Malformed,
    Unauthorized,
    Forbidden,
    NotFound,
    NotDone,
    MethodNotAllowed,
    NotAcceptable,
    Gone,
    Stale,
    TooLarge,
    UnsupportedMedia,
    UnknownField,
    MissingField,
    BadValue,
    NothingToCheck,
    KeyReused,
    NoPrecondition,
    TooManyRequests,
    Internal,
    NotReady,
)
"""Every error that can leave the service, in the order in which the documentation lists them."""
