"""The tables of pins, rings, keys, seals, springs and fittings are consistent in themselves."""

from decimal import Decimal
from itertools import pairwise

import pytest

from reference import tables
from reference.tables import Row


def row(table: str, standard: str, size: str) -> Row:
    """Return the one row with that key."""
    (found,) = (
        entry for entry in tables.load(table) if (entry.text("standard"), entry.text("size")) == (standard, size)
    )
    return found


def rows(table: str, *columns: str) -> list[tuple[str, list[Decimal]]]:
    """Return key and numbers of the rows that fill all these columns; never an empty list."""
    found = [
        (" ".join(entry.text(column) for column in ("standard", "size")), [entry.decimal(column) for column in columns])
        for entry in tables.load(table)
        if all(entry.text(column) for column in columns)
    ]
    assert found
    return found


@pytest.mark.parametrize("table", ["slotted_spring_pin", "coiled_spring_pin"])
def test_free_spring_pin_is_larger_than_its_hole(table: str) -> None:
    """A spring pin grips because even the smallest free pin is larger than the largest hole."""
    for size, (hole, pin) in rows(table, "hole_diameter_upper", "outer_diameter_lower"):
        assert pin > hole, size


@pytest.mark.parametrize("table", ["slotted_spring_pin", "coiled_spring_pin", "split_pin"])
def test_means_lie_between_their_limits(table: str) -> None:
    """The nominal value of a diameter that has limits is their mean."""
    column = "wire_diameter" if table == "split_pin" else "outer_diameter"
    for size, (mean, lower, upper) in rows(table, column, f"{column}_lower", f"{column}_upper"):
        assert lower < upper, size
        assert mean * 2 == lower + upper, size


def test_split_pin_goes_through_its_hole() -> None:
    """The thickest shank is thinner than the hole that names the size."""
    for size, (hole, wire) in rows("split_pin", "hole_diameter", "wire_diameter_upper"):
        assert wire < hole, size


def test_clevis_pin_takes_a_standard_split_pin() -> None:
    """The split pin hole of a clevis pin is a nominal size of ISO 1234 and much smaller than the shank."""
    split_pins = {entry.text("size") for entry in tables.load("split_pin")}
    for entry in tables.load("clevis_pin"):
        assert entry.text("split_pin_hole") in split_pins
        assert entry.decimal("split_pin_hole") < entry.decimal("outer_diameter") / 2
        assert bool(entry.text("head_diameter")) == (entry.text("standard") == "ISO 2341")


def test_headed_clevis_pin_has_a_head_wider_than_its_shank() -> None:
    """A head that is no wider than the shank would not hold."""
    for size, (head, shank) in rows("clevis_pin", "head_diameter", "outer_diameter"):
        assert head > shank, size


def test_grooved_pin_expands_beyond_its_hole() -> None:
    """Where the diameter over the grooves is known it is larger than the largest hole."""
    for size, (expanded, hole) in rows("grooved_pin", "expanded_diameter", "hole_diameter_upper"):
        assert expanded > hole, size


def test_taper_pin_size_names_the_small_end_in_metric_and_the_large_end_in_inch() -> None:
    """The same word, two ends: each row fills only the end that its size names."""
    for entry in tables.load("taper_pin"):
        metric = entry.text("standard") == "ISO 2339"
        assert bool(entry.text("small_end_diameter")) == metric
        assert bool(entry.text("large_end_diameter")) != metric
        assert entry.text("taper") == ("1:50" if metric else "1:48")


def test_inch_taper_pin_numbers_grow() -> None:
    """The numbers 7/0 to 14 stand in the order of their large ends; 2/0 is not the misprint 0.0625 in."""
    ends = [
        entry.decimal("large_end_diameter") for entry in tables.load("taper_pin") if entry.text("large_end_diameter")
    ]
    assert ends == sorted(set(ends))
    assert row("taper_pin", "ASME B18.8.2", "2").decimal("large_end_diameter") == Decimal("4.9022")


@pytest.mark.parametrize(
    ("table", "standard", "size", "thread"),
    [
        ("taper_pin_with_internal_thread", "ISO 8736", "12", "M8"),
        ("taper_pin_with_internal_thread", "ISO 8736", "6", "M4"),
        ("taper_pin_with_external_thread", "ISO 8737", "6", "M6"),
        ("taper_pin_with_external_thread", "ISO 8737", "20", "M16"),
    ],
)
def test_threads_of_taper_pins(table: str, standard: str, size: str, thread: str) -> None:
    """Internal threads are about half the pin, external ones carry its number up to 16 mm."""
    column = "internal_thread" if "internal" in table else "thread"
    assert row(table, standard, size).text(column) == thread


