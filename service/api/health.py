"""Whether the service answers, and whether all that it needs does."""

from flask import Blueprint, current_app

from schemas.health import HEALTH, VIEW_OPTIONS
from service.api.render import Layout, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.errors import NotReady
from service.store.engine import Unavailable
from service.store.store import Store
from service.version import service_version

blueprint = Blueprint("health", __name__)

LAYOUT = Layout(
    "health",
    ("status", "version", "reference"),
    lambda reply: [(reply["status"], reply["version"], reply["reference"])],
    lambda reply: str(reply["status"]),
)


def _reply(status: str) -> Wire:
    return with_reference({"status": status, "version": service_version()})


@resource(blueprint, Resource("/healthz", "Whether the process answers", VIEW_OPTIONS, HEALTH, LAYOUT))
def healthz(query: Wire) -> Answer:
    """Answer as long as the process does."""
    return Answer(_reply("ok"))


@resource(
    blueprint,
    Resource(
        "/readyz",
        "Whether all that the service needs answers",
        VIEW_OPTIONS,
        HEALTH,
        LAYOUT,
        statuses={503: "the database does not answer"},
    ),
)
def readyz(query: Wire) -> Answer:
    """Answer where the tables are loaded (else the process had not started) and the database answers."""
    store: Store = current_app.extensions["kitproof.store"]
    try:
        store.check()
    except Unavailable as error:
        raise NotReady(
            error.reason, field="KITPROOF_DATABASE_URL", headers=(("Retry-After", str(error.retry_after)),)
        ) from error
    return Answer(_reply("ready"))
