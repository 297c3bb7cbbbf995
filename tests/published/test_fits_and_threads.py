"""Fits, threads and clearance holes against what others print.

``iso286_limits``, ``worked_fits``, ``metric_thread_limits``, ``thread_figures`` and ``clearance_holes`` hold what a
work prints, with the work and its table; our own tables were taken from other works. ``errors_in_print`` holds cells
that are printed wrong somewhere, with a second work that shows it: there our figure must be the right one.
"""

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from reference import fits, threads
from reference.clearance_holes import SERIES, clearance_hole
from reference.quantities import Limits, ThreadSize
from reference.units import INCH

Check = dict[str, str]


def checks(topic: str) -> tuple[Check, ...]:
    """Return the rows of a topic."""
    return tuple(csv.DictReader((Path(__file__).parent / f"{topic}.csv").read_text("utf-8").splitlines()))


LIMITS = checks("iso286_limits")
WORKED = checks("worked_fits")
THREAD_LIMITS = checks("metric_thread_limits")
FIGURES = checks("thread_figures")
HOLES = checks("clearance_holes")
ERRORS = checks("errors_in_print")
COUNTED = (*LIMITS, *WORKED, *THREAD_LIMITS, *FIGURES, *HOLES)
MOST_ROWS_OF_ONE_TABLE = 40
UNITS = {"mm": Decimal(1), "mm2": Decimal(1), "in": INCH, "in2": INCH**2}


def name(check: Check) -> str:
    """Return a readable test id."""
    return check["id"]


def thread(designation: str) -> ThreadSize:
    """Return the thread of a designation, which must be known."""
    found = threads.parse(designation)
    assert found is not None, f"{designation} is not known"
    return found


def deviation(size: str, tolerance_class: str, side: str) -> Decimal:
    """Return the upper or lower deviation of our limits in micrometres."""
    limits = fits.limits(Decimal(size), tolerance_class)
    value = limits.upper if side == "upper" else limits.lower
    assert value is not None
    return (value - limits.nominal) * 1000


def crest(designation: str, tolerance_class: str) -> Limits:
    """Return the limits of the crest diameter: major of an external thread, minor of an internal one."""
    found = threads.limits(thread(designation), tolerance_class)
    return found.minor if tolerance_class.isupper() else found.major


def figure(check: Check, what: str) -> Decimal:
    """Return the figure of a thread in the unit in which it is printed."""
    size = thread(check.get("thread") or check["subject"])
    value: Decimal | None
    if what == "stress area":
        value = threads.stress_area(size)
    elif what == "tap drill":
        value = threads.tap_drill(size)
    elif what == "diameter":
        value = size.diameter
    elif what.endswith("2A"):
        major = threads.limits(size, "2A").major
        value = major.upper if what.startswith("largest") else major.lower
    else:
        value = getattr(threads.profile(size), what.replace(" ", "_"))
    assert value is not None
    return value / UNITS[check["unit"]]


@pytest.mark.parametrize("check", LIMITS, ids=name)
def test_limit_deviations_are_the_printed_ones(check: Check) -> None:
    """The upper and lower deviations of a tolerance class are those that the table prints."""
    sides = [side for side in ("upper", "lower") if check[side]]
    assert sides
    for side in sides:
        assert deviation(check["size"], check["tolerance_class"], side) == Decimal(check[side])


@pytest.mark.parametrize("check", WORKED, ids=name)
def test_worked_fit_comes_out_as_printed(check: Check) -> None:
    """Limits and clearances of a worked fit are those that the text prints."""
    size = Decimal(check["nominal"])
    hole, shaft = fits.limits(size, check["hole_class"]), fits.limits(size, check["shaft_class"])
    lower, upper = fits.clearance(hole, shaft)
    ours = {
        "hole_min": hole.lower,
        "hole_max": hole.upper,
        "shaft_min": shaft.lower,
        "shaft_max": shaft.upper,
        "min_clearance": lower,
        "max_clearance": upper,
    }
    printed = {field: Decimal(check[field]) for field in ours if check[field]}
    assert printed
    assert {field: ours[field] for field in printed} == printed


@pytest.mark.parametrize("check", THREAD_LIMITS, ids=name)
def test_thread_limits_are_the_printed_ones(check: Check) -> None:
    """Crest and pitch diameter limits of a metric thread are those that the table prints."""
    limits = {"crest": crest(check["thread"], check["tolerance_class"])}
    limits["pitch"] = threads.limits(thread(check["thread"]), check["tolerance_class"]).pitch
    ours = {f"{which}_{side}": getattr(found, side) for which, found in limits.items() for side in ("upper", "lower")}
    printed = {field: Decimal(check[field]) for field in ours if check[field]}
    assert printed
    assert {field: ours[field] for field in printed} == printed


@pytest.mark.parametrize("check", FIGURES, ids=name)
def test_thread_figure_is_the_printed_one(check: Check) -> None:
    """Stress area, diameters or drill of a thread are the printed ones, within the last printed digit."""
    assert abs(figure(check, check["figure"]) - Decimal(check["expected"])) <= Decimal(check["tolerance"])


@pytest.mark.parametrize("check", HOLES, ids=name)
def test_clearance_hole_is_the_printed_one(check: Check) -> None:
    """A clearance hole of ISO 273 is the one that the data set holds."""
    (series,) = (series for series in SERIES if series == check["series"])
    assert clearance_hole(thread(check["thread"]).diameter, series).nominal == Decimal(check["hole"])


def ours_where_print_errs(check: Check) -> Decimal:
    """Return our figure for a cell that is printed wrong somewhere, in the unit of the print."""
    subject, argument, side = check["subject"], check["argument"], check["side"]
    if check["kind"] == "limit":
        return deviation(subject, argument, side)
    if check["kind"] == "clearance":
        return fits.window(argument, Decimal(subject)).upper
    if check["kind"] == "hole":
        (series,) = (series for series in SERIES if series == argument)
        return clearance_hole(thread(subject).diameter, series).nominal
    if check["kind"] == "thread":
        which, end = side.split()
        pitch = threads.limits(thread(subject), argument).pitch
        value = getattr(crest(subject, argument) if which == "crest" else pitch, end)
        assert isinstance(value, Decimal)
        return value
    digits = Decimal(check["expected"])
    return figure(check, argument).quantize(digits)


@pytest.mark.parametrize("check", ERRORS, ids=name)
def test_error_in_print_is_not_ours(check: Check) -> None:
    """Where a table is printed wrong, our figure is the one that the second work shows, not the misprint."""
    assert check["evidence"]
    ours = ours_where_print_errs(check)
    assert ours == Decimal(check["expected"])
    assert ours != Decimal(check["printed"])


def test_each_row_names_its_source_and_no_table_counts_too_often() -> None:
    """Every counted row names its source, no id stands twice, and no table gives more than forty rows."""
    assert len(COUNTED) >= 110
    assert all(check["source"] and check["table"] for check in COUNTED)
    assert len({check["id"] for check in (*COUNTED, *ERRORS)}) == len(COUNTED) + len(ERRORS)
    assert max(Counter(check["table"] for check in COUNTED).values()) <= MOST_ROWS_OF_ONE_TABLE
