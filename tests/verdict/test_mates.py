"""Request fields to checks: every mate, every fit, and every refusal."""

from decimal import Decimal
from typing import Any

import pytest

from service.verdict.mates import parse_check
from service.verdict.model import (
    BoreMate,
    CheckError,
    ClampMate,
    Mate,
    NutEnd,
    PresenceMate,
    ShaftMate,
    TappedHoleMate,
    Window,
)


def mate(**fields: object) -> Mate:
    """Return the mate of a check."""
    return parse_check({"line": "M5 dowel pin", **fields}).mate


def test_bore_with_depth_end_and_material() -> None:
    """A bore's short form may carry depth, end and material in any order."""
    for text in (
        "8H7 depth 20 blind in 6061-T6",
        "8 H7 blind 20 mm deep in 6061-T6",
        "8 H7, blind depth 20 in 6061-T6",
    ):
        bore = mate(bore=text.replace(",", ""))
        assert isinstance(bore, BoreMate)
        assert (bore.diameter.upper, bore.depth, bore.end) == (Decimal("8.015"), Decimal(20), "blind")
        assert bore.material is not None
        assert bore.material.grade == "6061-T6"


def test_inch_bore_is_not_taken_for_a_material() -> None:
    """``in`` between a number and a class is the inch."""
    bore = mate(bore="3/16 in H7")
    assert isinstance(bore, BoreMate)
    assert bore.diameter.nominal == Decimal("4.7625")
    assert bore.material is None


def test_bare_material_stands_for_one_stated_grade() -> None:
    """A bare word is taken for one ordinary grade, and that is stated."""
    hole = mate(tapped="M3 depth 6 in aluminium")
    assert isinstance(hole, TappedHoleMate)
    assert (hole.thread.designation, hole.depth) == ("M3", Decimal(6))
    assert hole.material is not None
    assert hole.material.assumed == "aluminium: taken as 6061-T6"


@pytest.mark.parametrize(
    ("text", "designation"), [("M8x1 depth 10", "M8x1"), ("1/4-20 UNC depth 10", "1/4-20 UNC"), ("G 1/8", "G 1/8")]
)
def test_tapped_hole_takes_any_thread(text: str, designation: str) -> None:
    """Fine, inch and pipe threads are named by their designation."""
    hole = mate(tapped=text)
    assert isinstance(hole, TappedHoleMate)
    assert hole.thread.designation == designation


def test_clamp_into_a_tapped_hole() -> None:
    """A stack is the sum of its layers, ending in a tapped hole."""
    clamp = mate(clamp="10+12+20 into M4 depth 10 in aluminium")
    assert isinstance(clamp, ClampMate)
    assert (clamp.layers, clamp.grip) == ((Decimal(10), Decimal(12), Decimal(20)), Decimal(42))
    assert isinstance(clamp.into, TappedHoleMate)
    assert clamp.into.depth == Decimal(10)


@pytest.mark.parametrize("text", ["20 into nut M5", "20 into M5 nut", "20 into nut M5 height 4.7"])
def test_clamp_into_a_nut(text: str) -> None:
    """A stack may end in a nut, whose height comes from ISO 4032 where none is given."""
    clamp = mate(clamp=text)
    assert isinstance(clamp, ClampMate)
    assert isinstance(clamp.into, NutEnd)
    assert (clamp.into.thread.designation, clamp.into.height) == ("M5", Decimal("4.7"))


def test_shaft_and_presence() -> None:
    """A shaft has its class; a presence needs nothing."""
    shaft = mate(shaft="8 h6")
    assert isinstance(shaft, ShaftMate)
    assert shaft.diameter.lower == Decimal("7.991")
    assert isinstance(mate(presence="yes"), PresenceMate)


@pytest.mark.parametrize(
    ("given", "short"),
    [
        ({"kind": "bore", "diameter": "5 H7", "depth": 20, "end": "blind", "material": "6061-T6"}, "bore"),
        ({"kind": "bore", "diameter": {"nominal": 5, "tolerance_class": "H7"}, "depth": "20 mm"}, "bore"),
        ({"kind": "shaft", "diameter": "8 h6"}, "shaft"),
        ({"kind": "tapped hole", "thread": "M3", "depth": 6, "material": "aluminium"}, "tapped hole"),
        ({"kind": "clamp", "layers": [10, 12, 20], "into": "M4 depth 10 in aluminium"}, "clamp"),
        ({"kind": "clamp", "grip": 42, "into": {"kind": "tapped hole", "thread": "M4", "depth": 10}}, "clamp"),
        ({"kind": "clamp", "layers": "10+32", "into": {"kind": "nut", "thread": "M5"}}, "clamp"),
        ({"kind": "presence"}, "presence"),
    ],
)
def test_mate_as_object(given: dict[str, Any], short: str) -> None:
    """Every mate can be given as an object."""
    assert mate(mate=given).kind == short


def test_object_and_short_form_agree() -> None:
    """Both forms of one mate give the same values."""
    one = mate(mate={"kind": "clamp", "layers": ["10", 12, "20 mm"], "into": "M4 depth 10 in aluminium"})
    other = mate(clamp="10+12+20 into M4 depth 10 in aluminium")
    assert isinstance(one, ClampMate)
    assert isinstance(other, ClampMate)
    assert (one.layers, one.grip, one.text) == (other.layers, other.grip, other.text)


