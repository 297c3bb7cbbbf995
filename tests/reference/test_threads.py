"""What users see of threads: designations in any spelling, limits, profile, stress area and tap drill."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import tables, threads
from reference.quantities import ThreadSize
from reference.threads import ThreadError

METRIC = tuple(row.text("designation") for row in tables.load("metric_threads"))


def thread(designation: str) -> ThreadSize:
    """Return the thread of a designation, which must be known."""
    found = threads.parse(designation)
    assert found is not None
    return found


WITH_6G_AND_6H = tuple(name for name in METRIC if (thread(name).pitch or 0) >= Decimal("0.35"))


@pytest.mark.parametrize(
    ("text", "designation", "diameter", "pitch", "system"),
    [
        ("M5", "M5", "5", "0.8", "metric"),
        ("m5", "M5", "5", "0.8", "metric"),
        ("M5x0.8", "M5", "5", "0.8", "metric"),
        ("M5 x 0,8", "M5", "5", "0.8", "metric"),
        ("M5-0.8", "M5", "5", "0.8", "metric"),
        ("M8x1", "M8x1", "8", "1", "metric"),
        ("M8 × 1.0", "M8x1", "8", "1", "metric"),
        ("M8*1", "M8x1", "8", "1", "metric"),
        ("M8X1", "M8x1", "8", "1", "metric"),
        ("M15x1.5", "M15x1.5", "15", "1.5", "metric"),
        ("M2.6", "M2.6", "2.6", "0.45", "metric"),
        ("M63x1.5", "M63x1.5", "63", "1.5", "conduit"),
        ("10-32", "10-32 UNF", "4.826", "0.79375", "unified"),
        ("#10-32", "10-32 UNF", "4.826", "0.79375", "unified"),
        ("#6-32", "6-32 UNC", "3.5052", "0.79375", "unified"),
        ("No. 8-32 UNC", "8-32 UNC", "4.1656", "0.79375", "unified"),
        ("1/4-20", "1/4-20 UNC", "6.35", "1.27", "unified"),
        ('1/4"-20', "1/4-20 UNC", "6.35", "1.27", "unified"),
        ("1/4-20 UNC", "1/4-20 UNC", "6.35", "1.27", "unified"),
        ("¼-20", "1/4-20 UNC", "6.35", "1.27", "unified"),
        ("UNC 1/4-20", "1/4-20 UNC", "6.35", "1.27", "unified"),
        ("1/4 UNF", "1/4-28 UNF", "6.35", "0.907143", "unified"),
        ("1-8", "1-8 UNC", "25.4", "3.175", "unified"),
        ("1 1/4-7", "1-1/4-7 UNC", "31.75", "3.628571", "unified"),
        ("G1/8", "G 1/8", "9.728", "0.907", "pipe"),
        ("G 1/8 A", "G 1/8", "9.728", "0.907", "pipe"),
        ('G1"', "G 1", "33.249", "2.309", "pipe"),
        ("G 1½", "G 1-1/2", "47.803", "2.309", "pipe"),
        ("R 1/4", "R 1/4", "13.157", "1.337", "pipe"),
        ("Rc 1/8", "Rc 1/8", "9.728", "0.907", "pipe"),
        ("NPT 1/8", "1/8-27 NPT", "10.287", "0.9407", "pipe"),
        ("1/8 NPT", "1/8-27 NPT", "10.287", "0.9407", "pipe"),
        ("1/8-27 NPT", "1/8-27 NPT", "10.287", "0.9407", "pipe"),
        ("1/8 BSP", "G 1/8", "9.728", "0.907", "pipe"),
        ("1/8 BSPT", "R 1/8", "9.728", "0.907", "pipe"),
        ("Tr8x8 (P2)", "Tr8x8 (P2)", "8", "2", "trapezoidal"),
        ("TR8*8(P2)", "Tr8x8 (P2)", "8", "2", "trapezoidal"),
        ("Tr10x2", "Tr10x2", "10", "2", "trapezoidal"),
        ("PG9", "PG9", "15.2", "1.411", "conduit"),
        ("Pg 13,5", "PG13.5", "20.4", "1.411", "conduit"),
        ("ST4.2", "ST4.2", "4.2", "1.4", "tapping"),
    ],
)
def test_thread_is_read_in_any_spelling(text: str, designation: str, diameter: str, pitch: str, system: str) -> None:
    """A designation in the trade's spellings is the thread of the standard's designation."""
    assert thread(text) == ThreadSize(
        designation, Decimal(diameter), Decimal(pitch), system, "right", thread(text).tolerance_class
    )


@pytest.mark.parametrize(
    ("text", "hand", "tolerance_class"),
    [
        ("M8x1 LH", "left", None),
        ("M8x1-LH", "left", None),
        ("M10x1-4g6g-LH", "left", "4g6g"),
        ("M10-6g", "right", "6g"),
        ("M10x1-6H", "right", "6H"),
        ("1/4-20 UNC-2A", "right", "2A"),
        ("8-32 UNC LH", "left", None),
        ("Tr10x2-7e", "right", "7e"),
        ("Tr 10 x 2 LH", "left", None),
        ("G 1/8 A", "right", "A"),
    ],
)
def test_hand_and_tolerance_class_are_kept(text: str, hand: str, tolerance_class: str | None) -> None:
    """The hand and the tolerance class that a designation states stand in the thread."""
    assert (thread(text).hand, thread(text).tolerance_class) == (hand, tolerance_class)


@pytest.mark.parametrize(
    "text",
    [
        "",
        *("M", "M0", "M5x20", "M5-20", "M5.5", "M63", "M5x", "x0.8", "M5 screw", "M" * 50),
        *("5", "10", "1/4", "3/4", "1/4-21", "1/4-20 UNF"),
        *("G1", "G3", "R5", "R 5/8", "PG10"),
        *("T8x8", "Tr8x0 (P0)", "Tr8x7 (P2)"),
    ],
)
def test_what_is_no_known_thread_is_none(text: str) -> None:
    """A length, a bare number or an unlisted combination is no thread."""
    assert threads.parse(text) is None


def test_lead_of_a_multiple_start_is_not_taken_for_its_pitch() -> None:
    """Tr8x8 without (P..) leaves the pitch open, and what needs it says so."""
    assert thread("Tr8x8").pitch is None
    with pytest.raises(ThreadError, match=r"pitch of Tr8x8 is not stated.*Tr8x8 \(P2\)"):
        threads.profile(thread("Tr8x8"))


def test_coarse_pitch_stands_where_none_is_given() -> None:
    """The coarse pitch is the default, and a diameter without one needs its pitch."""
    assert threads.metric(Decimal("8.0")) == threads.metric(Decimal(8), Decimal("1.25"))
    assert threads.metric(Decimal(15)) is None
    assert threads.pitches(Decimal(10)) == tuple(Decimal(pitch) for pitch in ("1.5", "1.25", "1", "0.75", "0.5"))
    assert threads.pitches(Decimal(15)) == (Decimal("1.5"), Decimal(1))
    assert threads.pitches(Decimal("7.7")) == ()


@pytest.mark.parametrize(
    ("designation", "pitch", "minor", "root"),
    [
        ("M5", "4.480", "4.134", "4.019"),
        ("M8x1", "7.350", "6.917", "6.773"),
        ("M64", "60.103", "57.505", "56.639"),
        ("G 1/8", "9.147", "8.566", "8.566"),
        ("Tr8x8 (P2)", "7", "6", "5.5"),
    ],
)
def test_profile(designation: str, pitch: str, minor: str, root: str) -> None:
    """Pitch, minor and root diameter are those of the standard's basic profile."""
    found = threads.profile(thread(designation))
    assert (found.pitch_diameter, found.minor_diameter, found.root_diameter) == (
        Decimal(pitch),
        Decimal(minor),
        Decimal(root),
    )


