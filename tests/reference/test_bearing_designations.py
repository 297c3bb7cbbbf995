"""Decoding of bearing designations: prefixes, suffixes, widths that depend on the closure, numbers in no series."""

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import tables
from reference.bearing_designations import (
    DESIGNATION,
    FAMILIES,
    NUMBER,
    BearingCode,
    bore_of,
    decode,
    from_dimensions,
)


def known(text: str) -> BearingCode:
    """Decode a designation that must be known."""
    code = decode(text)
    assert code is not None, text
    assert code.known, code.reason
    return code


def sizes(code: BearingCode) -> tuple[str, ...]:
    """Return the nominal dimensions as text: bore, outside, then width, length or height."""
    keys = ("bore", "outer_diameter", "width", "length", "height")
    return tuple(str(code.dimensions[key].nominal) for key in keys if key in code.dimensions)


@pytest.mark.parametrize(
    ("text", "family", "designation", "expected"),
    [
        ("608", "ball bearing", "608", ("8", "22", "7")),
        ("625-2RS", "ball bearing", "625", ("5", "16", "5")),
        ("6001 ZZ", "ball bearing", "6001", ("12", "28", "8")),
        ("61804", "ball bearing", "61804", ("20", "32", "7")),
        ("6705ZZ", "ball bearing", "6705", ("25", "32", "4")),
        ("16005", "ball bearing", "16005", ("25", "47", "8")),
        ("62/22-2RS", "ball bearing", "62/22", ("22", "50", "14")),
        ("mr128 2rs", "ball bearing", "MR128", ("8", "12", "3.5")),
        ("F695-2RS", "flanged ball bearing", "F695", ("5", "13", "4")),
        ("FL608ZZ", "flanged ball bearing", "F608", ("8", "22", "7")),
        ("7001C P4", "angular contact ball bearing", "7001", ("12", "28", "8")),
        ("51104", "thrust ball bearing", "51104", ("20", "35", "10")),
        ("F8-16M", "thrust ball bearing", "F8-16M", ("8", "16", "5")),
        ("AXK0821", "thrust ball bearing", "AXK0821", ("8", "21", "2")),
        ("HK 0810", "needle roller bearing", "HK0810", ("8", "12", "10")),
        ("K8x11x10", "needle roller bearing", "K8x11x10", ("8", "11", "10")),
        ("LM 8UU", "linear ball bearing", "LM8UU", ("8", "15", "24")),
        ("LME8UU", "linear ball bearing", "LME8UU", ("8", "16", "25")),
        ("KH0824", "linear ball bearing", "KH0824", ("8", "15", "24")),
        ("RJ4JP-01-10", "linear ball bearing", "RJ4JP-01-10", ("10", "19", "29")),
    ],
)
def test_designation_gives_boundary_dimensions(
    text: str, family: str, designation: str, expected: tuple[str, ...]
) -> None:
    """A designation in any spelling gives its family, its basic number and its boundary dimensions."""
    code = known(text)
    assert (code.family, code.designation, sizes(code)) == (family, designation, expected)


@pytest.mark.parametrize(
    ("text", "designation", "seal", "closure"),
    [
        ("608 2RS", "608", "2RS", "sealed"),
        ("608-2-RS", "608", "2RS", "sealed"),
        ("6082rs", "608", "2RS", "sealed"),
        ("62042RS", "6204", "2RS", "sealed"),
        ("6002RS", "6002", "RS", "sealed"),
        ("624ZZ", "624", "ZZ", "shielded"),
        ("623 2Z", "623", "2Z", "shielded"),
        ("6203LLU", "6203", "LLU", "sealed"),
        ("6203 VV", "6203", "VV", "sealed"),
        ("608DD", "608", "DD", "sealed"),
        ("688 open", "688", "open", "open"),
        ("6004", "6004", "", ""),
    ],
)
def test_seal_suffixes(text: str, designation: str, seal: str, closure: str) -> None:
    """Seals and shields are read with and without separators, also when glued to the number."""
    code = known(text)
    assert (code.designation, code.seal, code.closure) == (designation, seal, closure)


