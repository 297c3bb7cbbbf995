"""Hole patterns: does the part bolt to the holes that are there?"""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import threads
from reference.quantities import Dimension, Limits
from service.reading.model import Reading
from service.verdict.hole_pattern import judge, part_holes
from service.verdict.mates import parse_mate
from service.verdict.model import CheckError

THREADS = ("screw_size", "internal_thread")


def part(family: str, **sizes: str) -> Reading:
    """Return a part with sizes and threads."""
    dimensions: dict[str, Dimension] = {}
    for key, text in sizes.items():
        thread = threads.parse(text) if key in THREADS else None
        dimensions[key] = thread or (text if key == "size_class" else Limits(Decimal(text)))
    return Reading(family, (), "", "stated", dimensions)


RAIL = part("guide rail", hole_pitch="25", end_distance="10", hole_diameter="3.5", screw_size="M3", length="400")
CARRIAGE = part("guide carriage", hole_spacing_along="16", hole_spacing_across="15", internal_thread="M3")
MOTOR = part("motor", hole_spacing="31", screw_size="M3", size_class="NEMA17")


def judged(reading: Reading, pattern: str) -> tuple[str, list[str]]:
    """Return the verdict and the codes of the findings."""
    found = judge(reading, parse_mate("pattern", pattern), None)
    return found.verdict, [finding.code for finding in found.findings]


def test_replacement_rail_bolts_to_the_old_holes() -> None:
    """25 mm on 25 mm with M3 through 3.5 mm: with 0.2 mm of position tolerance each, 0.05 mm are left."""
    found = judge(RAIL, parse_mate("pattern", "16 x M3 at 25 position 0.2"), None)
    assert (found.verdict, found.share) == ("fits", Decimal(1))
    numbers = found.findings[1].numbers
    assert (numbers["offset"], numbers["allowed"], numbers["allowed_worst"]) == (0, Decimal("0.25"), Decimal("0.05"))
    assert "fixed fasteners" in found.findings[1].text


@pytest.mark.parametrize(
    ("pattern", "verdict", "code"),
    [
        ("16 x M3 at 25", "fits", "pattern-bolts-up"),
        ("10 x M3 at 40", "wrong", "pattern-differs"),
        ("16 x M3 at 25.4", "wrong", "pattern-differs"),
        ("2 x M3 at 25.4", "marginal", "some-do-not-bolt-up"),
        ("16 x M3 at 25 position 0.4", "marginal", "some-do-not-bolt-up"),
        ("16 x M3 at 25 ±0.01", "marginal", "some-do-not-bolt-up"),
        ("16 x M3 at 24.9 ±0.01", "wrong", "pattern-differs"),
        ("17 x M3 at 25", "wrong", "too-few-holes"),
        ("10 x M4 at 25", "wrong", "screw-does-not-pass"),
        ("10 x M2 at 25", "fits", "pattern-bolts-up"),
        ("10 x 3.4 for M3 at 25", "fits", "pattern-bolts-up"),
        ("8 x M3 at 25 x 30", "wrong", "pattern-differs"),
        ("4 x M3 on circle 35", "wrong", "pattern-differs"),
    ],
)
def test_rail_on_other_holes(pattern: str, verdict: str, code: str) -> None:
    """Pitch, number, screw and position decide."""
    found = judged(RAIL, pattern)
    assert (found[0], found[1][-1]) == (verdict, code)


def test_a_difference_of_pitch_adds_up_along_the_row() -> None:
    """0.4 mm a hole is 0.2 mm off on two holes laid evenly, 3 mm on sixteen."""
    two, sixteen = (
        judge(RAIL, parse_mate("pattern", f"{count} x M3 at 25.4"), None).findings[1].numbers["offset"]
        for count in (2, 16)
    )
    assert (two, sixteen) == (Decimal("0.2"), Decimal(3))


def test_the_share_of_pairs_is_given_where_not_all_bolt_up() -> None:
    """It falls with the position tolerance and with the number of holes."""
    shares = [
        judge(RAIL, parse_mate("pattern", f"{count} x M3 at 25 position {zone}"), None).share
        for count, zone in ((16, "0.35"), (16, "0.4"), (16, "0.6"))
    ]
    assert shares == sorted(shares, key=lambda share: -share if share else 0)
    few = judge(RAIL, parse_mate("pattern", "2 x M3 at 25 position 0.6"), None).share
    assert few is not None
    assert shares[-1] is not None
    assert 1 > few > shares[-1] > 0


def test_tapped_part_on_clearance_holes() -> None:
    """A carriage takes the screws itself; it may lie either way round; M3 through 3.4 mm just allows 0.2 mm each."""
    assert judged(CARRIAGE, "4 x 3.4 at 16 x 15")[0] == "fits"
    assert judged(CARRIAGE, "4 x 3.4 at 15 x 16")[0] == "fits"
    assert judged(CARRIAGE, "4 x 3.4 at 20 x 20")[0] == "wrong"
    assert judged(CARRIAGE, "4 x 3.4 for M4 at 16 x 15") == ("wrong", ["thread-diameter"])
    assert judged(CARRIAGE, "4 x 2.9 at 16 x 15") == ("wrong", ["screw-does-not-pass"])
    assert judged(CARRIAGE, "4 x M3 at 16 x 15") == ("wrong", ["both-tapped"])


