"""Proposals: every one fits, the usual come first, what is rare is flagged, substitutes say where they differ."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.proposals.model import Proposal, Proposals
from service.proposals.propose import propose
from service.proposals.wanted import parse_wanted
from service.reading import read
from service.verdict.judge import judge
from service.verdict.model import Check, CheckError

CASES = (
    {"bore": "5 H7", "fit": "location"},
    {"bore": "5 H7 depth 20 blind in aluminium", "fit": "location"},
    {"bore": "5 H7"},
    {"bore": "5 H12"},
    {"bore": "4 +0.1/0"},
    {"bore": "10 H7", "fit": "press"},
    {"bore": "12 H7", "fit": "press"},
    {"bore": "15 H7"},
    {"bore": "22 H7", "fit": "H7/h6"},
    {"bore": "22 H9"},
    {"bore": "5.5 H13"},
    {"bore": "8 drilled", "fit": "slip"},
    {"shaft": "8 h6"},
    {"shaft": "10 k6", "fit": "-0.02..0.003"},
    {"shaft": "20 g6", "fit": "-0.01..0.04"},
    {"tapped": "M10 depth 15"},
    {"tapped": "M4 depth 6", "family": "set screw"},
    {"tapped": "1/4-20 UNC"},
    {"clamp": "46 into M3 depth 6 in aluminium"},
    {"clamp": "42 into M4 depth 10 in aluminium"},
    {"clamp": "10 ±0.1+washer into M5 depth 12 in 6061-T6"},
    {"clamp": "20 into nut M10"},
    {"clamp": "20+washer into lock nut M8", "material": "A2"},
    {"clamp": "12.7 into 1/4-20 UNC depth 16 in aluminium"},
    {"groove": "9.55..9.6 width 1.1 H13 on shaft 10"},
    {"groove": "23 H11 width 1.1 H13 in bore 22"},
    {"groove": "22.4 h9 width 2.6 on shaft against bore 25.2 H8"},
    {"pattern": "16 x M3 at 25 position 0.2"},
    {"pattern": "4 x 3.4 at 31 x 31"},
    {"pattern": "2 x M5 at 32"},
    {"path": "20T and 60T GT2 at 78..84 width 6"},
    {"path": "open GT2 path 1201 clamps 6 travel 5"},
    {"pocket": "8.2 +0.1/0 depth 3"},
    {"rating": "40 GiB margin 20 %"},
    {"rating": "24 V, 40 W margin 20 %"},
    {"rating": "2 A"},
)


def proposed(**fields: object) -> Proposals:
    """Return the proposals for the fields of a request."""
    return propose(parse_wanted(fields))


def texts(found: Proposals) -> list[str]:
    """Return the order texts."""
    return [one.order_text for one in found.proposals]


def assert_fits(found: Proposals) -> None:
    """Every text, of substitutes too, is read as one part of its family and judged to fit."""
    for one in found.proposals:
        for text in (one.order_text, *(other.order_text for other in one.substitutes)):
            line = read(text)
            assert [reading.family for reading in line.readings] == [one.family], text
            assert line.state == "clear", text
            assert judge(Check(text, found.wanted.mate, found.wanted.fit)).verdict == "fits", text


@pytest.mark.parametrize("fields", CASES, ids=lambda fields: " ".join(map(str, fields.values())))
def test_whatever_is_proposed_fits(fields: dict[str, object]) -> None:
    """Judged again by its own order text; something is proposed, or a reason is given."""
    found = proposed(**fields)
    assert_fits(found)
    assert bool(found.proposals) != bool(found.reason)
    assert len(texts(found)) == len(set(texts(found))) <= 12
    assert [one.rare for one in found.proposals] == sorted(one.rare for one in found.proposals)


SIZES = st.decimals("2", "40", places=1)
CLASSES = st.sampled_from(("H6", "H7", "H8", "H9", "H11", "H12", "N7", "P7", "F7"))
FITS = st.sampled_from((None, "slip", "location", "press", "H7/m6", "H7/h6", "-0.03..0.01"))


@given(SIZES, CLASSES, FITS)
def test_whatever_is_proposed_for_any_bore_fits(size: Decimal, name: str, fit: str | None) -> None:
    """At any size, class and fit."""
    assert_fits(proposed(bore=f"{size} {name}", fit=fit))


@given(SIZES, st.sampled_from(("h6", "h9", "g6", "k6", "m6")), FITS)
def test_whatever_is_proposed_for_any_shaft_fits(size: Decimal, name: str, fit: str | None) -> None:
    """At any size, class and fit."""
    assert_fits(proposed(shaft=f"{size} {name}", fit=fit))


@given(
    st.decimals("3", "90", places=1),
    st.sampled_from(("M3", "M4", "M5", "M6", "M8", "M10")),
    st.decimals("4", "30", places=1),
    st.sampled_from(("aluminium", "steel", "plastic")),
)
def test_whatever_is_proposed_for_any_stack_fits(grip: Decimal, thread: str, depth: Decimal, material: str) -> None:
    """It neither bottoms nor engages too little."""
    assert_fits(proposed(clamp=f"{grip} into {thread} depth {depth} in {material}"))
    assert_fits(proposed(clamp=f"{grip} into nut {thread}"))


def first(found: Proposals) -> Proposal:
    """Return the first proposal."""
    return found.proposals[0]


def test_pins_for_a_reamed_hole() -> None:
    """A hardened m6 pin first; others say what they are made of."""
    found = first(proposed(bore="5 H7", fit="location"))
    assert found.order_text == "Parallel pin ISO 8734 - 5 x <length> - A - St"
    assert found.standards[0] == "ISO 8734"
    assert found.missing == ("length",)
    assert "clearance -0.012..0.008 mm, within -0.016..0.011" in found.why
    others = {other.standards[0]: other.differs for other in found.substitutes}
    assert others["DIN 6325"] == ()
    assert others["ISO 2338"] == ("unhardened steel instead of hardened steel",)
    assert first(proposed(bore="5 H7 depth 20", fit="location")).order_text.startswith("Parallel pin ISO 8734 - 5 x 20")


def test_no_pin_where_the_fit_is_none_of_theirs() -> None:
    """An m6 pin is no press fit in H7; a spring pin grips whatever the fit."""
    assert not any("Parallel pin" in text for text in texts(proposed(bore="5 H7", fit="press")))
    assert texts(proposed(bore="5 H12"))[0] == "Spring pin ISO 8752 - 5 x <length> - St"


@pytest.mark.parametrize(("size", "iso", "din"), [("M10", 16, 17), ("M12", 18, 19), ("M14", 21, 22), ("M22", 34, 32)])
def test_hexagons_that_differ_between_iso_and_din(size: str, iso: int, din: int) -> None:
    """The spanner of DIN 933 is another than that of ISO 4017."""
    found = proposed(clamp=f"20 into nut {size}", family="hex head screw (threaded to the head)")
    assert first(found).standards[0] == "ISO 4017"
    substitute = next(one for one in first(found).substitutes if one.standards == ("DIN 933",))
    assert any(f"across flats {din}" in text and f"instead of {iso}" in text for text in substitute.differs)


def test_no_fine_thread_stands_for_a_coarse_one() -> None:
    """DIN 961 and ISO 8676 share the table of their coarse sisters."""
    found = proposed(clamp="20 into nut M10")
    assert not {"DIN 961", "DIN 960", "ISO 8676"} & {name for one in found.proposals for name in one.standards}


def test_length_beyond_the_list_is_rare() -> None:
    """M3 through 46 mm wants 50 mm, which ISO 4762 does not list; 42 mm of M4 are answered the same way."""
    found = proposed(clamp="46 into M3 depth 6 in aluminium")
    assert first(found).order_text == "Hexagon socket head cap screw ISO 4762 - M3 x 50 - 8.8"
    assert first(found).rare
    assert "hard to find" in first(found).why
    assert "lists" in first(found).why
    listed = first(proposed(clamp="20 into M4 depth 11 in aluminium"))
    assert (listed.order_text, listed.rare) == ("Hexagon socket head cap screw ISO 4762 - M4 x 30 - 8.8", False)


def test_usual_bearings_come_first() -> None:
    """608 before 636; a linear bearing of the usual series before others."""
    assert texts(proposed(bore="22 H7", fit="H7/h6"))[0] == "Ball bearing 608, 8 x 22 x 7 mm"
    assert texts(proposed(shaft="8 h6"))[0] == "Linear ball bearing LM8UU, 8 x 15 x 24 mm"
    assert any("DIN 471" in text for text in texts(proposed(shaft="8 h6")))
    assert any("Shaft collar" in text for text in texts(proposed(shaft="8 h6")))


def test_bush_keeps_its_standard() -> None:
    """Its limits are those of its standard, which the text therefore names."""
    found = proposed(bore="12 H7", fit="press", family="plain bush")
    assert found.proposals
    assert all("ISO" in one.order_text for one in found.proposals)


def test_family_length_and_material_can_be_asked_for() -> None:
    """Only what has them is proposed."""
    hexagon = "hex head screw (threaded to the head)"
    found = proposed(clamp="20 into nut M8", material="stainless steel", family=hexagon, length=35)
    assert found.proposals
    assert all("x 35 - A2-70" in one.order_text for one in found.proposals)
    rare = proposed(bore="5 H7", fit="location", length=37, family="parallel pin")
    assert first(rare).rare
    assert not proposed(clamp="20 into nut M8", length=10).proposals


def test_other_kinds() -> None:
    """Rails in the length that holds the holes, belts of whole teeth, magnets, ratings."""
    rail = first(proposed(pattern="16 x M3 at 25 position 0.2"))
    assert (rail.order_text, rail.rare) == ("Guide rail MGN12, length 395", False)
    assert "Stepper motor NEMA17" in texts(proposed(pattern="4 x 3.4 at 31 x 31"))
    belts = texts(proposed(path="20T and 60T GT2 at 78..84 width 6"))
    assert belts[0] == "Timing belt GT2, closed, width 6 mm, pitch length 240 mm"
    assert texts(proposed(path="open GT2 path 1201 clamps 6")) == ["Timing belt GT2, open, width 6 mm, length 1300 mm"]
    assert texts(proposed(pocket="8.2 +0.1/0 depth 3")) == ["Magnet disc, diameter 8 x 3, N35"]
    assert texts(proposed(rating="40 GiB margin 20 %"))[0] == "microSD card 64 GB"
    assert texts(proposed(rating="24 V, 40 W margin 20 %"))[0] == "Power supply 24 V 50 W"
    assert texts(proposed(groove="22.4 h9 width 2.6 on shaft against bore 25.2 H8"))[0] == "O-ring AS568-020"
    assert texts(proposed(tapped="M4 depth 6", family="set screw"))[0].startswith(
        "Hexagon socket set screw ISO 4026 - M4 x 6"
    )


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"presence": "yes"}, "can be anything"),
        ({"shaft": "3.3 h6"}, "state the fit"),
        ({"bore": "5", "fit": "location"}, "limits of the bore are not stated"),
        ({"bore": "5 H7", "fit": "location", "family": "hex nut"}, "no hex nut"),
        ({"clamp": "20 into nut M8", "length": "10"}, "no standard part of 10 mm"),
        ({"clamp": "20 into nut M8", "material": "unobtainium"}, "in unobtainium"),
    ],
)
def test_where_nothing_goes_the_reason_is_told(fields: dict[str, object], says: str) -> None:
    """And what would help."""
    found = proposed(**fields)
    assert found.proposals == ()
    assert says in str(found.reason)


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({}, "mate"),
        ({"bore": "5 H7", "shaft": "8 h6"}, "mate"),
        ({"boar": "5 H7"}, "boar"),
        ({"bore": "5 Q7"}, "bore"),
        ({"bore": "5 H7", "fit": "tightish"}, "fit"),
        ({"tapped": "M4", "fit": "press"}, "fit"),
        ({"bore": "5 H7", "family": "pinn"}, "family"),
        ({"bore": "5 H7", "length": "long"}, "length"),
        ({"bore": "5 H7", "material": 7}, "material"),
    ],
)
def test_what_is_not_understood_is_named(fields: dict[str, object], field: str) -> None:
    """The field, with an example."""
    with pytest.raises(CheckError) as caught:
        parse_wanted(fields)
    assert caught.value.field == field
