"""Decoding of bush codes: which digits are bore, outside and length, and what the code leaves implied."""

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import tables
from reference.bush_designations import DESIGNATION, decode


@pytest.mark.parametrize(
    ("text", "family", "bore", "outer", "length"),
    [
        ("SF-1 0810", "plain bush", "8", "10", "10"),
        ("sf1 1215", "plain bush", "12", "14", "15"),
        ("DU 2020", "plain bush", "20", "23", "20"),
        ("PCM 101210 E", "plain bush", "10", "12", "10"),
        ("PCM 030403", "plain bush", "3", "4.5", "3"),
        ("SF-1F 08075", "flanged bush", "8", "10", "7.5"),
        ("BB 1012 DU", "flanged bush", "10", "12", "12"),
        ("GSM-0810-10", "plain bush", "8", "10", "10"),
        ("GSM-0304-05", "plain bush", "3", "4.5", "5"),
        ("GFM-0608-08", "flanged bush", "6", "8", "8"),
    ],
)
def test_digits_of_a_code(text: str, family: str, bore: str, outer: str, length: str) -> None:
    """Four digits are bore and length, six are bore, outside and length; polymer codes come in pairs."""
    code = decode(text)
    assert code is not None
    assert code.known, code.reason
    assert (code.family, code.bore, code.outer_diameter, code.length) == (
        family,
        Decimal(bore),
        Decimal(outer),
        Decimal(length),
    )


def test_the_trap_outside_is_not_in_the_code() -> None:
    """SF-1 0810 has 10 mm outside by ISO 3547, and its second pair is the length: 0815 is 10 outside as well."""
    first, second = decode("SF-1 0810"), decode("SF-1 0815")
    assert first is not None
    assert second is not None
    assert first.outer_diameter == second.outer_diameter == Decimal(10)
    assert (first.length, second.length) == (Decimal(10), Decimal(15))


def test_flange_comes_with_the_code() -> None:
    """A flanged code brings the flange's diameter and thickness."""
    code = decode("GFM-0810-10")
    assert code is not None
    assert (code.flange_diameter, code.flange_thickness) == (Decimal(15), Decimal(1))


@pytest.mark.parametrize(
    ("text", "word"), [("SF-1 1120", "11 mm"), ("PCM 101410", "14 mm outside"), ("GSM-0811-10", "8 mm")]
)
def test_unlisted_bushes_stay_unknown(text: str, word: str) -> None:
    """A bore in no table, or an outside that contradicts it, is said and not smoothed over."""
    code = decode(text)
    assert code is not None
    assert not code.known
    assert word in code.reason


@pytest.mark.parametrize("text", ["8x12x10", "SF688ZZ", "M5 x 20", "PCM 10", "", "SF-1", "HK0810"])
def test_other_text_is_no_code(text: str) -> None:
    """Plain sizes, bearings and incomplete codes are refused."""
    assert decode(text) is None


def test_pattern_finds_codes_in_a_line() -> None:
    """The pattern finds a code among other words and nothing else."""
    assert [m[0] for m in re.finditer(DESIGNATION, "wrapped bushing sf-1 0810, 4 pcs")] == ["sf-1 0810"]
    assert [m[0] for m in re.finditer(DESIGNATION, "gfm-0810-10 flange")] == ["gfm-0810-10"]
    assert [m[0] for m in re.finditer(DESIGNATION, "PCM 101210 E")] == ["PCM 101210 E"]
    assert not re.findall(DESIGNATION, "bronze bush 8x12x10 h7 s6")


def test_bushes_have_a_wall() -> None:
    """In both tables the outside is larger than the bore and a flange larger than the outside."""
    for name in ("plain_bush", "flanged_bush"):
        for row in tables.load(name):
            assert row.decimal("outer_diameter") > row.decimal("bore")
            if name == "flanged_bush":
                assert row.decimal("flange_diameter") > row.decimal("outer_diameter")
            assert list(row.decimals("lengths")) == sorted(row.decimals("lengths"))


def test_polymer_codes_spell_their_diameters() -> None:
    """The four digits of a polymer bush are bore and outside, with the half millimetre cut off."""
    rows = [row for row in tables.load("plain_bush") if row.text("kind") == "polymer"]
    assert len(rows) > 10
    for row in rows:
        bore, outer = int(row.text("size")[:2]), int(row.text("size")[2:])
        assert (bore, outer) == (int(row.decimal("bore")), int(row.decimal("outer_diameter")))


@given(st.text(alphabet="SFGMPCDU-12 08.", max_size=14))
def test_decode_never_fails(text: str) -> None:
    """Any text is decoded or refused, and a known code has bore < outside."""
    code = decode(text)
    if code is not None and code.known:
        assert code.outer_diameter is not None
        assert code.bore < code.outer_diameter
