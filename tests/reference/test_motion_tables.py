"""The tables of bearings, linear motion and drives: what must hold in every row, and the traps they are there for."""

from decimal import Decimal

import pytest

from reference import tables
from reference.tables import Row

NAMES = (
    "aluminium_profile",
    "angular_contact_ball_bearing",
    "ball_bearing",
    "ball_screw",
    "bearing_block",
    "belt_profile",
    "belt_width_code",
    "flanged_ball_bearing",
    "flanged_bush",
    "gear_module",
    "guide_carriage",
    "guide_rail",
    "idler",
    "lead_screw",
    "lead_screw_nut",
    "linear_ball_bearing",
    "linear_bearing_block",
    "motor",
    "needle_roller_bearing",
    "plain_bush",
    "roller_chain",
    "screw_support",
    "shaft",
    "shaft_collar",
    "shaft_coupling",
    "shaft_support",
    "supported_shaft",
    "thrust_ball_bearing",
    "timing_pulley",
)


def row(table: str, size: str) -> Row:
    """Return the row of that size."""
    return next(each for each in tables.load(table) if each.text("size") == size)


@pytest.mark.parametrize("name", NAMES)
def test_table_is_described(name: str) -> None:
    """Each table loads, explains every column, names its works and says what a buyer must know."""
    table = tables.load(name)
    columns, works = table.about["columns"], table.about["works"]
    assert isinstance(columns, dict)
    assert set(columns) == set(table.rows[0].cells)
    assert works
    assert table.about["note"]
    assert table.about["sums"]


@pytest.mark.parametrize("name", NAMES)
def test_numbers_are_positive_and_limits_enclose_nominals(name: str) -> None:
    """Every number is positive, and lower <= nominal <= upper wherever limits are given."""
    table = tables.load(name)
    text = {
        "standard",
        "size",
        "code",
        "source",
        "basis",
        "lengths",
        "series",
        "size_class",
        "form",
        "profile",
        "belt_widths",
    }
    declared = table.about.get("text_columns", [])
    assert isinstance(declared, list)
    text |= {*map(str, declared), "internal_thread", "screw_size"}
    for each in table:
        for column in each.cells:
            if column in text or column.endswith("_class"):
                continue
            value = each.number_or_none(column)
            assert value is None or value > 0, (each.number, column)
            if column.endswith("_lower"):
                nominal = column.removesuffix("_lower")
                if value is not None:
                    assert value <= each.decimal(nominal) <= each.decimal(f"{nominal}_upper")


@pytest.mark.parametrize("name", [name for name in NAMES if "bearing" in name and "block" not in name])
def test_bore_is_inside_the_outside(name: str) -> None:
    """A bearing's bore is smaller than its outside, and shields never make it narrower."""
    for each in tables.load(name):
        assert each.decimal("bore") < each.decimal("outer_diameter")
        shielded = each.number_or_none("width_shielded") if "width_shielded" in each.cells else None
        assert shielded is None or shielded > each.decimal("width")


def test_a_flanged_bearing_is_the_plain_one_with_a_flange() -> None:
    """F608 has the boundary dimensions of 608, MF105 those of MR105; the flange is wider than the outside."""
    plain = {each.text("size"): each for each in tables.load("ball_bearing")}
    compared = 0
    for each in tables.load("flanged_ball_bearing"):
        size = each.text("size")
        base = plain.get(size.replace("MF", "MR") if size.startswith("MF") else size[1:])
        assert each.decimal("flange_diameter") > each.decimal("outer_diameter")
        if base is not None:
            compared += 1
            for key in ("bore", "outer_diameter", "width"):
                assert each.decimal(key) == base.decimal(key), (size, key)
    assert compared > 70


def test_full_and_short_numbers_agree() -> None:
    """6804 and 61804, 6904 and 61904, 688 and 618/8 are the same open bearings under two numbers."""
    sizes = {each.text("size"): each for each in tables.load("ball_bearing")}
    pairs = [
        (f"{short}{c:02d}", f"{full}{c:02d}")
        for short, full in (("68", "618"), ("69", "619"), ("67", "617"))
        for c in range(11)
    ]
    pairs += [(f"{short}{d}", f"{full}/{d}") for short, full in (("68", "618"), ("69", "619")) for d in range(3, 10)]
    for short, full in pairs:
        for key in ("bore", "outer_diameter", "width"):
            assert sizes[short].text(key) == sizes[full].text(key), (short, full, key)