def test_repeated_mates_are_shared() -> None:
    """The same text gives the same object, so that checks of it can be remembered."""
    assert mate(bore="5 H7") is mate(bore="5 H7")
    given = {"kind": "bore", "diameter": "5 H7"}
    assert mate(mate=given) is mate(mate=dict(given))


@pytest.mark.parametrize(
    ("text", "lower", "upper", "said"),
    [
        ("H7/m6", "-0.012", "0.008", "H7/m6 at 5 mm"),
        ("0.002..0.014", "0.002", "0.014", "as given"),
        ("-0.010..0", "-0.01", "0", "as given"),
        ("slip", "0", "0.024", "H7/g6 to H7/h6 at 5 mm, marginal up to H9/d9"),
        ("location", "-0.016", "0.011", "H7/k6 to H7/n6 at 5 mm"),
        ("press", "-0.027", "0", "H7/p6 to H7/s6 at 5 mm"),
    ],
)
def test_fit_states_its_window(text: str, lower: str, upper: str, said: str) -> None:
    """A class pair, a window and a word give a window of clearance at the mate's size, and say where it is from."""
    fit = parse_check({"line": "pin", "bore": "5 H7", "fit": text}).fit
    assert fit is not None
    assert fit.window == Window(Decimal(lower), Decimal(upper))
    assert fit.from_text == said


def test_fit_word_holds_at_the_mates_size_whatever_its_class() -> None:
    """A word's window does not follow the hole's own class."""
    fit = parse_check({"line": "pin", "bore": "5 H11", "fit": "location"}).fit
    assert fit is not None
    assert fit.window.upper == Decimal("0.011")


def test_empty_fields_count_as_absent() -> None:
    """A spreadsheet row may hold empty cells beside the one mate."""
    check = parse_check({"line": "pin", "bore": "5 H7", "shaft": "", "clamp": None, "fit": ""})
    assert isinstance(check.mate, BoreMate)
    assert check.fit is None


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"bore": "5 H7"}, "line"),
        ({"line": " ", "bore": "5 H7"}, "line"),
        ({"line": "x" * 501, "bore": "5 H7"}, "line"),
        ({"line": 5, "bore": "5 H7"}, "line"),
        ({"line": "pin"}, "mate"),
        ({"line": "pin", "bore": "5 H7", "shaft": "5 h6"}, "shaft"),
        ({"line": "pin", "hole": "5 H7"}, "hole"),
        ({"line": "pin", "bore": "5 H7", "fit": "snug"}, "fit"),
        ({"line": "pin", "bore": "5 H7", "fit": "m6/H7"}, "fit"),
        ({"line": "pin", "bore": "5 H7", "fit": "0.014..0.002"}, "fit"),
        ({"line": "pin", "bore": "5 H7", "fit": True}, "fit"),
        ({"line": "pin", "tapped": "M3 depth 6", "fit": "slip"}, "fit"),
        ({"line": "pin", "bore": 5}, "bore"),
        ({"line": "pin", "bore": "x" * 201}, "bore"),
        ({"line": "pin", "bore": "5 H7 depth 0"}, "bore"),
        ({"line": "pin", "bore": "5 H7 depth 3 depth 4"}, "bore"),
        ({"line": "pin", "bore": "5 H7 blind through"}, "bore"),
        ({"line": "pin", "bore": "5 H7 in cheese"}, "bore"),
        ({"line": "pin", "tapped": "Q7 depth 3"}, "tapped"),
        ({"line": "pin", "clamp": "46"}, "clamp"),
        ({"line": "pin", "clamp": "0 into M4 depth 3"}, "clamp"),
        ({"line": "pin", "clamp": "+".join(["1"] * 51) + " into M4"}, "clamp"),
        ({"line": "pin", "clamp": "9999+9999 into M4"}, "clamp"),
        ({"line": "pin", "clamp": "20 into nut M37"}, "clamp"),
        ({"line": "pin", "mate": {"kind": "socket"}}, "mate.kind"),
        ({"line": "pin", "mate": {"kind": "bore"}}, "mate.diameter"),
        ({"line": "pin", "mate": {"kind": "bore", "diameter": "5 H7", "dept": 5}}, "mate.dept"),
        ({"line": "pin", "mate": {"kind": "bore", "diameter": "5 H7", "end": "open"}}, "mate.end"),
        ({"line": "pin", "mate": {"kind": "bore", "diameter": "5 H7", "material": 7}}, "mate.material"),
        ({"line": "pin", "mate": {"kind": "bore", "diameter": "5 H7", "depth": -1}}, "mate.depth"),
        ({"line": "pin", "mate": {"kind": "clamp", "layers": [], "into": "M4"}}, "mate.layers"),
        ({"line": "pin", "mate": {"kind": "clamp", "layers": [1], "grip": 1, "into": "M4"}}, "mate"),
        ({"line": "pin", "mate": {"kind": "clamp", "layers": [1]}}, "mate.into"),
        ({"line": "pin", "mate": {"kind": "clamp", "grip": 1, "into": {"kind": "nut", "thread": "M37"}}}, "mate.into"),
        ({"line": "pin", "mate": "5 H7"}, "mate"),
        ({"line": "pin", "mate": [1]}, "mate"),
    ],
)  # fmt: skip
def test_bad_check_is_refused_by_field(fields: dict[str, Any], field: str) -> None:
    """A bad check names the field that is wrong, what is accepted, and an example."""
    with pytest.raises(CheckError) as caught:
        parse_check(fields)
    assert caught.value.field == field
    assert caught.value.accepted
