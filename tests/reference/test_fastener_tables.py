"""The tables of parallel pins, screws, nuts, washers and inserts are consistent in themselves and with ISO 286."""

from collections.abc import Iterator
from decimal import Decimal

import pytest

from reference import fits, tables, threads
from reference.tables import Row

SCREWS = (
    "socket_head_cap_screw",
    "low_head_cap_screw",
    "button_head_screw",
    "countersunk_screw",
    "hex_head_screw",
    "hex_head_bolt",
    "hex_flange_screw",
    "pan_head_screw",
    "cheese_head_screw",
    "knurled_screw",
    "wing_screw",
    "set_screw",
    "shoulder_screw",
    "self_tapping_screw",
    "wood_screw",
    "stud",
    "threaded_rod",
)
NUTS = (
    "hex_nut",
    "thin_nut",
    "lock_nut",
    "square_nut",
    "cap_nut",
    "flange_nut",
    "wing_nut",
    "knurled_nut",
    "coupling_nut",
    "t_slot_nut",
    "rivet_nut",
)
WASHERS = ("plain_washer", "large_washer", "spring_washer", "toothed_lock_washer")
INSERTS = ("standoff", "heat_set_insert", "press_in_insert", "wire_thread_insert", "rod_end")
PINS = ("parallel_pin", "parallel_pin_with_internal_thread")
FAMILIES = PINS + SCREWS + NUTS + WASHERS + INSERTS
DIN_HEXAGONS = {"M10": ("17", "16"), "M12": ("19", "18"), "M14": ("22", "21"), "M22": ("32", "34")}


def row(table: str, standard: str, size: str) -> Row:
    """Return the one row with that key."""
    (found,) = (
        entry for entry in tables.load(table) if (entry.text("standard"), entry.text("size")) == (standard, size)
    )
    return found


def column(table: str, standard: str, name: str) -> dict[str, str]:
    """Return size -> cell of one standard; never empty."""
    found = {entry.text("size"): entry.text(name) for entry in tables.load(table) if entry.text("standard") == standard}
    assert found
    return found


def filled(table: str, *names: str) -> Iterator[tuple[Row, tuple[Decimal, ...]]]:
    """Yield each row that fills all these columns, with their numbers."""
    for entry in tables.load(table):
        if all(entry.cells.get(name) for name in names):
            yield entry, tuple(entry.decimal(name) for name in names)


def thread_size(designation: str) -> Decimal:
    """Return the major diameter of a thread."""
    thread = threads.parse(designation)
    assert thread is not None
    return thread.diameter


@pytest.mark.parametrize("table", FAMILIES)
def test_limits_enclose_the_nominal_size(table: str) -> None:
    """Every lower limit is at most, every upper limit at least the nominal size, except where a fit shifts both."""
    heading = tables.load(table).rows[0].cells
    for name in heading:
        if name.endswith("_lower") and name.removesuffix("_lower") in heading:
            base = name.removesuffix("_lower")
            if base in ("outer_diameter", "shoulder_diameter"):
                continue  # m6 lies above, f9 below the nominal size; compared with ISO 286 below
            for entry, (nominal, lower) in filled(table, base, name):
                assert lower <= nominal, (entry.number, name)
        if name.endswith("_upper") and name.removesuffix("_upper") in heading:
            base = name.removesuffix("_upper")
            if base == "shoulder_diameter":
                continue
            for entry, (nominal, upper) in filled(table, base, name):
                assert nominal <= upper or base == "outer_diameter", (entry.number, name)


@pytest.mark.parametrize("table", FAMILIES)
def test_threads_are_designations_that_we_know(table: str) -> None:
    """Every thread in a table can be read as a thread; a metric size beside it is its own designation."""
    for entry in tables.load(table):
        for name in ("thread", "internal_thread", "screw_size"):
            cell = entry.cells.get(name, "")
            assert not cell or threads.parse(cell) is not None, (entry.number, cell)


