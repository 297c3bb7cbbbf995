"""Belt paths: does the belt mesh, is it long enough, what tension travel is left?"""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference.quantities import Limits
from service.reading.model import Reading
from service.strength.belts import centre_distance, open_belt_length, toothed_diameter
from service.verdict.belt_path import judge
from service.verdict.mates import parse_fit, parse_mate
from service.verdict.model import CheckError, Finding, JudgedReading

TWO = "20T and 60T GT2 at 78..84"


def belt(profile: str | None = "GT2", **sizes: str) -> Reading:
    """Return a belt."""
    dimensions = {key: Limits(Decimal(text)) for key, text in sizes.items()}
    return Reading("timing belt", (), "", "stated", dimensions, attributes={"profile": profile} if profile else {})


def judged(reading: Reading, path: str) -> JudgedReading:
    """Judge a belt on a path in its short form."""
    return judge(reading, parse_mate("path", path), None)


def codes(found: JudgedReading) -> list[str]:
    """Return the codes of what decides."""
    return [finding.code for finding in found.findings if finding.weight != "note"]


def last(found: JudgedReading) -> Finding:
    """Return the last finding that decides."""
    return [finding for finding in found.findings if finding.weight != "note"][-1]


def test_belt_around_two_pulleys_and_the_travel_left() -> None:
    """121 teeth of GT2 are taut at 79.984 mm: 4.016 mm of travel are left."""
    found = judged(belt(pitch_length="242"), TWO)
    assert (found.verdict, found.share) == ("fits", Decimal(1))
    numbers = last(found).numbers
    assert numbers["centres"] == Decimal("79.984")
    assert numbers["travel_left"] == Decimal("4.016")
    assert numbers["travel_used"] == Decimal("1.984")
    centres = float(numbers["centres"])
    assert open_belt_length(toothed_diameter(60, 2), toothed_diameter(20, 2), centres) == pytest.approx(242, abs=0.002)


@pytest.mark.parametrize(
    ("reading", "path", "verdict", "code"),
    [
        (belt(pitch_length="236"), TWO, "wrong", "belt-too-short"),
        (belt(pitch_length="252"), TWO, "wrong", "belt-too-long"),
        (belt(pitch_length="238"), TWO, "marginal", "some-belts-do-not-fit"),
        (belt(pitch_length="250"), TWO, "marginal", "some-belts-do-not-fit"),
        (belt(pitch_length="242"), "20T and 60T GT2 at 80", "marginal", "some-belts-do-not-fit"),
        (belt(teeth="121"), TWO, "fits", "belt-fits"),
        (belt(), TWO, "open", "length-missing"),
        (belt(pitch_length="243"), TWO, "wrong", "belt-fits"),
        (belt(pitch_length="242", teeth="120"), TWO, "wrong", "belt-fits"),
        (belt(length="1000"), TWO, "wrong", "open-belt"),
        (belt("MXL", pitch_length="243.84"), TWO, "wrong", "pitch-differs"),
        (belt("GT3", pitch_length="300"), "20T and 20T HTD 3M at 110..125", "marginal", "belt-fits"),
        (belt(None, pitch_length="242"), TWO, "open", "belt-fits"),
        (belt(pitch_length="242", belt_width="9"), f"{TWO} width 6", "wrong", "belt-fits"),
        (belt(pitch_length="242", belt_width="6"), f"{TWO} width 9", "marginal", "belt-fits"),
        (belt(pitch_length="242", belt_width="6"), f"{TWO} width 6", "fits", "belt-fits"),
        (belt(pitch_length="242"), f"{TWO} width 6", "open", "belt-fits"),
    ],
)
def test_closed_belts(reading: Reading, path: str, verdict: str, code: str) -> None:
    """Pitch, form, width, whole teeth and length decide."""
    found = judged(reading, path)
    assert (found.verdict, last(found).code) == (verdict, code)


def test_what_the_line_leaves_open_of_a_belt() -> None:
    """Neither pitch nor profile, or the pitch without the form of the teeth."""
    assert codes(judged(belt(None, pitch_length="242"), TWO))[0] == "pitch-not-stated"
    assert codes(judged(belt(None, pitch_length="242", pitch="2"), TWO))[0] == "profile-not-stated"