def test_other_suffixes_and_prefixes() -> None:
    """Clearance, precision, cage, grease and the mark for stainless steel are kept apart from the number."""
    assert known("6204-2RS C3").clearance == "C3"
    assert known("6001-2RSH/C3").clearance == "C3"
    assert known("608 ABEC 7").precision == "ABEC7"
    assert known("6000 P5").precision == "P5"
    assert known("6203TN9").cage == "TN9"
    assert known("6004LLUC3/5K").clearance == "C3"
    assert known("S608ZZ").material == "stainless steel"
    assert known("SMR105ZZ").material == "stainless steel"
    assert known("608ZZ").material == ""
    assert known("LM12UUOP").form == "open"


def test_width_depends_on_the_closure() -> None:
    """Where shields make a bearing wider, its width is left open until the closure is stated."""
    assert str(known("MR105 open").dimensions["width"].nominal) == "3"
    assert str(known("MR105ZZ").dimensions["width"].nominal) == "4"
    undecided = known("MR105")
    assert "width" not in undecided.dimensions
    assert undecided.widths == (Decimal(3), Decimal(4))
    assert known("608").widths == ()
    flanged = known("MF105ZZ")
    assert str(flanged.dimensions["flange_diameter"].nominal) == "11.6"
    assert str(known("MF105 open").dimensions["flange_diameter"].nominal) == "11.2"


def test_limits_of_bore_and_outside_are_those_of_the_normal_class() -> None:
    """A 6204 has a bore of 20 0/-0.010 and an outside of 47 0/-0.011 (ISO 492, Normal class)."""
    dimensions = known("6204").dimensions
    assert (str(dimensions["bore"].lower), str(dimensions["bore"].upper)) == ("19.990", "20")
    assert (str(dimensions["outer_diameter"].lower), str(dimensions["outer_diameter"].upper)) == ("46.989", "47")


def test_inch_bore_in_a_metric_number() -> None:
    """6203-2RS-5/8 is a 6203 bored to 5/8 inch: the suffix outranks the table."""
    assert str(known("6203-2RS-5/8").dimensions["bore"].nominal) == "15.875"
    assert str(known("6203-2RS").dimensions["bore"].nominal) == "17"


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("18307RS", "18 x 30 x 7"),
        ("MR139ZZ", "13 mm outside"),
        ("6224", "bore of 120 mm"),
        ("F999ZZ", "no bearing series"),
        ("F8-99M", "8 mm bore and 99 mm outside"),
        ("HK0810-2RS", "wider"),
    ],
)
def test_unlisted_numbers_stay_unknown(text: str, word: str) -> None:
    """A number in no table gets a reason and no dimensions, never a guess."""
    code = decode(text)
    assert code is not None
    assert not code.known
    assert not code.dimensions
    assert word in code.reason


def test_an_unknown_number_may_suggest_a_size() -> None:
    """18307RS is in no series; its digits may spell 18 x 30 x 7, which is offered and not taken."""
    code = decode("18307RS")
    assert code is not None
    assert code.suggestion == (Decimal(18), Decimal(30), Decimal(7))


@pytest.mark.parametrize("text", ["M5 x 20", "6061-T6", "S235JR", "10k", "SF-1 0810", "608 M5", "BK99", "", "ISO 4762"])
def test_other_text_is_no_designation(text: str) -> None:
    """Screws, alloys, steels, bushes and unknown supports are not read as bearings."""
    assert decode(text) is None


def test_bare_numbers_are_marked() -> None:
    """Digits alone are marked as bare: only a noun makes them a bearing."""
    assert known("6200").bare
    assert known("R8").bare
    assert not known("6200ZZ").bare
    assert not known("MR105").bare


def test_screw_supports_have_two_bores_under_one_number() -> None:
    """BK12 takes a 12 mm journal, BF12 a 10 mm one; four digits after BK are a needle bearing."""
    assert sizes(known("BK12")) == ("12",)
    assert sizes(known("BF12")) == ("10",)
    assert known("BK0810").family == "needle roller bearing"