LENGTH_TABLES = (
    "taper_pin",
    "taper_pin_with_internal_thread",
    "taper_pin_with_external_thread",
    "slotted_spring_pin",
    "coiled_spring_pin",
    "grooved_pin",
    "clevis_pin",
    "split_pin",
)


@pytest.mark.parametrize("table", LENGTH_TABLES)
def test_lengths_rise_without_repeats(table: str) -> None:
    """A list of lengths is strictly increasing, so a slip such as a doubled 140 shows."""
    listed = [entry.decimals("lengths") for entry in tables.load(table) if entry.text("lengths")]
    assert listed
    for lengths in listed:
        assert list(lengths) == sorted(set(lengths))


def test_external_ring_and_groove_are_smaller_than_the_shaft() -> None:
    """The size of DIN 471 is the shaft: free ring < groove < shaft, and the ring is thinner than its groove is wide."""
    for size, (shaft, groove, ring) in rows("external_retaining_ring", "shaft_size", "groove_diameter", "bore"):
        assert ring < groove < shaft, size
    for size, (thickness, width) in rows("external_retaining_ring", "thickness", "groove_width"):
        assert thickness < width, size


def test_internal_ring_and_groove_are_larger_than_the_bore() -> None:
    """The size of DIN 472 is the bore: bore < groove < free ring, also for 28 mm where a source prints 20.4."""
    for size, (bore, groove, ring) in rows(
        "internal_retaining_ring", "hole_diameter", "groove_diameter", "outer_diameter"
    ):
        assert bore < groove < ring, size
    for size, (thickness, width) in rows("internal_retaining_ring", "thickness", "groove_width"):
        assert thickness < width, size


@pytest.mark.parametrize("table", ["external_retaining_ring", "internal_retaining_ring"])
def test_retaining_rings_grow_with_their_size(table: str) -> None:
    """From size to size neither thickness nor groove falls: the known misprints all break this."""
    for column in ("thickness", "groove_diameter"):
        values = [numbers[0] for _, numbers in rows(table, column)]
        assert values == sorted(values), column


def test_e_ring_size_names_the_groove() -> None:
    """Every shaft of an E-ring is larger than its groove, and the shafts of neighbouring sizes leave no gap."""
    found = rows("e_ring", "groove_diameter", "shaft_size_lower", "shaft_size_upper", "outer_diameter")
    for size, (groove, smallest, largest, outside) in found:
        assert groove < smallest < largest < outside, size
    for (_, earlier), (size, later) in pairwise(found):
        assert later[1] <= earlier[2], size


def test_parallel_keys_cover_every_shaft_once() -> None:
    """The shaft ranges join without gap or overlap from 6 to 500 mm."""
    ranges = [numbers for _, numbers in rows("parallel_key", "shaft_over", "shaft_up_to")]
    assert ranges[0][0] == 6
    assert ranges[-1][1] == 500
    assert all(earlier[1] == later[0] for earlier, later in pairwise(ranges))


def test_keyways_are_deeper_together_than_the_key_is_high() -> None:
    """A parallel key has clearance at its top: both keyway depths together exceed its height by up to 0.5 mm."""
    for size, (height, shaft, hub) in rows("parallel_key", "height", "shaft_keyway_depth", "hub_keyway_depth"):
        assert Decimal("0.1") < shaft + hub - height <= Decimal("0.5"), size


def test_key_sizes_are_width_times_height() -> None:
    """The size of a key is written from its own two dimensions."""
    for table in ("parallel_key", "woodruff_key"):
        for entry in tables.load(table):
            assert entry.text("size") == f"{entry.text('width')}x{entry.text('height')}"


def test_woodruff_key_is_less_than_half_its_disc() -> None:
    """The height is below half the disc, the chord below its diameter."""
    for size, (height, disc) in rows("woodruff_key", "height", "outer_diameter"):
        assert height * 2 < disc, size
    for size, (chord, disc) in rows("woodruff_key", "length", "outer_diameter"):
        assert chord < disc, size


def test_dash_numbers_stand_for_cross_sections() -> None:
    """In AS568 the first figure fixes the section and the bore grows with the number."""
    sections = {"1": "2.62", "2": "3.53", "3": "5.33", "4": "6.99"}
    series: dict[str, list[Decimal]] = {}
    for entry in tables.load("o_ring"):
        if entry.text("standard") == "AS568":
            first = entry.text("size")[0]
            series.setdefault(first, []).append(entry.decimal("bore"))
            assert entry.text("cross_section") == sections.get(first, entry.text("cross_section"))
    assert {first: len(bores) for first, bores in series.items()} == {"0": 50, "1": 77, "2": 84, "3": 87, "4": 51}
    assert all(bores == sorted(set(bores)) for bores in series.values())