def test_belt_of_another_pitch_is_told_by_its_danger() -> None:
    """2.032 mm on 2 mm seems to mesh by hand."""
    found = judged(belt("MXL", pitch_length="243.84"), TWO)
    assert "jumps under load" in found.findings[0].text
    assert found.cautions


def test_belt_that_may_be_open_or_closed() -> None:
    """A length alone may be either: asked for where it would do, wrong where it would not."""
    unsure = belt(length="242")._replace(order_text="Timing belt GT2, width 6 mm, length 242 mm")
    found = judged(unsure, TWO)
    assert (found.verdict, last(found).code) == ("open", "open-or-closed")
    assert "closed it has to be" in last(found).text
    assert judged(unsure, "20T and 60T GT2 at 100..110").verdict == "wrong"
    assert judged(unsure, "open GT2 path 200").verdict == "open"
    stated = unsure._replace(order_text="Timing belt GT2, open, width 6 mm, length 242 mm")
    assert last(judged(stated, TWO)).code == "open-belt"


def test_share_of_belts_that_can_be_tightened() -> None:
    """Without an adjustment a belt 0.03 mm too short is tightened as often as its tolerance lets it."""
    found = judged(belt(pitch_length="242"), "20T and 60T GT2 at 80")
    assert found.share == Decimal("0.5893")
    assert last(found).numbers["length_tolerance"] == Decimal("0.41")


def test_missing_length_names_the_teeth_that_go() -> None:
    """Whole teeth between the ends of the adjustment."""
    assert last(judged(belt(), TWO)).text.endswith("120 to 124 teeth")


def test_few_teeth_in_mesh_are_told() -> None:
    """A small pulley beside a large one, near it."""
    found = judged(belt(pitch_length="172"), "10T and 80T GT2 at 30..40")
    assert [one.code for one in found.findings if one.weight == "note"] == ["few-teeth-in-mesh"]


def test_three_pulleys_of_which_one_tightens() -> None:
    """A smooth idler moves out; the order of the pulleys does not matter; on the back it presses in."""
    pulleys = [{"x": 0, "y": 0, "teeth": 20}, {"x": 60, "y": 80, "teeth": 20}, {"x": 80, "y": 0, "diameter": 12}]
    given = {"kind": "belt path", "profile": "GT2", "pulleys": pulleys, "moves": {"pulley": 3, "x": 10}}
    mate = parse_mate("mate", given)
    turned = parse_mate("mate", {**given, "pulleys": pulleys[::-1], "moves": {"pulley": 1, "x": 10}})
    assert mate.path == turned.path
    found = judge(belt(pitch_length="310"), mate, None)
    assert found.verdict == "fits"
    numbers = last(found).numbers
    assert Decimal(numbers["travel_used"]) + Decimal(numbers["travel_left"]) == 10
    assert judge(belt(pitch_length="300"), mate, None).verdict == "wrong"
    pressed = [pulleys[0], {"x": 100, "y": 0, "teeth": 20}, {"x": 50, "y": 10, "diameter": 12, "back": True}]
    pressing = {"kind": "belt path", "profile": "GT2", "pulleys": pressed, "moves": {"pulley": 3, "y": -6}}
    path = parse_mate("mate", pressing).path
    assert path.low < path.high


def test_open_belt_reaches_between_its_clamps() -> None:
    """1201 mm are 601 teeth, 12 more are clamped; what is over in whole teeth the tensioner takes up."""
    found = judged(belt(length="1300"), "open GT2 path 1201 clamps 6 travel 5")
    assert found.verdict == "fits"
    reaches, travel = found.findings[1:]
    assert (reaches.numbers["teeth"], reaches.numbers["needed_length"], reaches.numbers["spare"]) == (613, 1226, 74)
    assert (travel.numbers["slack"], travel.numbers["travel_left"]) == (1, Decimal("3.3"))


@pytest.mark.parametrize(
    ("reading", "path", "verdict", "code"),
    [
        (belt(length="1225"), "open GT2 path 1201 clamps 6 travel 5", "wrong", "belt-too-short"),
        (belt(length="1226"), "open GT2 path 1201 clamps 6 travel 5", "fits", "travel-enough"),
        (belt(length="1300"), "open GT2 path 1201 clamps 6 travel 1", "marginal", "travel-short"),
        (belt(length="1300"), "open GT2 path 1201", "fits", "belt-reaches"),
        (belt(pitch_length="1300"), "open GT2 path 1201", "wrong", "closed-belt"),
        (belt(), "open GT2 path 1201", "open", "length-missing"),
    ],
)
def test_open_belts(reading: Reading, path: str, verdict: str, code: str) -> None:
    """Length and tension travel decide."""
    found = judged(reading, path)
    assert (found.verdict, last(found).code) == (verdict, code)


