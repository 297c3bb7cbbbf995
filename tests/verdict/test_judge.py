"""Checks from text to verdict, through the reader."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.verdict.judge import judge
from service.verdict.mates import parse_check
from service.verdict.model import NOT_LENGTHS, Verdict, Window


def ask(line: str, **fields: str) -> Verdict:
    """Judge a line."""
    return judge(parse_check({"line": line, **fields}))


def test_ambiguous_pin_in_a_5_mm_bore() -> None:
    """M5 dowel pin: the 8 mm pin with an M5 thread inside does not go in, the 5 mm pin does; so ask."""
    found = ask("M5 dowel pin", bore="5 H7", fit="location")
    assert (found.verdict, found.state) == ("ask", "ambiguous")
    threaded, plain = found.readings[:2]
    assert threaded.reading.family == "parallel pin with internal thread"
    assert (threaded.verdict, threaded.clearance) == ("wrong", Window(Decimal("-3.015"), Decimal("-2.994")))
    assert (plain.verdict, plain.clearance) == ("fits", Window(Decimal("-0.012"), Decimal("0.008")))
    assert found.order_text == "Parallel pin ISO 8734 - 5 x <length> - A - St"
    assert found.question


def test_same_line_in_an_8_mm_bore() -> None:
    """The same line against 8 H7: the first reading fits, the second rattles: ask, never fits."""
    found = ask("M5 dowel pin", bore="8 H7", fit="location")
    assert found.verdict == "ask"
    assert [one.verdict for one in found.readings[:2]] == ["fits", "wrong"]
    assert found.readings[1].findings[0].code == "rattles"


def test_clear_pin_fits() -> None:
    """A standard's designation is clear and fits, with and without a fit."""
    for fields in ({"fit": "location"}, {}):
        found = ask("ISO 8734 - 5 x 20 - A - St", bore="5 H7", **fields)
        assert (found.verdict, found.state, found.question) == ("fits", "clear", None)
        assert found.order_text == "Parallel pin ISO 8734 - 5 x 20 - A - St"
        assert found.share == 1


def test_short_screw_gets_the_length_that_clamps() -> None:
    """M4x45 through 42 mm is wrong by 3 mm of thread; 50 is the text to order, and rare."""
    found = ask("M4x45 socket head cap screw 8.8", clamp="42 into M4 depth 10 in aluminium")
    assert found.verdict == "wrong"
    assert "M4 x 50" in found.order_text
    assert found.findings[0].code == "rare-length"
    assert found.question is None


def test_contradiction_is_asked() -> None:
    """A standard that contradicts the words leaves two readings and a question."""
    found = ask("ISO 4762 dowel pin 5x20", bore="5 H7", fit="location")
    assert (found.verdict, found.state) == ("ask", "ambiguous")
    assert found.question


def test_unread_line_says_why() -> None:
    """A line that names no part is unread, with the reason as a finding."""
    found = ask("gizmo for the thing", bore="5 H7")
    assert (found.verdict, found.readings, found.order_text) == ("unread", (), "")
    assert found.findings[0].code == "unread"
    assert found.findings[0].text


def test_presence_accepts_what_is_read() -> None:
    """A part that only has to be there fits whatever its size, unless the line cannot be read."""
    assert ask("M5 dowel pin", presence="yes").verdict == "fits"
    assert ask("gizmo", presence="yes").verdict == "unread"


def test_same_check_is_remembered() -> None:
    """The same check asked twice is the same answer."""
    assert ask("M5 dowel pin", bore="5 H7") is ask("M5 dowel pin", bore="5 H7")


@pytest.mark.parametrize("word", ["slip", "location", "press"])
def test_every_finding_has_text_and_source(word: str) -> None:
    """No finding comes without words and a source."""
    for found in (
        ask("M5 dowel pin", bore="5 H7", fit=word),
        ask("M5x20 SHCS 12.9", clamp="10 into M5 depth 12 in brass"),
    ):
        for finding in [*found.findings, *(item for one in found.readings for item in one.findings)]:
            assert finding.text
            assert finding.source


SIZES = st.integers(10, 190).map(lambda n: Decimal(n) / 10)


LINES = ["M5 dowel pin", "dowel pin 5x20", "ISO 8734 - 6 x 20", "M5x20 SHCS", "M6 nut", "washer M5", "pin"]


@given(
    st.sampled_from(LINES),
    SIZES,
    st.sampled_from(["H7", "H12", "drilled"]),
    st.sampled_from(["slip", "location", "press", "H7/m6", ""]),
)
def test_fits_only_if_every_reading_fits(line: str, size: Decimal, made: str, fit: str) -> None:
    """Whatever the line and the bore, ``fits`` means that each reading fits; ``ask`` always comes with a question."""
    found = ask(line, bore=f"{size} {made}", fit=fit)
    verdicts = {one.verdict for one in found.readings}
    assert (found.verdict == "fits") == (verdicts == {"fits"})
    assert (found.verdict == "ask") == (found.question is not None and found.verdict != "unread")
    if found.verdict == "wrong":
        assert verdicts == {"wrong"}


LENGTHS = {
    *("clearance_lower", "clearance_upper", "window_lower", "window_upper", "engagement", "rule", "needed", "reach"),
    *("depth", "length", "length_tolerance", "protrusion", "nut_height", "pitch", "shank", "thread_length", "over"),
    *("hole", "hole_lower", "hole_upper", "thread_diameter", "fine", "medium", "coarse", "listed_to", "wanted"),
    *("made_for", "size", "floor_lower", "floor_upper", "thickness", "play", "gland_depth", "tolerance"),
}
CHECKS = (
    {"bore": "5 H7 depth 10 blind in aluminium", "fit": "location"},
    {"bore": "5 drilled"},
    {"bore": "5.5 H13"},
    {"shaft": "8 h6", "fit": "slip"},
    {"tapped": "M5 depth 10 in aluminium"},
    {"clamp": "10 into M5 depth 12 in aluminium"},
    {"clamp": "10 into nut M5"},
    {"pocket": "8.2 +0.1/0 depth 3"},
    {"groove": "9.6 h11 width 1.1 H13 on shaft 10"},
    {"rating": "24 V, 40 W margin 20 %"},
)


@pytest.mark.parametrize("line", ["dowel pin 5x20", "M5x20 SHCS 8.8", "M5x30 SHCS 12.9", "ISO 8752 - 5 x 24", "M5 nut"])
def test_every_number_of_a_finding_is_known_as_a_length_or_not(line: str) -> None:
    """A reply in inches converts the lengths and nothing else, so each number must be known as one or the other."""
    for fields in CHECKS:
        for one in ask(line, **fields).readings:
            for finding in one.findings:
                for name, value in finding.numbers.items():
                    assert isinstance(value, str) or (name in LENGTHS) != (name in NOT_LENGTHS), (finding.code, name)


def test_usual_fit_is_stated() -> None:
    """Where the standard's usual mate is the requirement, the verdict names it as its fit."""
    fit = ask("ISO 8734 - 5 x 20 - A - St", bore="5 H7").fit
    assert fit is not None
    assert fit.from_text.startswith("H7/m6 at 5 mm")
