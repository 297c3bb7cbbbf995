"""Who a request comes from: found out before anything else is done, and then at hand."""

from flask import Flask, g, request

from service.access import Access, require_write
from service.store.tokens import Bearer

OPEN = frozenset({"pages.first_page", "pages.docs", "openapi.openapi", "health.healthz", "health.readyz"})
"""Endpoints for everyone: what the service is and whether it answers."""


def register_callers(app: Flask, access: Access) -> None:
    """Let nobody in who may not."""

    @app.before_request
    def identify() -> None:
        if request.endpoint not in OPEN:
            g.bearer = access.bearer(request.environ)


def caller() -> Bearer:
    """Return who the request at hand comes from."""
    bearer: Bearer = g.bearer
    return bearer


def writer() -> Bearer:
    """Return who the request at hand comes from, where they may change what is stored.

    Raises:
        Forbidden: their token only reads.
    """
    return require_write(caller())