def test_open_path_over_pulleys() -> None:
    """Out to a pulley and back: two runs and half its teeth, whichever side the clamps lie on."""
    ends = [{"x": 0, "y": 0}, {"x": 300, "y": 10, "teeth": 20}, {"x": 0, "y": 20}]
    given = {"kind": "belt path", "profile": "GT2", "open": True, "pulleys": ends}
    mate = parse_mate("mate", given)
    assert float(mate.path.nominal) == pytest.approx(620.38, abs=0.5)
    mirrored = parse_mate("mate", {**given, "pulleys": [{**one, "y": -int(str(one["y"]))} for one in ends]})
    assert mate.path == mirrored.path


def test_other_parts_and_fits_are_refused() -> None:
    """A pulley is no belt; a path has no fit."""
    pulley = Reading("timing pulley", (), "", "stated", {})
    assert codes(judged(pulley, TWO)) == ["wrong-kind"]
    with pytest.raises(CheckError, match="no fit with a belt path"):
        parse_fit("press", parse_mate("path", TWO))


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"profile": "Q9", "path_length": 1200}, "mate.profile"),
        ({"path_length": 1200}, "mate.profile"),
        ({"profile": "GT2"}, "mate"),
        ({"profile": "GT2", "path_length": 1200, "teeth": [20, 60]}, "mate"),
        ({"profile": "GT2", "teeth": [20], "centres": 80}, "mate.teeth"),
        ({"profile": "GT2", "teeth": [20, 2], "centres": 80}, "mate.teeth"),
        ({"profile": "GT2", "teeth": [20, 60]}, "mate.centres"),
        ({"profile": "GT2", "teeth": [20, 600], "centres": 80}, "mate.centres"),
        ({"profile": "GT2", "teeth": [20, 60], "centres": "78..84", "travel": 3}, "mate.centres"),
        ({"profile": "GT2", "path_length": -5}, "mate.path_length"),
        ({"profile": "GT2", "path_length": 1200, "clamp_teeth": "many"}, "mate.clamp_teeth"),
        ({"profile": "GT2", "pulleys": [{"x": 0, "y": 0, "teeth": 20}]}, "mate.pulleys"),
        ({"profile": "GT2", "pulleys": [{"x": 0, "y": 0, "teeth": 20}, 7]}, "mate.pulleys.1"),
        ({"profile": "GT2", "pulleys": [{"x": 0, "y": 0}, {"x": 50, "teeth": 20}]}, "mate.pulleys.1.y"),
        ({"profile": "GT2", "pulleys": [{"x": 0, "y": 0, "teeth": 20}, {"x": 5, "y": 0, "teeth": 20}]}, "mate.pulleys"),
        ({"profile": "GT2", "teeth": [20, 60], "centres": 80, "speed": 3}, "mate.speed"),
    ],
)
def test_what_is_not_understood_is_named(given: dict[str, object], field: str) -> None:
    """The part of the mate, with an example."""
    with pytest.raises(CheckError) as caught:
        parse_mate("mate", {"kind": "belt path", **given})
    assert caught.value.field == field
    with pytest.raises(CheckError):
        parse_mate("path", "somewhere")


@given(st.integers(12, 60), st.integers(12, 60), st.integers(90, 400))
def test_belt_of_the_length_of_its_path_always_fits(one: int, other: int, teeth: int) -> None:
    """Where the adjustment reaches well to either side of it; it is taut at the centre distance of the formula."""
    sizes = toothed_diameter(one, 2), toothed_diameter(other, 2)
    try:
        centres = centre_distance(*sizes, teeth * 2)
    except ValueError:
        return
    if centres - teeth * 0.02 < sum(sizes) / 2:
        return
    found = judged(
        belt(teeth=str(teeth)), f"{one}T and {other}T GT2 at {centres - teeth * 0.02:.3f} travel {teeth * 0.04:.3f}"
    )
    assert found.verdict == "fits"
    assert float(last(found).numbers["centres"]) == pytest.approx(centres, abs=0.002)
