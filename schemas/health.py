"""The wire of ``/healthz`` and ``/readyz``."""

from schemas.fields import text_field, word_field
from schemas.options import ViewOptions
from schemas.reply import Reply


class Health(Reply):
    """The service answers."""

    status = word_field("ok: the process answers; ready: all that it needs answers too", ("ok", "ready"), "ok")
    version = text_field("version of the service", "0.1.0")


VIEW_OPTIONS, HEALTH = ViewOptions(), Health()