def test_square_of_holes_is_a_circle_too() -> None:
    """The four holes of a motor, 31 mm square, lie on a circle of 43.84 mm."""
    assert judged(MOTOR, "4 x 3.4 at 31 x 31")[0] == "fits"
    assert judged(MOTOR, "4 x 3.5 on circle 43.84")[0] == "fits"
    assert judged(MOTOR, "4 x 3.5 on circle 42")[0] == "wrong"
    assert judged(MOTOR, "4 x M3 at 31 x 31") == ("wrong", ["both-tapped"])
    large = part("motor", hole_spacing="47.14", screw_size="M5", size_class="NEMA23")
    assert judged(large, "4 x M5 at 47.14 x 47.14")[0] == "fits"
    nut = part("lead screw nut", bolt_circle="16", holes="4", hole_diameter="3.5")
    assert judged(nut, "4 x M3 on circle 16")[0] == "fits"
    assert judged(nut, "4 x M3 at 11.31 x 11.31")[0] == "fits"
    assert judged(nut, "6 x M3 on circle 16") == ("wrong", ["too-few-holes"])


def test_holes_of_the_part_are_assumed_for_its_screw() -> None:
    """A block made for M5 is taken with medium holes, and says so; without a screw the hole is asked for."""
    block = part("bearing block", hole_spacing="42", screw_size="M5")
    found = judge(block, parse_mate("pattern", "2 x M5 at 42"), None)
    assert found.verdict == "fits"
    assert "its holes taken as 5.5 mm, medium for M5 (ISO 273)" in found.findings[1].text
    assert judged(part("bearing block", hole_spacing="42"), "2 x M5 at 42") == ("open", ["hole-not-stated"])
    plain = part("guide rail", hole_pitch="25", hole_diameter="3.5")
    assert judged(plain, "4 x 3.4 at 25") == ("open", ["screw-not-stated"])


def test_two_clearance_holes_share_a_bolt() -> None:
    """A floating fastener: both clearances count."""
    found = judge(RAIL, parse_mate("pattern", "10 x 3.4 for M3 at 25"), None)
    assert found.findings[1].numbers["allowed"] == Decimal("0.45")
    assert "floating fasteners" in found.findings[1].text


def test_other_parts() -> None:
    """A rail without figures is asked for, a nut is no part of this kind."""
    assert judged(part("guide rail"), "4 x M3 at 25") == ("open", ["dimension-missing"])
    assert judged(part("hex nut"), "4 x M3 at 25") == ("wrong", ["wrong-kind"])


def test_how_many_holes_a_rail_has() -> None:
    """As many as fit between its ends, in each row; a longer rail than asked for is no fault."""
    rail = part_holes(RAIL)
    assert rail is not None
    assert rail.most == 16
    supported = part_holes(part("supported shaft", hole_pitch="100", hole_spacing="25", screw_size="M4", length="500"))
    assert supported is not None
    assert (supported.most, supported.across) == (10, Decimal(25))
    assert judged(RAIL, "8 x M3 at 25")[0] == "fits"
    two_rows = part("supported shaft", hole_pitch="100", hole_spacing="25", screw_size="M4")
    assert judged(two_rows, "2 x M4 at 25")[0] == "fits"
    assert judged(two_rows, "4 x M4 at 25")[0] == "wrong"


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"count": 1, "thread": "M3", "pitch": 25}, "mate.count"),
        ({"count": True, "thread": "M3", "pitch": 25}, "mate.count"),
        ({"count": 3, "thread": "M3", "pitch": 25, "across": 20}, "mate.count"),
        ({"count": 4, "pitch": 25}, "mate"),
        ({"count": 4, "thread": "M3", "hole": 3.4, "pitch": 25}, "mate"),
        ({"count": 4, "thread": "M3", "screw": "M3", "pitch": 25}, "mate"),
        ({"count": 4, "thread": "M3"}, "mate"),
        ({"count": 4, "thread": "M3", "pitch": 25, "circle": 40}, "mate"),
        ({"count": 4, "thread": "Q3", "pitch": 25}, "mate.thread"),
        ({"count": 4, "thread": "M3", "pitch": "wide"}, "mate.pitch"),
        ({"count": 4, "thread": "M3", "pitch": 25, "position": 0}, "mate.position"),
        ({"count": 4, "thread": "M3", "pitch": 25, "slots": 1}, "mate.slots"),
        ({"thread": "M3", "pitch": 25}, "mate.count"),
    ],
)
def test_what_is_not_understood_is_named(given: dict[str, object], field: str) -> None:
    """The part of the mate, with an example."""
    with pytest.raises(CheckError) as caught:
        parse_mate("mate", {"kind": "hole pattern", **given})
    assert caught.value.field == field
    with pytest.raises(CheckError):
        parse_mate("pattern", "M3 at 25")


def test_short_form_and_object_say_the_same() -> None:
    """A thread and a diameter are told apart; the designation of an inch thread begins with a number."""
    mate = parse_mate("pattern", "4 x 3.4 H13 for M3 at 31 x 31 position 0.1")
    same = parse_mate(
        "mate",
        {
            "kind": "hole pattern",
            "count": 4,
            "hole": "3.4 H13",
            "screw": "M3",
            "pitch": 31,
            "across": 31,
            "position": 0.1,
        },
    )
    names = ("text", "count", "thread", "hole", "screw", "pitch", "across", "circle", "position")
    assert [getattr(mate, name) for name in names] == [getattr(same, name) for name in names]
    inch = parse_mate("pattern", "4 x 1/4-20 UNC at 2 in")
    assert inch.thread.designation == "1/4-20 UNC"
    assert inch.pitch.nominal == Decimal("50.8")


@given(st.integers(2, 40), st.decimals("20", "30", places=2))
def test_a_part_with_the_same_pitch_always_bolts_up(count: int, pitch: Decimal) -> None:
    """And one whose pitch is a clearance apart never does."""
    rail = part("guide rail", hole_pitch=str(pitch), hole_diameter="3.5", screw_size="M3")
    assert judged(rail, f"{count} x M3 at {pitch}")[0] == "fits"
    assert judged(rail, f"{count} x M3 at {pitch + Decimal('0.51')}")[0] == "wrong"