@pytest.mark.parametrize("designation", ["1/8 NPT", "PG9", "ST4.2"])
def test_profile_that_is_not_held_is_refused(designation: str) -> None:
    """Where no profile is held, that is said by name."""
    with pytest.raises(ThreadError, match=r"held for"):
        threads.profile(thread(designation))


@pytest.mark.parametrize(
    ("designation", "tolerance_class", "crest", "pitch"),
    [
        ("M5", "6g", ("4.826", "4.976"), ("4.361", "4.456")),
        ("M5", "6h", ("4.85", "5"), ("4.385", "4.48")),
        ("M5", "6e", ("4.79", "4.94"), ("4.325", "4.42")),
        ("M5", "4h", ("4.905", "5"), ("4.42", "4.48")),
        ("M5", "8g", ("4.74", "4.976"), ("4.306", "4.456")),
        ("M5", "5g6g", ("4.826", "4.976"), ("4.381", "4.456")),
        ("M5", "4H", ("4.134", "4.259"), ("4.48", "4.56")),
        ("M5", "5H", ("4.134", "4.294"), ("4.48", "4.58")),
        ("M5", "6G", ("4.158", "4.358"), ("4.504", "4.629")),
        ("M5", "4H5H", ("4.134", "4.294"), ("4.48", "4.56")),
        ("M20", "6H", ("17.294", "17.744"), ("18.376", "18.6")),
        ("M36", "6g", ("35.465", "35.94"), ("33.118", "33.342")),
        ("M48", "6H", ("42.587", "43.297"), ("44.752", "45.087")),
        ("M1", "5H", ("0.729", "0.785"), ("0.838", "0.894")),
    ],
)
def test_limits_of_size(designation: str, tolerance_class: str, crest: tuple[str, str], pitch: tuple[str, str]) -> None:
    """Crest and pitch diameters have the limits of ISO 965-1."""
    found = threads.limits(thread(designation), tolerance_class)
    crested = found.minor if tolerance_class.isupper() else found.major
    assert (crested.lower, crested.upper) == tuple(map(Decimal, crest))
    assert (found.pitch.lower, found.pitch.upper) == tuple(map(Decimal, pitch))


