"""What every reply carries, whoever answers: the number of its request, and headers that are always the same."""

import re
import time
from collections.abc import Callable, Iterable
from random import getrandbits
from typing import Any

from flask import request

from service.api.metrics import count_request, log_request

Headers = list[tuple[str, str]]
Wsgi = Callable[..., Iterable[bytes]]

_PLAIN = re.compile(r"[A-Za-z0-9._-]{1,64}")
_KEY = "kitproof.request_id"


class Stamp:
    """Wraps an application: numbers each request, and adds the number and the constant headers to its reply.

    It stands outside of the framework because there it costs a tenth, and because nothing passes it by.
    """

    def __init__(self, application: Wsgi, constant: Headers, logs: bool = False) -> None:
        """Keep the headers that every reply gets; ``logs`` writes a line on each request."""
        self.application, self.constant, self.logs = application, constant, logs

    def __call__(self, environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        """Answer one request."""
        given = environ.get("HTTP_X_REQUEST_ID", "")
        # What a caller sends goes to logs and headers, so only plain words are taken. Ours is to be told apart, not
        # kept secret; Python seeds anew in each process.
        environ[_KEY] = number = given if _PLAIN.fullmatch(given) else f"{getrandbits(64):016x}"
        began = time.monotonic() if self.logs else 0.0

        def stamped(status: str, headers: Headers, error: Any = None) -> Any:
            path = environ.get("PATH_INFO", "")
            count_request(path, status)
            if self.logs:
                verdict = next((value for name, value in headers if name == "X-Verdict"), "")
                log_request(number, environ.get("REQUEST_METHOD", ""), path, status, began, verdict)
            return start_response(status, [*headers, ("X-Request-Id", number), *self.constant], error)

        return self.application(environ, stamped)


def request_id() -> str:
    """Return the number of the request at hand, which its reply carries in X-Request-Id."""
    number: str = request.environ[_KEY]
    return number