def test_dash_number_bores_are_thousandths_of_an_inch() -> None:
    """Every AS568 bore is a whole thousandth of an inch, rounded to 0.01 mm: a wrong digit would show."""
    for size, (bore, _) in rows("o_ring", "bore", "bore_lower"):
        thousandths = (bore / Decimal("0.0254")).quantize(Decimal(1))
        assert abs(thousandths * Decimal("0.0254") - bore) <= Decimal("0.005"), size


def test_o_ring_sections_are_all_listed() -> None:
    """The list of usual sections holds every section of the catalogue numbers."""
    usual = {(entry.text("cross_section"), entry.text("series")) for entry in tables.load("o_ring_cross_section")}
    used = {(entry.text("cross_section"), entry.text("standard")) for entry in tables.load("o_ring")}
    assert used <= usual


def test_metric_gland_hole_clears_its_thread() -> None:
    """The hole of a metric gland is half a millimetre wider than its thread, the cable thinner than the thread."""
    for size, (thread, hole) in rows("cable_gland", "outer_diameter", "hole_diameter"):
        assert hole - thread == Decimal("0.5"), size
    for size, (thread, thinnest, thickest) in rows(
        "cable_gland", "outer_diameter", "cable_diameter_lower", "cable_diameter_upper"
    ):
        assert thinnest < thickest < thread, size


def test_pg_gland_is_no_metric_thread() -> None:
    """PG7 measures 12.5 mm and all PG pitches follow from their threads per inch."""
    assert row("cable_gland", "DIN 40430", "PG7").decimal("outer_diameter") == Decimal("12.5")
    for size, (pitch, per_inch, outside, core) in rows(
        "cable_gland", "pitch", "threads_per_inch", "outer_diameter", "core_diameter"
    ):
        assert abs(pitch * per_inch - Decimal("25.4")) < Decimal("0.001"), size
        assert core < outside, size


def test_fitting_codes_grow_with_their_threads() -> None:
    """01 to 04 are 1/8 to 1/2 in pipe threads, taper, parallel and NPT alike; none measures what it says."""
    for letter, thread in (("", "R"), ("G", "G"), ("N", "NPT")):
        codes = [row("pipe_fitting", "practice", f"{letter}0{number}") for number in range(1, 5)]
        assert [code.text("thread") for code in codes] == [f"{thread} {size}" for size in ("1/8", "1/4", "3/8", "1/2")]
        diameters = [code.decimal("outer_diameter") for code in codes]
        assert diameters == sorted(diameters)
        assert diameters[0] > 9


def test_tubes_have_a_wall() -> None:
    """The bore of a tube is smaller than its outside."""
    for entry in tables.load("pneumatic_tube"):
        assert entry.decimal("bore") < entry.decimal("outer_diameter")


def test_disc_springs_are_about_twice_as_wide_as_their_bore() -> None:
    """DIN 2093 springs have a diameter ratio between 1.7 and 2.1 and stand higher than they are thick."""
    for size, (outside, bore, thickness, height) in rows(
        "disc_spring", "outer_diameter", "bore", "thickness", "height"
    ):
        assert Decimal("1.7") < outside / bore < Decimal("2.1"), size
        assert height > thickness, size


def test_disc_spring_series_differ_in_their_cone() -> None:
    """The ratio of cone height to thickness is about 0.4 in series A, 0.75 in B and 1.3 in C."""
    bounds = {"A": ("0.34", "0.52"), "B": ("0.62", "0.85"), "C": ("1.1", "1.45")}
    for entry in tables.load("disc_spring"):
        ratio = entry.decimal("height") / entry.decimal("thickness") - 1
        lower, upper = bounds[entry.text("series")]
        assert Decimal(lower) < ratio < Decimal(upper), entry.text("size")


def test_compression_spring_diameters_follow_from_mean_and_wire() -> None:
    """Outside is mean plus wire, inside mean minus wire, and the spring index stays within 4 to 20 of EN 15800."""
    for size, (wire, mean, outside, inside) in rows(
        "compression_spring", "wire_diameter", "mean_diameter", "outer_diameter", "bore"
    ):
        assert (outside, inside) == (mean + wire, mean - wire), size
        assert 4 <= mean / wire <= 20, size