def test_diameter_that_a_class_leaves_open_has_no_limits() -> None:
    """The root of an external thread is open; the major diameter of an internal one is bounded from below only."""
    external, internal = threads.limits(thread("M5"), "6g"), threads.limits(thread("M5"), "6H")
    assert (external.minor.lower, external.minor.upper) == (None, None)
    assert (internal.major.lower, internal.major.upper) == (Decimal(5), None)


@pytest.mark.parametrize(
    ("designation", "tolerance_class", "said"),
    [
        ("M5", "5g", "4, 6 or 8"),
        ("M2", "8g", "3 to 7"),
        ("M1", "6H", "4 to 5"),
        ("M42", "6f", "no deviation f is held at pitch 4.5"),
        ("M5", "6x", "for example 6g or 6H"),
        ("M5", "6gg", "for example 6g or 6H"),
        ("M5", "2A", "for example 6g or 6H"),
        ("10-32", "6g", "2A for a unified one"),
        ("1/4-32 UNEF", "2A", "no limits of class 2A"),
        ("G 1/8", "6g", "not covered for G 1/8"),
        ("1/8 NPT", "6g", "1/8-27 NPT"),
    ],
)
def test_class_that_is_not_covered_is_refused_by_name(designation: str, tolerance_class: str, said: str) -> None:
    """A class that the standard or the table does not give is refused, saying what is given."""
    with pytest.raises(ThreadError) as refused:
        threads.limits(thread(designation), tolerance_class)
    assert said in str(refused.value)


