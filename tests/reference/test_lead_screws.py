"""Lead screw and ball screw designations: lead = pitch x starts, and what a designation leaves open."""

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import tables
from reference.lead_screws import DESIGNATION, Screw, decode, leads, usual_pitch


def only(text: str) -> Screw:
    """Decode a designation that has one meaning."""
    (screw,) = decode(text)
    return screw


@pytest.mark.parametrize(
    ("text", "diameter", "pitch", "starts", "lead", "evidence"),
    [
        ("Tr10x2", "10", "2", 1, "2", "implied"),
        ("Tr8x1,5", "8", "1.5", 1, "1.5", "implied"),
        ("T8x2", "8", "2", 1, "2", "implied"),
        ("T8x4", "8", "2", 2, "4", "implied"),
        ("T8x8", "8", "2", 4, "8", "implied"),
        ("Tr8x8 (P2)", "8", "2", 4, "8", "stated"),
        ("TR16X8P4", "16", "4", 2, "8", "stated"),
        ("Tr20x4", "20", "4", 1, "4", "implied"),
    ],
)
def test_trapezoidal(text: str, diameter: str, pitch: str, starts: int, lead: str, evidence: str) -> None:
    """The number after x is the lead; a bracket states the pitch, else table and trade imply it."""
    screw = only(text)
    assert (screw.diameter, screw.pitch, screw.starts, screw.lead, screw.evidence) == (
        Decimal(diameter),
        Decimal(pitch),
        starts,
        Decimal(lead),
        evidence,
    )


def test_designation_is_unambiguous() -> None:
    """More than one start is written with its pitch, and the written form decodes to the same screw."""
    assert only("T8x8").designation == "Tr8x8 (P2)"
    assert only("Tr12x3 LH").designation == "Tr12x3 LH"
    for row in tables.load("lead_screw"):
        if row.text("starts") != "1" or row.decimal("outer_diameter") >= 8:
            screw = only(row.text("size"))
            assert (screw.designation, screw.pitch, screw.lead) == (
                row.text("size"),
                row.decimal("pitch"),
                row.decimal("lead"),
            )


def test_left_hand() -> None:
    """LH is a left-hand thread; nothing said is right-hand."""
    assert only("Tr12x3 LH").hand == "left"
    assert only("Tr12x3").hand == "right"


def test_small_screws_leave_the_pitch_open() -> None:
    """T5x2 is one start of 2 mm or two of 1 mm: no standard covers Tr5, and both are sold."""
    assert [(screw.pitch, screw.starts) for screw in decode("T5x2")] == [(Decimal(2), 1), (Decimal(1), 2)]


def test_a_pitch_alone_decides_no_lead() -> None:
    """Tr8 with 2 mm pitch moves 2, 4 or 8 mm per turn."""
    assert leads(Decimal(8), Decimal(2)) == ((Decimal(2), 1), (Decimal(4), 2), (Decimal(8), 4))
    assert leads(Decimal(8), Decimal(3)) == ()
    assert usual_pitch(Decimal(8)) == Decimal(2)
    assert usual_pitch(Decimal(7)) is None


@pytest.mark.parametrize("text", ["T8x12", "T8x3", "Tr99x3"])
def test_an_unlisted_lead_keeps_the_pitch_open(text: str) -> None:
    """A lead that no listed pitch gives is read as a lead only, marked as not listed."""
    screw = only(text)
    assert not screw.listed
    assert screw.pitch is None
    assert screw.starts is None


@pytest.mark.parametrize(
    ("text", "diameter", "lead", "nut", "bare"),
    [
        ("SFU1605", 16, 5, "SFU", False),
        ("sfu 1204", 12, 4, "SFU", False),
        ("SFU01610-4", 16, 10, "SFU", False),
        ("RM2005", 20, 5, "RM", False),
        ("1204", 12, 4, "", True),
    ],
)
def test_ball_screws(text: str, diameter: int, lead: int, nut: str, bare: bool) -> None:
    """Four digits are diameter and lead; without letters they are marked as bare."""
    screw = only(text)
    assert (screw.system, screw.diameter, screw.lead, screw.nut, screw.bare) == (
        "ball",
        Decimal(diameter),
        Decimal(lead),
        nut,
        bare,
    )


@pytest.mark.parametrize("text", ["1234", "M8", "T8", "Tr8x8 (P3)", "8x2", "T5 330 x 10", "GT2", "", "Tr8x0"])
def test_other_text_is_no_screw(text: str) -> None:
    """Unlisted digits, threads, belts and a lead that is no multiple of its pitch are refused."""
    assert decode(text) == ()


def test_pattern_finds_designations_in_a_line() -> None:
    """The pattern finds designations among other words and leaves belts alone."""
    assert re.findall(DESIGNATION, "t8x8 lead screw 350mm + nut") == ["t8x8"]
    assert re.findall(DESIGNATION, "Tr8x8 (P2) L=300") == ["Tr8x8 (P2)"]
    assert re.findall(DESIGNATION, "sfu1605 l400") == ["sfu1605"]
    assert re.findall(DESIGNATION, "t5 330 x 10 belt") == []


def test_lead_is_pitch_times_starts_in_the_table() -> None:
    """Every row of the table keeps lead = pitch x starts, and no diameter has two usual pitches."""
    usual: dict[str, int] = {}
    for row in tables.load("lead_screw"):
        assert row.decimal("lead") == row.decimal("pitch") * row.decimal("starts")
        usual[row.text("outer_diameter")] = usual.get(row.text("outer_diameter"), 0) + (row.text("preferred") == "yes")
    assert set(usual.values()) == {1}


@given(st.text(alphabet="TRSFU0123456789xP() LH", max_size=12))
def test_decode_never_fails(text: str) -> None:
    """Any text is decoded or refused; where starts are known they give the lead."""
    for screw in decode(text):
        if screw.pitch is not None and screw.starts is not None:
            assert screw.pitch * screw.starts == screw.lead
