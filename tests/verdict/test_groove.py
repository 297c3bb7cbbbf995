"""Retaining rings and O-rings in grooves."""

from decimal import Decimal

import pytest

from service.verdict.mates import parse_mate
from service.verdict.model import CheckError, GrooveMate


def codes(found) -> list[str]:
    """Return the codes of all findings of the only reading."""
    return [finding.code for finding in found.readings[0].findings]


def external(reading, shaft: str = "10"):
    """Return the ring for a shaft of 10 mm: DIN 471 gives it a groove 9.6 h10, 1.1 mm wide."""
    return reading(
        "external retaining ring", shaft_size=shaft, thickness="1", groove_diameter="9.542..9.6", groove_width="1.1"
    )


def test_groove_is_read() -> None:
    """A short form names floor, width, where it is turned, and what an O-ring seals against."""
    ring = parse_mate("groove", "9.6 h11 width 1.1 H13 on shaft 10")
    assert isinstance(ring, GrooveMate)
    assert ring.width is not None
    assert ring.size is not None
    assert (ring.on, ring.diameter.lower, ring.width.upper, ring.size.nominal) == (
        "shaft", Decimal("9.51"), Decimal("1.24"), Decimal(10),
    )  # fmt: skip
    seal = parse_mate("groove", "9 H9 width 2.4 in bore against shaft 6.4 f7 moving")
    assert isinstance(seal, GrooveMate)
    assert seal.against is not None
    assert (seal.on, seal.service, seal.against.nominal) == ("bore", "moving", Decimal("6.4"))


@pytest.mark.parametrize("text", ["9.6 h11", "9.6 H11 on shaft 10", "on shaft", "9.6 h11 width on shaft 10"])
def test_bad_groove_is_refused(text: str) -> None:
    """A groove needs its floor, with a class of the right kind, and where it is turned."""
    with pytest.raises(CheckError):
        parse_mate("groove", text)
    for bad in ({"on": "hub"}, {"service": "slow"}):
        with pytest.raises(CheckError):
            parse_mate("mate", {"kind": "groove", "on": "shaft", "diameter": "9.6 h11", **bad})


def test_ring_in_its_groove(reading, verdict) -> None:
    """Shaft, floor and width as the standard gives them fit."""
    found = verdict(external(reading), groove="9.55..9.6 width 1.1 H13 on shaft 10")
    assert (found.verdict, codes(found)) == ("fits", ["size-matches", "floor-as-standard", "ring-goes-in"])


@pytest.mark.parametrize(
    ("groove", "code"),
    [
        ("9.55..9.6 width 1.1 H13 on shaft 12", "wrong-size"),
        ("9.65 h11 width 1.1 H13 on shaft 10", "floor-partly-outside"),
        ("9.9 h9 width 1.1 H13 on shaft 10", "floor-differs"),
        ("9.55..9.6 width 0.9 H13 on shaft 10", "groove-narrow"),
        ("9.55..9.6 width 0.8 H13 on shaft 10", "ring-too-thick"),
        ("10.4 H11 width 1.1 H13 in bore 10", "wrong-kind"),
    ],
)
def test_ring_and_groove_that_differ(reading, verdict, groove: str, code: str) -> None:
    """A wrong shaft, floor, width or side is found by name."""
    assert code in codes(verdict(external(reading), groove=groove))


def test_floor_says_which_way_it_is_wrong(reading, verdict) -> None:
    """A floor that is too large on a shaft is too shallow, in a bore too deep."""
    shallow = verdict(external(reading), groove="9.9 h9 on shaft 10").readings[0].findings[1]
    inner = reading("internal retaining ring", hole_diameter="22", thickness="1", groove_diameter="23..23.21")
    deep = verdict(inner, groove="24 H9 in bore 22").readings[0].findings[1]
    assert "too shallow" in shallow.text
    assert "too deep" in deep.text


def test_o_ring_seals(reading, verdict) -> None:
    """An O-ring 6 x 2 on a floor of 6.15 in a bore of 9.4 is squeezed by about a fifth."""
    ring = reading("O-ring", bore="5.9..6.1", cross_section="1.92..2.08")
    found = verdict(ring, groove="6.15 h9 width 2.6 H13 on shaft against bore 9.4 H8")
    assert (found.verdict, codes(found)) == ("fits", ["seals"])
    numbers = found.readings[0].findings[0].numbers
    assert numbers["gland_depth"] == Decimal("1.625")
    assert Decimal("0.1") < Decimal(numbers["squeeze_lower"]) < Decimal(numbers["squeeze_upper"]) < Decimal("0.3")


@pytest.mark.parametrize(
    ("groove", "code"),
    [
        ("6.2 h9 width 2.6 on shaft against bore 11 H8", "does-not-seal"),
        ("6.2 h9 width 2.6 on shaft against bore 8.6 H8", "seal-outside-the-usual"),
        ("6.2 h9 width 2.6 on shaft against bore 6 H8", "no-gland"),
        ("6.2 h9 width 2.6 on shaft 9", "counterpart-missing"),
    ],
)
def test_o_ring_that_does_not(reading, verdict, groove: str, code: str) -> None:
    """Too deep a gland leaks, too shallow a one crushes, none at all is wrong, an unknown counterpart is open."""
    ring = reading("O-ring", bore="5.9..6.1", cross_section="1.92..2.08")
    assert codes(verdict(ring, groove=groove)) == [code]


def test_other_parts_lie_in_no_groove(reading, verdict) -> None:
    """A pin is no ring; an O-ring without its cross-section is open."""
    assert verdict(reading("parallel pin", outer_diameter="5 m6"), groove="9.6 h11 on shaft 10").verdict == "wrong"
    assert verdict(reading("O-ring", bore="6"), groove="6.2 h9 on shaft against bore 9.4").verdict == "ask"
    assert verdict(reading("external retaining ring"), groove="9.6 h11 on shaft 10").verdict == "ask"


def test_share_within_limits_where_not_all_are(reading, verdict) -> None:
    """Floors, widths and squeezes that lie partly outside tell how many are within."""
    floor = verdict(external(reading), groove="9.65 h11 width 1.1 H13 on shaft 10")
    assert (floor.verdict, codes(floor)[1]) == ("marginal", "floor-partly-outside")
    assert floor.share == floor.readings[0].findings[1].numbers["share"]
    assert 0 < floor.share < 1
    narrow = verdict(external(reading), groove="9.55..9.6 width 0.9 H13 on shaft 10")
    assert 0 < narrow.share < 1
    ring = reading("O-ring", bore="5.9..6.1", cross_section="1.92..2.08")
    seal = verdict(ring, groove="6.2 h9 width 2.6 on shaft against bore 8.9 H8")
    assert (seal.verdict, codes(seal)) == ("marginal", ["seal-outside-the-usual"])
    assert 0 < seal.share < 1
