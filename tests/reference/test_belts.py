"""Timing belt codes, and the arithmetic of teeth, pitch, length and diameter."""

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import tables
from reference.belts import (
    DESIGNATION,
    Belt,
    Profile,
    decode,
    length_tolerance,
    pitch_diameter,
    pitch_length,
    profile_of,
    profiles,
    teeth_in,
)


def only(text: str) -> Belt:
    """Decode a code that has one meaning."""
    (belt,) = decode(text)
    return belt


def profile(name: str) -> Profile:
    """Return a profile that must exist."""
    found = profile_of(name)
    assert found is not None, name
    return found


@pytest.mark.parametrize(
    ("text", "name", "length", "teeth", "width"),
    [
        ("200-2GT-6", "GT2", "200", 100, "6"),
        ("HTD 430-5M-10", "HTD 5M", "430", 86, "10"),
        ("3gt-300-9", "GT3", "300", 100, "9"),
        ("T5 330 x 10", "T5", "330", 66, "10"),
        ("T2,5 200", "T2.5", "200", 80, None),
        ("16 T5/390", "T5", "390", 78, "16"),
        ("AT5/330", "AT5", "330", 66, None),
        ("HTD 3M 234", "HTD 3M", "234", 78, None),
        ("90XL037", "XL", "228.6", 45, "9.525"),
        ("100XL", "XL", "254", 50, None),
        ("80MXL", "MXL", "203.2", 100, None),
        ("B80MXL025", "MXL", "162.56", 80, "6.35"),
        ("187L050", "L", "476.25", 50, "12.7"),
        ("124L050", "L", "314.325", 33, "12.7"),
    ],
)
def test_codes(text: str, name: str, length: str, teeth: int, width: str | None) -> None:
    """A code gives profile, pitch length, number of teeth and width; inch codes count tenths and hundredths."""
    belt = only(text)
    assert (belt.profile.name, belt.pitch_length, belt.teeth, belt.reason) == (name, Decimal(length), teeth, "")
    assert belt.belt_width == (Decimal(width) if width else None)


def test_gt_number_alone_is_open() -> None:
    """GT2 188 is a loop of 188 mm with 94 teeth or one of 188 teeth, and the code cannot say which."""
    first, second = decode("GT2 188")
    assert (first.pitch_length, first.teeth) == (Decimal(188), 94)
    assert (second.pitch_length, second.teeth) == (Decimal(376), 188)


def test_an_odd_length_of_a_2_mm_belt_can_only_count_teeth() -> None:
    """GT2 187 cannot be 187 mm, since that is 93.5 teeth."""
    belt = only("GT2 187")
    assert (belt.pitch_length, belt.teeth) == (Decimal(374), 187)


@pytest.mark.parametrize(
    ("text", "near"), [("T5 331 x 10", "330 (66) or 335 (67)"), ("81XL037", "8.1 in"), ("201-2GT-6", "200 (100)")]
)
def test_a_length_without_whole_teeth_is_refused(text: str, near: str) -> None:
    """A length that holds no whole number of teeth keeps teeth empty and says why."""
    belt = only(text)
    assert belt.teeth is None
    assert near in belt.reason


@pytest.mark.parametrize(
    "text", ["T8x8", "Tr10x2", "M5 x 20", "HTD 5M", "GT2", "60 teeth", "90XL036", "", "10k", "B80.5MXL"]
)
def test_other_text_is_no_belt(text: str) -> None:
    """Lead screws, threads, profiles without a length and unknown width codes are refused."""
    assert decode(text) == ()


def test_pattern_finds_codes_in_a_line() -> None:
    """The pattern finds codes among other words and leaves pulleys and lead screws alone."""
    assert re.findall(DESIGNATION, "closed belt 200-2gt-6, 2 pcs") == ["200-2gt-6"]
    assert re.findall(DESIGNATION, "belt 90XL037") == ["90XL037"]
    assert re.findall(DESIGNATION, "t5 330 x 10") == ["t5 330 x 10"]
    assert re.findall(DESIGNATION, "t5 20 teeth, 8 bore, 10 belt") == []
    assert re.findall(DESIGNATION, "t8x8 lead screw 350 mm") == []
    assert re.findall(DESIGNATION, "300 3m hose") == []


def test_spellings_of_a_profile() -> None:
    """A profile is found by each usual spelling; equal pitch does not make two profiles one."""
    assert profile("2gt") is profile("GT2") is profile("GT-2")
    assert profile("5M") is profile("HTD 5M") is profile("htd5m")
    assert profile("T2,5") is profile("t2.5")
    assert profile("T5").pitch == profile("HTD 5M").pitch == profile("AT5").pitch
    assert len({profile(name).name for name in ("T5", "HTD 5M", "AT5", "S5M", "5GT")}) == 5
    assert profile("XL").pitch != profile("T5").pitch
    assert profile_of("M5") is None


def test_pitch_diameter() -> None:
    """A 20 tooth GT2 pulley has 12.73 mm pitch diameter and, over its teeth, 12.22 mm."""
    gt2 = profile("GT2")
    assert round(pitch_diameter(20, gt2), 2) == Decimal("12.73")
    assert gt2.pitch_line_offset is not None
    assert round(pitch_diameter(20, gt2) - 2 * gt2.pitch_line_offset, 2) == Decimal("12.22")


def test_pulley_table_agrees_with_the_formula() -> None:
    """Every pulley of the table has the diameters that its pitch and teeth give, to a thousandth."""
    rows = tables.load("timing_pulley").rows
    assert len(rows) > 100
    for row in rows:
        its = profile(row.text("profile"))
        diameter = pitch_diameter(int(row.text("teeth")), its)
        assert its.pitch_line_offset is not None
        assert row.decimal("pitch") == its.pitch
        assert abs(row.decimal("pitch_diameter") - diameter) <= Decimal("0.0005")
        assert abs(row.decimal("outer_diameter") - (diameter - 2 * its.pitch_line_offset)) <= Decimal("0.0005")


def test_spellings_are_unique() -> None:
    """No spelling belongs to two profiles."""
    spellings = [a for row in tables.load("belt_profile") for a in row.text("aliases").split("|")]
    assert len(spellings) == len(set(spellings))
    assert {p.name for p in profiles().values()} == {row.text("size") for row in tables.load("belt_profile")}


@given(st.integers(1, 2000), st.sampled_from(sorted({p.name for p in profiles().values()})))
def test_teeth_and_length_are_inverse(teeth: int, name: str) -> None:
    """Teeth give a length whose teeth are the same again; half a pitch more holds no whole number."""
    its = profile(name)
    length = pitch_length(teeth, its)
    assert teeth_in(length, its) == teeth
    assert teeth_in(length + its.pitch / 2, its) is None


@given(st.text(alphabet="0123456789GTXLMH-/ xB.", max_size=12))
def test_decode_never_fails(text: str) -> None:
    """Any text is decoded or refused; a meaning has whole teeth or a reason."""
    for belt in decode(text):
        assert (belt.teeth is None) == bool(belt.reason)


def test_a_longer_belt_may_depart_more_from_its_length() -> None:
    """The tolerance grows with the length and has no gap; each step begins over the last one's end."""
    lengths = [Decimal(length) for length in ("100", "254", "254.1", "381", "508", "571.5", "2540", "9000", "20000")]
    found = [length_tolerance(length)[0] for length in lengths]
    assert found == sorted(found)
    assert found[1:3] == [Decimal("0.41"), Decimal("0.46")]
    assert "RMA" in length_tolerance(Decimal(300))[1]
