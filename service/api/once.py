"""Changes to what is stored: which revision they are meant for, and carried out once however often they are sent.

A request with an ``Idempotency-Key`` is answered by the stored reply when it comes again, by the draft standard of the
IETF (draft-ietf-httpapi-idempotency-key-header): another request under the same key is refused (422). Where two come at
the same time the second waits for the first. Keys are remembered for a day; errors are not kept, so that a request that
failed can be sent again as it is.
"""

import hashlib
import re
from collections.abc import Callable
from typing import Any

import orjson
from flask import current_app, request
from sqlalchemy.orm import Session

from service.api.callers import writer
from service.api.resource import Answer, RequestHeader
from service.errors import KeyReused, Malformed, NoPrecondition, RequestError
from service.store import replies
from service.store.engine import Unavailable
from service.store.replies import Kept, Taken
from service.store.store import Store
from service.stored.orders import Moved

IDEMPOTENCY_KEY = RequestHeader(
    "Idempotency-Key",
    "a key of your own, new for each request: sent again with the same key, the request changes nothing and gets the "
    "same reply; remembered for a day",
    "8e03978e-40d5-43dd-bc93-6894a57f9324",
)
IF_MATCH = RequestHeader(
    "If-Match", "the ETag of the revision that is to be changed, or * for whichever is the latest", '"3"', required=True
)

LONGEST_KEY = 255
_KEY = re.compile(r'[\x21\x23-\x7e]+|"([\x20\x21\x23-\x7e]+)"')
_TAG = re.compile(r'\s*(?:W/)?(?:"[^"]*"|\d+)\s*(?:,|$)')
_ATTEMPTS = 5

Work = Callable[[Session], Answer]
"""What is done in one transaction; a reply that can be kept."""


def store() -> Store:
    """Return the store of the application at hand."""
    found: Store = current_app.extensions["kitproof.store"]
    return found


def etag(revision: int) -> tuple[str, str]:
    """Return the header that names a revision; it is the same in every form of the reply."""
    return "ETag", f'"{revision}"'


def wanted_revisions() -> frozenset[int] | None:
    """Return the revisions that the request at hand is meant for, None for whichever is the latest.

    Raises:
        NoPrecondition: If-Match is missing.
        Malformed: it is no list of entity tags.
    """
    given = request.headers.get("If-Match")
    about: dict[str, Any] = {"field": "If-Match", "accepted": IF_MATCH.meaning, "example": IF_MATCH.example}
    if given is None:
        raise NoPrecondition("a change says which revision it changes, so that nobody's is overwritten", **about)
    if given.strip() == "*":
        return None
    if not re.fullmatch(rf"(?:{_TAG.pattern})+", given):
        raise Malformed("no entity tag", value=given, **about)
    # A weak tag never matches here (RFC 9110 section 13.1.1), nor does one that is none of ours.
    tags = [tag.strip(" \t,") for tag in re.findall(_TAG.pattern, given)]
    return frozenset(int(tag.strip('"')) for tag in tags if re.fullmatch(r'"\d{1,9}"|\d{1,9}', tag))


def carried_out(body: Any, prepare: Callable[[], Work], key: str | None = None) -> Answer:
    """Carry out a change once and return its reply; ``key`` stands in for that of the header, which no form sends.

    ``prepare`` does all that needs no lock and returns what is to be done in the transaction; where something moved in
    between it is called again.

    Raises:
        KeyReused: the key belongs to another request.
        Unavailable: others change the same thing all the time.
    """
    owner, key = writer().owner, key or _key()
    digest = _digest(body)
    for _ in range(_ATTEMPTS):
        if key is not None and (kept := _kept(owner, key)) is not None:
            return _again(kept, digest)
        try:
            work = prepare()
        except RequestError:
            # Of two that came at the same time the first may have moved what this one was meant for.
            if key is not None and (kept := _kept(owner, key)) is not None:
                return _again(kept, digest)
            raise
        try:
            with store().write() as session:
                place = None if key is None else replies.take(session, owner, key, digest)
                answer = work(session)
                if place is not None:
                    place.status, place.reply = answer.status, answer.reply
                    place.headers = [list(header) for header in answer.headers]
            return answer
        except (Taken, Moved):
            continue
    raise Unavailable("others are changing the same thing", 1)


def _kept(owner: str, key: str) -> Kept | None:
    with store().read() as session:
        return replies.find(session, owner, key)


def _again(kept: Kept, digest: str) -> Answer:
    if kept.request != digest:
        raise KeyReused(
            "this key was used for another request",
            field="Idempotency-Key",
            value=request.headers.get("Idempotency-Key"),
            accepted="a new key for every new request",
            example=IDEMPOTENCY_KEY.example,
        )
    return Answer(kept.reply, kept.status, kept.headers)


def _key() -> str | None:
    given = request.headers.get("Idempotency-Key")
    if given is None:
        return None
    found = _KEY.fullmatch(given.strip())
    if found is None or len(given) > LONGEST_KEY:
        raise Malformed(
            "no key",
            field="Idempotency-Key",
            value=given,
            accepted=f"1 to {LONGEST_KEY} printable characters of ASCII, in quotes or without",
            example=IDEMPOTENCY_KEY.example,
        )
    return found[1] or found[0]


def _digest(body: Any) -> str:
    """Return what tells one request from another: method, path and body; not how the reply is to look."""
    path = request.path
    suffix = (request.view_args or {}).get("suffix")
    if suffix:
        path = path.removesuffix(f".{suffix}")
    parts = (request.method.encode(), path.encode(), orjson.dumps(body, default=str, option=orjson.OPT_SORT_KEYS))
    return hashlib.sha256(b"\n".join(parts)).hexdigest()
