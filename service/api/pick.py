"""``field=``: one field of a reply by its path, held against what the reply can hold."""

from functools import lru_cache
from typing import Any

from marshmallow import Schema, fields

from service.errors import BadValue

Path = tuple[str, ...]

_FIRST_PLACES = ("0", "1", "2")
_LONGEST_PLACE = 6


def pick(reply: Any, path: Path) -> Any:
    """Return what stands at a path in a reply; nothing stands beyond the end of a list or within null.

    >>> pick({"readings": [{"family": "parallel pin"}]}, ("readings", "0", "family"))
    'parallel pin'
    """
    value = reply
    for name in path:
        if isinstance(value, dict):
            value = value.get(name)
        elif isinstance(value, list | tuple):
            value = value[int(name)] if int(name) < len(value) else None
        else:
            return None
    return value


@lru_cache(maxsize=1024)
def checked_path(schema: Schema, text: str) -> Path:
    """Return the path to one field.

    Raises:
        BadValue: the reply can hold no such field.
    """
    path = tuple(text.split("."))
    here: Any = fields.Nested(schema)
    for depth, name in enumerate(path):
        known, following = _step(here, name)
        if following is None:
            before = ".".join(path[:depth])
            lead = f"{before}." if before else ""
            raise BadValue(
                f"{name!r} is no field of {before or 'the reply'}",
                field="field",
                value=text,
                accepted=", ".join(lead + one for one in known) or before,
                example=lead + known[0] if known else before,
            )
        here = following
    return path


def _step(here: Any, name: str) -> tuple[Path, Any]:
    """Return the names that may follow, and the field under the one that does, None where it may not."""
    if isinstance(here, fields.Nested):
        known = {field.data_key or key: field for key, field in here.schema.fields.items()}
        return tuple(known), known.get(name)
    if isinstance(here, fields.List):
        place = name.isascii() and name.isdigit() and len(name) <= _LONGEST_PLACE
        return _FIRST_PLACES, here.inner if place else None
    if isinstance(here, fields.Dict):
        return (), here.value_field
    if isinstance(here, fields.String | fields.Number):
        return (), None
    # What has several forms, as a dimension has, may hold any name.
    return (), here