def test_from_dimensions() -> None:
    """Designations are found from boundary dimensions in either order of the diameters; 50 x 67 x 7 exists nowhere."""
    assert from_dimensions(Decimal(10), Decimal(3), Decimal(4)) == ("623",)
    assert from_dimensions(Decimal(20), Decimal(32), Decimal(7)) == ("6804", "61804")
    assert from_dimensions(Decimal(8), Decimal(16), Decimal(5))[0] == "688"
    assert from_dimensions(Decimal(8), Decimal(15), Decimal(24), "linear ball bearing")[0] == "LM8UU"
    assert from_dimensions(Decimal(50), Decimal(67), Decimal(7)) == ()
    assert "6810" in from_dimensions(Decimal(50), Decimal(65), Decimal(7))


@pytest.mark.parametrize(
    ("number", "bore"), [("6200", 10), ("6001", 12), ("6202", 15), ("16003", 17), ("61804", 20), ("7210", 50)]
)
def test_bore_code(number: str, bore: int) -> None:
    """The last two digits give the bore: 00, 01, 02, 03 stand for 10, 12, 15, 17, from 04 on five times the code."""
    assert bore_of(number) == Decimal(bore)


def test_bore_code_only_in_known_series() -> None:
    """Numbers outside the series have no bore code."""
    assert bore_of("608") is None
    assert bore_of("9904") is None
    assert bore_of("62") is None


def test_bore_code_agrees_with_the_tables() -> None:
    """Every listed number of a series with bore code has the bore that its code says."""
    checked = 0
    for table in ("ball_bearing", "angular_contact_ball_bearing"):
        for row in tables.load(table):
            bore = bore_of(row.text("size"))
            if bore is not None and len(row.text("size")) > 3:
                assert bore == row.decimal("bore"), row.text("size")
                checked += 1
    assert checked > 200


def test_miniature_letters_spell_outside_and_bore() -> None:
    """The digits of MR and MF numbers are outside and bore: MR105 is 10 outside, 5 bore."""
    rows = [row for row in tables.load("ball_bearing") if re.fullmatch(r"MR\d+", row.text("size"))]
    assert len(rows) > 15
    for row in rows:
        digits = row.text("size")[2:]
        assert (row.text("outer_diameter"), row.text("bore")) == (digits[:-1], digits[-1])


def test_every_listed_designation_decodes_to_itself() -> None:
    """Each designation of the tables is decoded as itself, in lower case and with a blank after its letters."""
    for family, table in FAMILIES.items():
        for row in tables.load(table):
            size = row.text("size")
            for text in (size, size.lower(), re.sub(r"^([A-Z]{2,})(?=\d+\w*$)", r"\1 ", size)):
                code = decode(text)
                assert code is not None, text
                assert (code.family, code.designation) == (family, size), text


def test_patterns_find_designations_in_a_line() -> None:
    """The patterns find designations among other words; digits alone are found apart from marked ones."""

    def found(line: str) -> list[str]:
        return [code.designation for match in re.finditer(DESIGNATION, line) if (code := decode(match[0]))]

    assert found("flanged brg f624 2rs (4/13/5)") == ["F624"]
    assert found("axk0821 + 2 as0821") == ["AXK0821", "AS0821"]
    assert found("rillenkugellager 6204-2rs c3 2 stück") == ["6204"]
    assert found("mr63-3x6x2.5") == ["MR63"]
    assert found("6061-t6 plate 200 x 100") == []
    assert found("dowel pin 5 x 20 iso 8734") == []
    assert re.findall(NUMBER, "6200 bearing, 8x22x7") == ["6200"]


@given(st.text(alphabet="0123456789MRFZS2-/ CLUKH", max_size=12))
def test_decode_never_fails_and_never_invents(text: str) -> None:
    """Any text is decoded or refused; dimensions come only with a designation of the tables or a stated cage size."""
    code = decode(text)
    if code is not None and code.dimensions:
        listed = {row.text("size") for table in FAMILIES.values() for row in tables.load(table)}
        assert code.designation in listed or code.designation.startswith("K")