@pytest.mark.parametrize("table", FAMILIES)
def test_lengths_ascend(table: str) -> None:
    """Listed lengths are positive and ascend, and their basis is one of the known words."""
    for entry in tables.load(table):
        lengths = entry.decimals("lengths") if "lengths" in entry.cells else ()
        assert list(lengths) == sorted(set(lengths)), entry.number
        assert not lengths or lengths[0] > 0
        basis = entry.cells.get("lengths_basis", "")
        assert not basis or (basis in tables.BASES and lengths), entry.number


@pytest.mark.parametrize("table", FAMILIES)
def test_description_says_what_the_size_names_and_where_figures_come_from(table: str) -> None:
    """The description of a table explains every column but the two last and lists its works with their standing."""
    about = tables.load(table).about
    columns, works = about["columns"], about["works"]
    assert isinstance(columns, dict)
    assert isinstance(works, dict)
    assert set(columns) == set(tables.load(table).rows[0].cells) - {"source", "basis"}
    assert all(standing.rpartition("; ")[2] in ("opened", "second-hand", "memory") for standing in works.values())


@pytest.mark.parametrize(
    ("table", "name"),
    [
        ("parallel_pin", "outer_diameter"),
        ("parallel_pin_with_internal_thread", "outer_diameter"),
        ("shoulder_screw", "shoulder_diameter"),
    ],
)
def test_limits_are_those_of_their_tolerance_class(table: str, name: str) -> None:
    """Where a row names a class of ISO 286, its printed limits are those of that class."""
    checked = 0
    for entry, (nominal, lower, upper) in filled(table, name, f"{name}_lower", f"{name}_upper"):
        tolerance_class = entry.text(f"{name}_class")
        if tolerance_class:
            limits = fits.limits(nominal, tolerance_class)
            assert (lower, upper) == (limits.lower, limits.upper), entry.number
            checked += 1
    assert checked >= 15


def test_a_thread_names_no_single_pin() -> None:
    """M6 is in 10 and 12 mm pins, M8 in 14 and 16, M5 in 8 only; below 6 mm only the trade has threaded pins."""
    sizes: dict[str, set[str]] = {}
    for entry in tables.load("parallel_pin_with_internal_thread"):
        sizes.setdefault(entry.text("internal_thread"), set()).add(entry.text("size"))
        assert thread_size(entry.text("internal_thread")) < entry.decimal("outer_diameter")
        if entry.decimal("outer_diameter") < 6:
            assert (entry.text("standard"), entry.basis) == ("practice", "common practice")
    assert sizes["M5"] == {"8"}
    assert sizes["M6"] == {"10", "12"}
    assert sizes["M8"] == {"14", "16"}
    assert sizes["M3"] == {"4", "5"}


def test_thread_of_a_pin_is_deep_enough_to_pull_it() -> None:
    """The thread is shallower than its tapping hole, and the hole is no deeper than the shortest pin."""
    table = "parallel_pin_with_internal_thread"
    for entry, (thread_depth, drill_depth) in filled(table, "thread_depth", "drill_depth"):
        assert thread_depth < drill_depth
        assert all(drill_depth <= length for length in entry.decimals("lengths")), entry.number
    assert row(table, "DIN 7979", "12").decimal("thread_depth") < row(table, "ISO 8735", "12").decimal("thread_depth")


def test_socket_screws_have_the_lengths_of_iso_4762() -> None:
    """M3 is listed to 30, M4 to 40 and M5 to 50 mm, so M4 x 45 and M4 x 50 lie beyond; 14 mm is no listed length."""
    for size, last in (("M3", 30), ("M4", 40), ("M5", 50), ("M6", 60), ("M8", 80), ("M10", 100), ("M12", 120)):
        assert row("socket_head_cap_screw", "ISO 4762", size).decimals("lengths")[-1] == last
    assert Decimal(14) not in row("socket_head_cap_screw", "ISO 4762", "M8").decimals("lengths")


