"""Under which path the service is shown, where a proxy shows it under one, and addresses that lead through that proxy.

The path is ``SCRIPT_NAME`` as WSGI has it; behind a proxy it comes from ``X-Forwarded-Prefix``, which is believed only
where ``KITPROOF_PROXIES`` is set. Addresses in replies name no host, so that a proxy's host, port and scheme need not
be known. Inside the service every address is written as if it were shown at the root; the path is added last.
"""

import re
from collections.abc import Iterable, Iterator

from flask import has_request_context, request

_PATH = re.compile(r"(?:/[A-Za-z0-9._~-]+)+/?")
_ADDRESS = re.compile(rb'( (?:href|action|formaction)=")(?=/)')
"""Where a page names an address of ours. Quotes of any text are escaped, so that no text looks like it."""


def mount() -> str:
    """Return the path under which the caller at hand sees the service, without a slash at its end; empty at the root.

    What is no plain path is none: a link must never lead to another host.
    """
    given: str = request.environ.get("SCRIPT_NAME", "") if has_request_context() else ""
    return given.rstrip("/") if given and _PATH.fullmatch(given) else ""


def at(path: str) -> str:
    """Return an address of ours as the caller sees it."""
    return mount() + path


def page_at(page: bytes) -> bytes:
    """Return a page whose links and forms lead where the caller sees the service."""
    return next(pages_at([page]))


def pages_at(pieces: Iterable[bytes]) -> Iterator[bytes]:
    """Return the pieces of a page, each of whole tags, with such links. The path is that of the request at hand."""
    root = mount().encode()
    return (_ADDRESS.sub(rb"\g<1>" + root, piece) for piece in pieces) if root else iter(pieces)