def test_angular_contact_bearings_share_the_boundary_dimensions() -> None:
    """70, 72, 73 and 79 have the dimensions of 60, 62, 63 and 69 of the same bore code."""
    plain = {each.text("size"): each for each in tables.load("ball_bearing")}
    for each in tables.load("angular_contact_ball_bearing"):
        base = plain["6" + each.text("size")[1:]]
        for key in ("bore", "outer_diameter", "width"):
            assert each.text(key) == base.text(key)


def test_asian_and_european_linear_bearings_do_not_fit_each_other() -> None:
    """LM and LME differ in outside or length at every shared bore but 10 mm, where both are 19 x 29."""
    shared = {
        each.text("bore")
        for each in tables.load("linear_ball_bearing")
        if each.text("size") == f"LME{each.text('bore')}UU"
    }
    assert len(shared) >= 9
    for bore in shared - {"50"}:
        asian, european = row("linear_ball_bearing", f"LM{bore}UU"), row("linear_ball_bearing", f"LME{bore}UU")
        same = (asian.text("outer_diameter"), asian.text("length")) == (
            european.text("outer_diameter"),
            european.text("length"),
        )
        assert same == (bore == "10"), bore


def test_supports_of_one_number_have_two_bores() -> None:
    """BK12 is bored 12 and BF12 10, BF10 8: the number belongs to the fixed side."""
    assert row("screw_support", "BK12").text("bore") == "12"
    assert row("screw_support", "BF12").text("bore") == "10"
    assert row("screw_support", "BF10").text("bore") == "8"


def test_bearing_inside_a_support_has_its_bore() -> None:
    """The bearing named inside each screw support has the bore that the support is listed with."""
    listed = {
        each.text("size"): each
        for name in ("ball_bearing", "angular_contact_ball_bearing")
        for each in tables.load(name)
    }
    checked = 0
    for each in tables.load("screw_support"):
        if each.text("bearing"):
            assert listed[each.text("bearing")].decimal("bore") == each.decimal("bore"), each.text("size")
            checked += 1
    assert checked > 30


def test_carriages_have_their_rail() -> None:
    """Each carriage names a size class and series of which there is a rail, and stands higher than it."""
    rails = {(each.text("series"), each.text("size_class")): each for each in tables.load("guide_rail")}
    for each in tables.load("guide_carriage"):
        rail = rails[each.text("series"), each.text("size_class")]
        assert each.decimal("width") > rail.decimal("width")
        assert each.decimal("height") > rail.decimal("height")
        assert each.decimal("hole_spacing_across") < each.decimal("width")


def test_rail_size_class_is_not_always_its_width() -> None:
    """Class 15 is 15 wide with 60 mm pitch and M4; class 25 is 23 wide, class 30 28."""
    small = row("guide_rail", "HGR15")
    assert (small.text("width"), small.text("hole_pitch"), small.text("screw_size")) == ("15", "60", "M4")
    assert row("guide_rail", "HGR25").text("width") == "23"
    assert row("guide_rail", "HGR30").text("width") == "28"


def test_nema_numbers_are_tenths_of_an_inch() -> None:
    """The face of a frame is its number in tenths of an inch, within 2.2 mm."""
    for each in tables.load("motor"):
        tenths = Decimal(each.text("size").removeprefix("NEMA"))
        assert abs(each.decimal("faceplate") - tenths * Decimal("2.54")) < Decimal("2.2"), each.text("size")
    assert row("motor", "NEMA17").text("hole_spacing") == "31"


def test_rack_pitch_is_module_times_pi() -> None:
    """The pitch of a rack is its module times pi, to a thousandth."""
    for each in tables.load("gear_module"):
        assert abs(each.decimal("pitch") - each.decimal("module") * Decimal("3.1415926536")) <= Decimal("0.0005")


def test_chain_numbers_are_sixteenths_of_an_inch() -> None:
    """04 is 4/16 in, 08 is 8/16 in; 05B alone has 8 mm."""
    for each in tables.load("roller_chain"):
        sixteenths = Decimal(each.text("size")[:2])
        expected = Decimal(8) if each.text("size") == "05B" else sixteenths * Decimal("25.4") / 16
        assert each.decimal("pitch") == expected


def test_profiles_spell_their_section() -> None:
    """2040 is 20 wide and 40 high."""
    for each in tables.load("aluminium_profile"):
        size = each.text("size")
        assert (each.text("width"), each.text("height")) == (size[:2], size[2:])


def test_coupling_bodies_spell_outside_and_length() -> None:
    """D19L25 is 19 outside and 25 long, and takes bores that are smaller than it."""
    for each in tables.load("shaft_coupling"):
        assert each.text("size").startswith(f"D{each.text('outer_diameter')}L{each.text('length')}")
        assert each.decimal("bore_min") < each.decimal("bore_max") < each.decimal("outer_diameter")