@pytest.mark.parametrize(
    ("table", "iso", "din"),
    [
        ("hex_head_screw", "ISO 4017", "DIN 933"),
        ("hex_head_bolt", "ISO 4014", "DIN 931"),
        ("hex_nut", "ISO 4032", "DIN 934"),
        ("thin_nut", "ISO 4035", "DIN 439-2"),
        ("thin_nut", "ISO 4035", "DIN 936"),
        ("lock_nut", "ISO 7040", "DIN 985"),
    ],
)
def test_din_and_iso_hexagons_differ_at_four_sizes_only(table: str, iso: str, din: str) -> None:
    """M10, M12, M14 and M22 have another hexagon in DIN than in ISO, and no other common size has."""
    new, old = column(table, iso, "across_flats"), column(table, din, "across_flats")
    common = new.keys() & old.keys()
    assert {"M10", "M12"} <= common
    for size in common:
        assert (old[size], new[size]) == DIN_HEXAGONS.get(size, (new[size], new[size])), size


@pytest.mark.parametrize("table", SCREWS)
def test_head_is_larger_than_the_thread_and_the_key_smaller_than_the_head(table: str) -> None:
    """A head is wider than its thread, a socket narrower than it; a shoulder lies between thread and head."""
    for entry in tables.load(table):
        thread = thread_size(entry.cells["thread"]) if entry.cells.get("thread") else entry.decimal("outer_diameter")
        for name in ("head_diameter", "across_flats", "flange_diameter"):
            if entry.cells.get(name):
                assert entry.decimal(name) > thread, entry.number
        if entry.cells.get("drive_size"):
            assert entry.decimal("drive_size") < thread, entry.number
        if entry.cells.get("shoulder_diameter"):
            assert thread < entry.decimal("shoulder_diameter") < entry.decimal("head_diameter"), entry.number


@pytest.mark.parametrize("table", NUTS)
def test_nut_is_wider_than_its_thread(table: str) -> None:
    """Hexagon, flange, wings, knurl and rivet-nut hole are all wider than the internal thread."""
    for entry in tables.load(table):
        thread = thread_size(entry.text("internal_thread"))
        for name in ("across_flats", "flange_diameter", "width", "outer_diameter", "hole_diameter", "slot_width"):
            if entry.cells.get(name) and entry.text("standard") != "practice":
                assert entry.decimal(name) > thread, entry.number
        if entry.cells.get("hole_diameter"):
            assert entry.decimal("hole_diameter") > thread, entry.number


@pytest.mark.parametrize("table", WASHERS)
def test_washer_takes_the_screw_that_it_names(table: str) -> None:
    """The hole is larger than the screw, by at most a seventh and half a millimetre, and the outside larger still."""
    for entry, (bore, outside) in filled(table, "bore", "outer_diameter"):
        screw = thread_size(entry.text("screw_size"))
        assert screw < bore <= screw * Decimal(8) / 7 + Decimal("0.5"), entry.number
        assert bore < outside, entry.number


@pytest.mark.parametrize(("table", "standard"), [("plain_washer", "DIN 125"), ("large_washer", "DIN 9021")])
def test_din_washer_is_named_by_its_hole(table: str, standard: str) -> None:
    """DIN 125 - A 5,3 is the M5 washer: its size is the hole."""
    for size, bore in column(table, standard, "bore").items():
        assert size == bore
    assert row(table, standard, "5.3").text("screw_size") == "M5"


def test_lock_nuts_of_one_thread_have_very_different_heights() -> None:
    """M5: 6.8 in ISO 7040, 5 in ISO 10511 and DIN 985; the thin form is never higher than the regular one."""
    heights = {name: column("lock_nut", name, "height") for name in ("ISO 7040", "ISO 10511", "DIN 985")}
    assert [heights[name]["M5"] for name in heights] == ["6.8", "5", "5"]
    for size, height in heights["ISO 10511"].items():
        assert Decimal(height) < Decimal(heights["ISO 7040"][size])


