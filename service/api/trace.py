"""The number of a request: the caller's own where it is a plain one, else a new one."""

import re
from secrets import token_hex

from flask import g, request

_PLAIN = re.compile(r"[A-Za-z0-9._-]{1,64}")


def request_id() -> str:
    """Return the number of the request at hand, which its reply carries in X-Request-Id."""
    number: str | None = g.get("request_id")
    if number is None:
        given = request.environ.get("HTTP_X_REQUEST_ID", "")
        number = given if _PLAIN.fullmatch(given) else token_hex(8)
        g.request_id = number
    return number