def test_shims_name_the_inside_first_and_disc_springs_the_outside() -> None:
    """The two trades write the same two diameters in opposite order."""
    for entry in tables.load("shim"):
        assert entry.text("size") == f"{entry.text('bore')}x{entry.text('outer_diameter')}"
        assert entry.decimal("bore") < entry.decimal("outer_diameter")
    for entry in tables.load("disc_spring"):
        assert entry.text("size").startswith(f"{entry.text('outer_diameter')}x{entry.text('bore')}x")


def test_wire_gauge_halves_its_area_every_three_numbers() -> None:
    """The rule of thumb of the gauge holds to 1 %, and gauge 36 is exactly 0.127 mm."""
    assert row("wire_gauge", "ASTM B258", "36").decimal("wire_diameter") == Decimal("0.127")
    areas = [numbers[0] for _, numbers in rows("wire_gauge", "area")]
    for thick, thin in zip(areas, areas[3:], strict=False):
        assert abs(thick / thin - 2) < Decimal("0.02")


def test_button_cell_codes_say_their_size() -> None:
    """Four figures are the diameter in millimetres and the height in tenths."""
    coded = [entry for entry in tables.load("battery") if len(entry.text("size")) == 5 and entry.text("size")[0] == "R"]
    assert coded
    for entry in coded:
        diameter, height = Decimal(entry.text("size")[1:3]), Decimal(entry.text("size")[3:])
        assert diameter <= entry.decimal("outer_diameter") < diameter + 1
        assert entry.decimal("length") == height / 10


def test_size_codes_of_cards_and_lithium_cells() -> None:
    """M.2 2280 is 22 x 80 mm; cell 18650 is 18 x 65 mm."""
    card = row("storage_module", "PCI-SIG M.2", "2280")
    assert (card.text("width"), card.text("length")) == ("22", "80")
    cell = row("battery", "IEC 61960", "18650")
    assert (cell.text("outer_diameter"), cell.text("length")) == ("18", "65")


def test_power_plugs_and_fuses_and_fans_are_named_by_their_size() -> None:
    """The size of a plug is outside x inside; fan holes lie inside the frame; fuse bodies are longer than wide."""
    for entry in tables.load("power_connector"):
        outside, inside = entry.text("size").split("x")
        assert (entry.decimal("outer_diameter"), entry.decimal("bore")) == (Decimal(outside), Decimal(inside))
        assert entry.decimal("bore") < entry.decimal("outer_diameter")
    for size, (width, pitch) in rows("fan", "width", "hole_pitch"):
        assert width / 2 < pitch < width, size
    for size, (diameter, length) in rows("fuse", "outer_diameter", "length"):
        assert diameter < length, size


FAMILY_TABLES = (
    *LENGTH_TABLES,
    "external_retaining_ring",
    "internal_retaining_ring",
    "e_ring",
    "parallel_key",
    "woodruff_key",
    "o_ring",
    "cable_gland",
    "pipe_fitting",
    "disc_spring",
    "compression_spring",
    "shim",
    "wire_gauge",
    "battery",
    "fuse",
    "storage_module",
    "power_connector",
    "fan",
)
NOT_NUMBERS = {"standard", "size", "lengths", "source", "basis", "form", "series", "thread", "internal_thread"}


@pytest.mark.parametrize("table", FAMILY_TABLES)
def test_family_tables_hold_dimensions_only(table: str) -> None:
    """Every column that is not declared as text is a dimension: a number above zero, with its meaning and limits."""
    loaded = tables.load(table)
    text, meanings = loaded.about.get("text_columns", []), loaded.about["columns"]
    assert isinstance(text, list)
    assert isinstance(meanings, dict)
    for entry in loaded:
        assert set(entry.cells) - {"source", "basis"} == set(meanings)
        for column, cell in entry.cells.items():
            if not cell or column in NOT_NUMBERS or column in text or column.endswith("_class"):
                continue
            assert entry.decimal(column) > 0, (column, entry.text("size"))
            if f"{column}_upper" in entry.cells and entry.text(f"{column}_upper"):
                lower = entry.number_or_none(f"{column}_lower") or Decimal(0)
                assert lower <= entry.decimal(f"{column}_upper"), (column, entry.text("size"))


@pytest.mark.parametrize("table", FAMILY_TABLES)
def test_equivalent_standards_point_to_rows(table: str) -> None:
    """Every withdrawn standard that a table stands in for names a standard that has rows."""
    about = tables.load(table).about
    equivalents = about.get("equivalents", {})
    assert isinstance(equivalents, dict)
    held = {entry.text("standard") for entry in tables.load(table)}
    assert set(equivalents.values()) <= held