def test_unified_thread_has_its_major_diameter_in_2a() -> None:
    """Class 2A bounds the outside diameter of a unified thread: 10-32 is 0.1831 to 0.1891 inch."""
    major = threads.limits(thread("10-32"), "2A").major
    assert (major.lower, major.upper) == (Decimal("4.65074"), Decimal("4.80314"))


@pytest.mark.parametrize(
    ("designation", "area"), [("M5", "14.1825"), ("M8", "36.6085"), ("M10x1.25", "61.1986"), ("1/4-20", "20.5249")]
)
def test_stress_area(designation: str, area: str) -> None:
    """The stress area follows from the pitch and root diameters."""
    assert threads.stress_area(thread(designation)) == Decimal(area)


def test_stress_area_that_is_not_defined_is_refused() -> None:
    """Pipe threads have no stress area."""
    with pytest.raises(ThreadError, match="only for metric and unified"):
        threads.stress_area(thread("G 1/8"))


def test_tap_drill_and_its_source() -> None:
    """A drill for tapping comes with its source; where none is held there is none."""
    assert threads.tap_drill(thread("M5")) == Decimal("4.2")
    assert "Carvill" in threads.tap_drill_source(thread("M5"))
    assert threads.tap_drill(thread("10-32")) == Decimal("4.04")
    assert threads.tap_drill_source(thread("10-32")) == "common practice"
    assert "memory" in threads.tap_drill_source(thread("M4.5"))
    assert threads.tap_drill(thread("3/4-10")) is None
    assert threads.tap_drill(thread("G 1/8")) is None


def test_source_of_a_thread() -> None:
    """Each listed thread names its source; an unlisted one says that no list holds it."""
    assert threads.source(thread("M5")).startswith("ISO 261")
    assert "ISO 228-1" in threads.source(thread("G 1/8"))
    assert "B1.20.1" in threads.source(thread("1/8 NPT"))
    assert threads.source(thread("Tr8x8 (P2)")).startswith("common practice")
    assert threads.source(thread("Tr9x7")) == "no list holds this thread"


@pytest.mark.parametrize("designation", METRIC)
def test_every_listed_metric_thread_reads_back(designation: str) -> None:
    """The designation of a listed thread names that thread, and its tap drill lies between root and major diameter."""
    size = thread(designation)
    assert size.designation == designation
    drill = threads.tap_drill(size)
    assert drill is not None
    assert threads.profile(size).root_diameter < drill < size.diameter


@pytest.mark.parametrize("designation", WITH_6G_AND_6H)
def test_tap_drill_leaves_a_minor_diameter_within_6h(designation: str) -> None:
    """A hole of the drill's size is a minor diameter that the usual class allows, to the rounding of drills."""
    size = thread(designation)
    minor = threads.limits(size, "6H").minor
    drill = threads.tap_drill(size)
    assert drill is not None
    assert minor.low - Decimal("0.01") <= drill <= minor.high


@given(st.sampled_from(METRIC), st.sampled_from(("4", "5", "6", "7", "8")), st.sampled_from(("G", "H")))
def test_internal_grades_grow(designation: str, grade: str, position: str) -> None:
    """A coarser grade of an internal thread never allows less, where both are defined."""
    size = thread(designation)
    widths = []
    for one in ("4", grade):
        try:
            widths.append(threads.limits(size, one + position).pitch.width)
        except ThreadError:
            return
    assert widths[0] <= widths[1]


@given(st.sampled_from(WITH_6G_AND_6H))
def test_screw_always_enters_its_nut(designation: str) -> None:
    """6g never overlaps 6H: major, pitch and minor diameters leave room."""
    size = thread(designation)
    screw, nut = threads.limits(size, "6g"), threads.limits(size, "6H")
    assert screw.major.high < nut.major.low
    assert screw.pitch.high < nut.pitch.low
    assert screw.minor.nominal < nut.minor.low


@given(st.text(max_size=60))
def test_any_text_is_a_thread_or_none(text: str) -> None:
    """No text ends in an error."""
    found = threads.parse(text)
    assert found is None or found.diameter > 0
