"""A fixture that compares one line with what must be read from it, written as one short text."""

from collections.abc import Callable, Mapping

import pytest

from reference.quantities import Limits, ThreadSize
from service.reading import Reading
from service.reading.reader import from_scratch


def _value(reading: Reading, key: str) -> str | None:
    if key == "size":
        return reading.size_names
    rating = reading.dimensions.get("rating")
    if isinstance(rating, Mapping) and key in rating:
        return format(rating[key].value.normalize(), "f")
    held = reading.dimensions.get(key, reading.attributes.get(key))
    if isinstance(held, Limits):
        return format(held.nominal.normalize(), "f")
    return held.designation if isinstance(held, ThreadSize) else None if held is None else str(held)


def _compare(line: str, expected: str) -> None:
    answer = from_scratch(line)
    families = list(dict.fromkeys(reading.family for reading in answer.readings))
    if expected == "unread":
        assert answer.state == "unread", f"{line!r}: {families}"
        return
    if expected.startswith("? "):
        assert answer.state == "ambiguous", f"{line!r}: {answer.state} {families}"
        assert families == expected[2:].split(", "), line
        assert answer.question, line
        return
    assert answer.state == "clear", f"{line!r}: {answer.question or answer.reason}"
    family, _, values = expected.partition(": ")
    assert families == [family], line
    wanted = dict(part.split("=") for part in values.split(", ") if part)
    assert wanted.pop("quantity", str(answer.quantity)) == str(answer.quantity), line
    assert {key: _value(answer.readings[0], key) for key in wanted} == wanted, line


@pytest.fixture
def is_read() -> Callable[[str, str], None]:
    """Return a check of a line: ``"unread"``, ``"? spacer, standoff"`` (ambiguous between these families, in order)
    or ``"spacer: bore=5, length=10"`` (clear; ``size`` is what the size names, ``quantity`` the pieces, other keys
    dimensions, rated quantities or attributes)."""
    return _compare
