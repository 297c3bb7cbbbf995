"""The application: reads and checks every table at start, binds the resources, and adds what every reply carries."""

import base64
import hashlib

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from reference import tables
from reference.families import all_families
from service.access import Access, require_tokens
from service.api import (
    bench,
    callers,
    families,
    fits,
    health,
    identifications,
    jobs,
    measurements,
    metrics,
    openapi,
    orders,
    pages,
    problems,
    proposals,
    reading,
    receipts,
    reference,
    resource,
    stored_orders,
    suppliers,
    tightening,
    verdict,
    why,
)
from service.api.trace import Stamp
from service.config import Settings
from service.pages.site import STYLE
from service.store.store import Store
from service.verdict.judge import judge
from service.verdict.mates import parse_check

BLUEPRINTS = (
    pages.blueprint,
    bench.blueprint,
    reading.blueprint,
    verdict.blueprint,
    families.blueprint,
    fits.blueprint,
    tightening.blueprint,
    proposals.blueprint,
    orders.blueprint,
    receipts.blueprint,
    identifications.blueprint,
    stored_orders.blueprint,
    why.blueprint,
    measurements.blueprint,
    suppliers.blueprint,
    jobs.blueprint,
    reference.blueprint,
    health.blueprint,
    metrics.blueprint,
    openapi.blueprint,
)


_POLICY = "default-src 'none'; style-src 'sha256-{}'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
"""What a page may load: its own style sheet, by its digest, and nothing else. There are no scripts."""


def create_app(settings: Settings | None = None) -> Flask:
    """Return the application; a table that is not what its description says stops it here."""
    app = Flask("kitproof", static_folder=None, template_folder=None)
    app.extensions["kitproof.settings"] = settings = settings or Settings.from_environment()
    app.extensions["kitproof.store"] = store = Store(settings.database_url, wait=settings.database_wait)
    app.extensions["kitproof.jobs"] = jobs.queue_of(store, settings)
    for name in tables.names():
        tables.load(name)
    for family in all_families():
        family.sizes  # noqa: B018 - made at its first use, which is to be before the fork
    # One check builds what is built once (vocabulary, families), before the fork and before the first caller waits.
    judge(parse_check({"line": "ISO 8734 - 5 x 20 - A - St", "bore": "5 H7", "fit": "location"}))
    # A redirect is lost on clients that do not follow it: curl --fail would call it a success.
    app.url_map.strict_slashes = False
    app.url_map.merge_slashes = False
    app.url_map.converters.update(resource.CONVERTERS)
    for blueprint in BLUEPRINTS:
        app.register_blueprint(blueprint)
    problems.register_problems(app)
    store.prepare_early()
    require_tokens(store, settings)
    callers.register_callers(app, Access(store, settings))
    if settings.proxies:
        # Each proxy adds an address; the path is told by the nearest one. Nothing here asks for host, port or scheme,
        # so that nothing is believed of them.
        app.wsgi_app = ProxyFix(  # type: ignore[method-assign]
            app.wsgi_app, x_for=settings.proxies, x_proto=0, x_host=0, x_prefix=1
        )
    app.wsgi_app = Stamp(app.wsgi_app, _constant_headers(), settings.log == "json")  # type: ignore[method-assign]
    return app


def _constant_headers() -> list[tuple[str, str]]:
    style = base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
    return [
        ("X-Reference-Fingerprint", tables.fingerprint()),
        ("Cache-Control", "no-store"),
        ("X-Content-Type-Options", "nosniff"),
        ("Referrer-Policy", "no-referrer"),
        ("Cross-Origin-Resource-Policy", "same-origin"),
        ("Content-Security-Policy", _POLICY.format(style)),
    ]
