"""How findings make a reading's verdict and readings a line's."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.reading.model import Reading
from service.verdict.combine import combine, worst
from service.verdict.model import Finding, JudgedReading

READING = Reading("parallel pin", (), "", "stated", {})
VERDICTS = ["fits", "marginal", "wrong", "open"]


def judged(*verdicts: str) -> list[JudgedReading]:
    """Return readings with these verdicts."""
    return [JudgedReading(READING, verdict, None, ()) for verdict in verdicts]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("verdicts", "expected"),
    [
        ((), "unread"),
        (("fits",), "fits"),
        (("wrong",), "wrong"),
        (("marginal",), "marginal"),
        (("open",), "ask"),
        (("fits", "fits"), "fits"),
        (("wrong", "wrong"), "wrong"),
        (("fits", "marginal"), "marginal"),
        (("fits", "wrong"), "ask"),
        (("marginal", "wrong"), "ask"),
        (("fits", "open"), "ask"),
        (("wrong", "open"), "ask"),
    ],
)
def test_readings_combine(verdicts: tuple[str, ...], expected: str) -> None:
    """All fit, all wrong, fits and marginal, and every other mix."""
    assert combine(judged(*verdicts))[0] == expected


@given(st.lists(st.sampled_from(VERDICTS), max_size=5))
def test_never_fits_with_a_reading_that_does_not(verdicts: list[str]) -> None:
    """``fits`` needs a reading, and every reading to fit; the order of the readings does not matter."""
    word = combine(judged(*verdicts))[0]
    assert (word == "fits") == (bool(verdicts) and set(verdicts) == {"fits"})
    assert word == combine(judged(*reversed(verdicts)))[0]


def test_worst_share_is_given() -> None:
    """Of several shares the smallest counts."""
    readings = [JudgedReading(READING, "marginal", None, (), Decimal(share)) for share in ("0.9", "0.4")]
    assert combine(readings) == ("marginal", Decimal("0.4"))


def test_wrong_comes_before_open_and_notes_do_not_count() -> None:
    """One wrong finding makes the reading wrong whatever is still open; a note changes nothing."""

    def findings(*weights: str) -> list[Finding]:
        return [Finding("code", weight, "", {}, "") for weight in weights]  # type: ignore[arg-type]

    assert worst(findings("open", "wrong", "fits")) == "wrong"
    assert worst(findings("open", "marginal")) == "open"
    assert worst(findings("marginal", "note")) == "marginal"
    assert worst(findings("note")) == "fits"
