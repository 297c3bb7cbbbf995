"""``field=``: one field of a reply."""

import pytest

from schemas.reading import LINE_READING
from schemas.verdict import VERDICT
from service.api.pick import checked_path, pick
from service.errors import BadValue

REPLY = {"readings": [{"family": "parallel pin", "standards": ("ISO 8734",)}], "fit": None}


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("readings.0.family", "parallel pin"),
        ("readings.0.standards.0", "ISO 8734"),
        ("readings.1.family", None),
        ("fit.window.lower", None),
        ("readings.0.clearance.lower", None),
    ],
)
def test_a_field_is_picked_and_what_is_not_there_is_nothing(path: str, value: object) -> None:
    """An unread line has no readings; its cell is then empty, no error."""
    assert pick(REPLY, checked_path(VERDICT, path)) == value


@pytest.mark.parametrize(
    "path",
    ["verdict", "fit.from", "readings.12.findings.0.numbers.clearance_lower", "readings.0.dimensions.bore.upper"],
)
def test_every_field_of_a_verdict_can_be_picked(path: str) -> None:
    """Dimensions and numbers have names of their own, which are not all known beforehand."""
    assert ".".join(checked_path(VERDICT, path)) == path


@pytest.mark.parametrize(
    "path",
    [
        "colour",
        "readings.first",
        "readings.-1.family",
        "readings.0.familie",
        "state.0",
        "readings.0.notes.x",
        "verdict.",
        "",
        "readings.9999999",
    ],
)
def test_a_field_that_no_reply_has_is_refused(path: str) -> None:
    """A misspelt name would else be an empty cell for ever."""
    with pytest.raises(BadValue) as caught:
        checked_path(LINE_READING, path)
    assert caught.value.field == "field"
    assert caught.value.example