def test_countersunk_heads_of_iso_and_din_are_two() -> None:
    """ISO 10642 prints the sharp diameter (M5 11.2), DIN 7991 the real one (M5 10); the ISO height is greater too."""
    iso, din = (column("countersunk_screw", name, "head_diameter") for name in ("ISO 10642", "DIN 7991"))
    assert (iso["M5"], din["M5"]) == ("11.2", "10")
    assert all(Decimal(iso[size]) > Decimal(din[size]) for size in iso.keys() & din.keys())


def test_shoulder_screws_of_the_standard_and_of_the_trade() -> None:
    """6.5, 13 and 25 are ISO sizes with h8, 6, 12 and 24 stock sizes with f9; 8 mm carries M6 in both."""
    iso, stock = (column("shoulder_screw", name, "thread") for name in ("ISO 7379", "practice"))
    assert {"6.5", "13", "25"} <= iso.keys()
    assert {"6", "12", "24"} <= stock.keys()
    assert not {"6", "12", "24"} & iso.keys()
    assert iso["8"] == stock["8"] == "M6"


def test_stud_ends_grow_with_the_softness_of_the_part() -> None:
    """The screwed-in end is about 1, 1.25, 2 and 2.5 diameters in DIN 938, 939, 835 and 940."""
    for standard, factor in (("DIN 938", "1"), ("DIN 939", "1.25"), ("DIN 835", "2"), ("DIN 940", "2.5")):
        for size, end in column("stud", standard, "screwed_in_length").items():
            assert abs(Decimal(end) / (thread_size(size) * Decimal(factor)) - 1) <= Decimal("0.08"), (standard, size)


def test_wire_thread_insert_lengths_are_multiples_of_the_diameter() -> None:
    """The lengths are 1, 1.5, 2, 2.5 and 3 diameters; the hole is larger than the thread and smaller than the wire."""
    for entry, (hole,) in filled("wire_thread_insert", "hole_diameter"):
        thread = threads.parse(entry.text("internal_thread"))
        assert thread is not None
        assert thread.pitch is not None
        factors = [length / thread.diameter for length in entry.decimals("lengths")]
        assert factors == [Decimal(factor) for factor in ("1", "1.5", "2", "2.5", "3")]
        assert thread.diameter < hole < thread.diameter + thread.pitch


def test_heat_set_inserts_of_one_thread_need_different_holes() -> None:
    """M3 inserts are sold with several outside diameters and holes, so the thread alone names no hole."""
    sold = [entry for entry in tables.load("heat_set_insert") if entry.text("internal_thread") == "M3"]
    assert len({entry.text("outer_diameter") for entry in sold}) >= 4
    assert len({entry.text("hole_diameter") for entry in sold if entry.text("hole_diameter")}) >= 2
    for entry, (hole, outside) in filled("heat_set_insert", "hole_diameter", "outer_diameter"):
        assert thread_size(entry.text("internal_thread")) < hole < outside


def test_tapping_thread_is_no_metric_thread() -> None:
    """ST3.5 is 3.53 mm outside; the number is near the diameter but is not it."""
    assert row("self_tapping_screw", "ISO 1478", "ST3.5").text("outer_diameter") == "3.53"
    for entry, (outside,) in filled("self_tapping_screw", "outer_diameter"):
        if entry.text("thread"):
            assert abs(outside - Decimal(entry.text("size").removeprefix("ST"))) <= Decimal("0.15")


def test_rod_end_thread_follows_the_bore() -> None:
    """Up to 16 mm the thread has the number of the bore; pneumatic rod ends differ in the pitch."""
    for entry, (bore,) in filled("rod_end", "bore"):
        thread = entry.text("thread") or entry.text("internal_thread")
        if entry.text("standard") == "DIN ISO 12240-4":
            assert bool(entry.text("thread")) == (entry.text("form") == "male")
            assert bore - 1 <= thread_size(thread) <= bore
    (pneumatic,) = (e for e in tables.load("rod_end") if (e.text("standard"), e.text("size")) == ("practice", "10"))
    assert pneumatic.text("internal_thread") == "M10x1.25"
