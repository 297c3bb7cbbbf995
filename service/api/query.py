"""Query strings to loaded values, and what a schema finds wrong to an error that says what is accepted."""

from collections.abc import Mapping, Sequence
from copy import copy
from difflib import get_close_matches
from functools import lru_cache
from typing import Any
from urllib.parse import parse_qsl

from marshmallow import Schema, ValidationError, missing

from schemas.options import names
from service.errors import BadValue, Malformed, MissingField, RequestError, UnknownField
from service.verdict.model import CheckError

MOST_FIELDS = 100
_LONGEST_NAME = 60


def parse_query(raw: str) -> dict[str, str]:
    """Return the fields of a query string as the server hands it over.

    Raises:
        Malformed: it is not UTF-8, holds too many fields, or one twice.

    >>> parse_query("line=M5+dowel+pin&bore=5%20H7")
    {'line': 'M5 dowel pin', 'bore': '5 H7'}
    """
    return unique(parse_pairs(raw)) if raw else {}


def parse_pairs(raw: str, most: int = MOST_FIELDS) -> list[tuple[str, str]]:
    """Return the fields of a query string in their order, any of them as often as it is given.

    Raises:
        Malformed: it is not UTF-8, or holds more fields than ``most``.
    """
    try:
        # WSGI hands bytes over as Latin-1; clients also send UTF-8 that they did not escape.
        return parse_qsl(
            raw.encode("latin-1").decode("utf-8"), keep_blank_values=True, errors="strict", max_num_fields=most
        )
    except UnicodeError:
        raise Malformed(
            "the query is not UTF-8", value=raw, accepted="UTF-8, escaped by %", example="line=%C3%B85+pin"
        ) from None
    except ValueError:
        raise Malformed(
            "the query holds too many fields", accepted=f"at most {most} fields", example="line=M5+dowel+pin"
        ) from None


def unique(pairs: Sequence[tuple[str, str]]) -> dict[str, str]:
    """Return fields by name.

    Raises:
        Malformed: one is given twice.
    """
    given = dict(pairs)
    if len(given) < len(pairs):
        twice = next(name for index, (name, _) in enumerate(pairs) if name in dict(pairs[:index]))
        raise Malformed(
            f"{twice!r} is given twice", field=twice, accepted="each field once", example="line=M5+dowel+pin"
        )
    return given


def load(schema: Schema, given: Mapping[str, Any]) -> dict[str, Any]:
    """Return the values of a request by its schema.

    Raises:
        UnknownField, MissingField, BadValue: the first fault found; the others stand in ``also``.
    """
    try:
        loaded: dict[str, Any] = _narrowed(schema, frozenset(given)).load(given)
    except ValidationError as error:
        raise fault(schema, given, error) from None
    return loaded


@lru_cache(maxsize=1024)
def _narrowed(schema: Schema, given: frozenset[str]) -> Schema:
    """Return the schema without the fields that are neither given nor needed: each costs its share of a load."""
    narrowed = copy(schema)
    narrowed.load_fields = {
        name: field
        for name, field in schema.load_fields.items()
        if name in given or field.data_key in given or field.required or field.load_default is not missing
    }
    return narrowed


def fault(schema: Schema, given: Mapping[str, Any], error: ValidationError) -> RequestError:
    """Return what a schema found wrong as one error; an unknown name comes first, since it may explain the rest."""
    messages = error.normalized_messages()  # type: ignore[no-untyped-call]
    known = names(schema)
    found = [_unknown(name, known) for name in messages if name not in known]
    found += [_known(schema, name, given, messages[name]) for name in known if name in messages]
    first, also = found[0], tuple(one.line().removeprefix("error: ") for one in found[1:])
    first.also = also
    return first


def _unknown(name: str, known: tuple[str, ...]) -> RequestError:
    return unknown_field(str(name), known)


def not_understood(error: CheckError) -> BadValue:
    """Return what the values of a check, a mate or a wish are refused with, where one of them is not understood."""
    return BadValue(
        "the value is not understood",
        field=error.field,
        value=error.value,
        accepted=error.accepted,
        example=error.example,
    )


def unknown_field(name: str, known: tuple[str, ...], example: str = "") -> UnknownField:
    """Return the error for a name that is not known, with the names that are and the nearest of them."""
    near = get_close_matches(name[:_LONGEST_NAME].lower(), known, 1)
    detail = f"{name!r} is no field here" + (f"; {near[0]!r} is" if near else "")
    return UnknownField(
        detail, field=name, accepted=", ".join(known), example=example or (near[0] if near else known[0])
    )


def _known(schema: Schema, name: str, given: Mapping[str, Any], messages: Any) -> RequestError:
    field = schema.fields[name]
    example, accepted = _example(schema, name), _accepted(schema, name)
    if name not in given:
        return MissingField(f"{name} is missing", field=name, accepted=accepted, example=example)
    detail = _first_message(messages)
    path = name
    if isinstance(messages, Mapping):
        path = ".".join((name, *_path(messages)))
    if given[name] is None:
        detail = f"{field.error_messages['null']}".rstrip(".")
    return BadValue(detail, field=path, value=given[name], accepted=accepted, example=example)


def _first_message(messages: Any) -> str:
    while not isinstance(messages, str):
        messages = next(iter(messages.values() if isinstance(messages, Mapping) else messages))
    return messages.rstrip(".")


def _path(messages: Any) -> list[str]:
    path = []
    while isinstance(messages, Mapping):
        key = next(iter(messages))
        path.append(str(key))
        messages = messages[key]
    return path


@lru_cache(maxsize=256)
def _example(schema: Schema, name: str) -> str:
    return str(schema.fields[name].metadata.get("example", ""))


@lru_cache(maxsize=256)
def _accepted(schema: Schema, name: str) -> str:
    metadata = schema.fields[name].metadata
    return str(metadata.get("x-accepted") or metadata.get("description", ""))
