"""Parts in recesses."""

from decimal import Decimal

import pytest

from service.verdict.mates import parse_mate
from service.verdict.model import CheckError, PocketMate, Window


def codes(found) -> list[str]:
    """Return the codes of all findings of the only reading."""
    return [finding.code for finding in found.readings[0].findings]


def test_pocket_is_read_round_and_square() -> None:
    """One size is a diameter, two are length and width, each with its own tolerance; depth may follow."""
    round_one = parse_mate("pocket", "8.2 +0.1/0 depth 3")
    assert isinstance(round_one, PocketMate)
    assert round_one.diameter is not None
    assert round_one.diameter.upper == Decimal("8.3")
    square = parse_mate("pocket", "20.2 H11 x 10.2 ±0.1 depth 5 +0.1/0")
    assert isinstance(square, PocketMate)
    assert square.length is not None
    assert square.width is not None
    assert square.depth is not None
    assert (square.length.lower, square.width.lower, square.depth.upper) == map_decimals("20.2", "10.1", "5.1")
    assert parse_mate("mate", {"kind": "pocket", "length": 20, "width": "10 H11"}).kind == "pocket"


def map_decimals(*texts: str) -> tuple[Decimal, ...]:
    """Return exact numbers."""
    return tuple(map(Decimal, texts))


@pytest.mark.parametrize("text", ["8 x 5 x 3 x 2", "x 5", "8 depth", "deep"])
def test_bad_pocket_is_refused(text: str) -> None:
    """Three sides, or none, are no pocket."""
    with pytest.raises(CheckError):
        parse_mate("pocket", text)
    with pytest.raises(CheckError):
        parse_mate("mate", {"kind": "pocket", "length": 5})


def test_magnet_in_its_pocket(reading, verdict) -> None:
    """A magnet 8 mm is taken within 0.1 mm: it goes into 8.2 +0.1, and magnets are cautioned."""
    magnet = reading("magnet", outer_diameter="8", height="3")
    found = verdict(magnet, pocket="8.2 +0.1/0 depth 3")
    assert (found.verdict, codes(found)) == ("fits", ["within-fit", "tolerance-assumed", "height"])
    assert found.readings[0].clearance == Window(Decimal("0.1"), Decimal("0.4"))
    assert any("pacemakers" in caution for caution in found.cautions)
    assert found.readings[0].findings[2].text.endswith("lies flush")


def test_tight_pocket_is_marginal_and_small_one_wrong(reading, verdict) -> None:
    """In 8.05..8.15 some magnets do not go in, in 7.8 none does."""
    magnet = reading("magnet", outer_diameter="8", height="3")
    assert verdict(magnet, pocket="8.05..8.15").verdict == "marginal"
    assert verdict(magnet, pocket="7.8 ±0.05").verdict == "wrong"


def test_block_lies_either_way_round(reading, verdict) -> None:
    """Length and width meet the longer and the shorter side, whichever way the block is written."""
    for sizes in ({"length": "20 h11", "width": "10 h11"}, {"length": "10 h11", "width": "20 h11"}):
        found = verdict(reading("magnet", height="5", **sizes), pocket="10.2 H11 x 20.2 H11 depth 4")
        assert found.verdict == "fits"
        assert found.readings[0].findings[-1].text.endswith("stands out by 1 mm")


def test_block_does_not_lie_in_a_round_pocket(reading, verdict) -> None:
    """A square part and a round pocket are different shapes; a part without sizes is open."""
    assert codes(verdict(reading("magnet", length="8", width="8"), pocket="8.2 H11")) == ["shape-differs"]
    assert verdict(reading("magnet", missing=("outer_diameter",)), pocket="8.2 H11").verdict == "ask"
    assert verdict(reading("magnet"), pocket="8.2 H11 x 5 H11").verdict == "ask"
