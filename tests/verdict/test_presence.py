"""Parts that only have to be there."""

import pytest

from service.verdict.mates import parse_mate
from service.verdict.model import CheckError


def test_any_part_is_enough(reading, verdict) -> None:
    """Whatever was read fits, without sizes."""
    found = verdict(reading("parallel pin"), presence="yes")
    assert (found.verdict, found.readings[0].findings[0].code) == ("fits", "present")


def test_presence_takes_nothing_else() -> None:
    """A presence is ``yes``; anything else is refused."""
    with pytest.raises(CheckError):
        parse_mate("presence", "maybe")
    with pytest.raises(CheckError):
        parse_mate("mate", {"kind": "presence", "quantity": 2})
