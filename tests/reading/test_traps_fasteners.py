"""Fastener wordings whose size is not what a buyer assumes: what they mean, what stays open, what is asked.

Each case holds the wording, the state, the readings as ``family [what the size names] key=value ...``, a part of the
question (None where nothing is asked) and the code of a note that must stand there.
"""

from dataclasses import dataclass

import pytest

from reference.quantities import Limits, ThreadSize
from service.reading import Reading
from service.reading.reader import from_scratch


@dataclass(frozen=True)
class Trap:
    """A wording and what must be made of it; ``says`` is a piece of evidence that the first reading must quote."""

    line: str
    readings: tuple[str, ...]
    question: str | None = None
    state: str = "clear"
    note: str | None = None
    says: str | None = None


def _shown(reading: Reading, wanted: str) -> str:
    """Return the reading in the form of the expectation, with the keys that it names."""
    keys = [part.split("=")[0] for part in wanted.partition("] ")[2].split(" ") if part]
    values = []
    for key in keys:
        held = reading.dimensions.get(key, reading.attributes.get(key))
        if isinstance(held, Limits):
            values.append(f"{key}={format(held.nominal.normalize(), 'f')}")
        else:
            values.append(f"{key}={held.designation if isinstance(held, ThreadSize) else held}".replace(" ", "_"))
    return f"{reading.family} [{reading.size_names}] {' '.join(values)}".strip()


HEX = "hex head screw (threaded to the head)"
LOCK = "lock nut (prevailing torque)"

SCREWS = (
    Trap(
        "Bolzen 8 x 20",
        ("clevis pin [outer diameter] outer_diameter=8 length=20", f"{HEX} [external thread] thread=M8 length=20"),
        "clevis pin",
        "ambiguous",
    ),
    Trap(
        "dowel screw M6 x 40",
        (
            "hanger bolt [external thread] thread=M6 length=40",
            "dowel screw [outer diameter] outer_diameter=6 length=40",
        ),
        "Which thread has each end",
        "ambiguous",
    ),
    Trap(
        "shoulder screw M5 x 20",
        (
            "shoulder screw [shoulder diameter] shoulder_diameter=6.5 thread=M5 length=20",
            "shoulder screw [shoulder diameter] shoulder_diameter=6 thread=M5 length=20",
            "shoulder screw [shoulder diameter] shoulder_diameter=5 thread=M4 length=20",
        ),
        "Which shoulder diameter and which thread",
        "ambiguous",
    ),
    Trap(
        "ISO 7379 6 x 20 M5",
        ("shoulder screw [shoulder diameter] shoulder_diameter=6 thread=M5 length=20",),
        "a measured shoulder of 6 mm, not 6.5 mm",
        note="not-in-standard",
    ),
    Trap(
        "ISO 7379 12 x 40",
        ("shoulder screw [shoulder diameter] shoulder_diameter=12 thread=M10 length=40",),
        "not 13 mm",
        note="not-in-standard",
    ),
    Trap(
        "ISO 7379 24 x 60",
        ("shoulder screw [shoulder diameter] shoulder_diameter=24 thread=M20 length=60",),
        "not 25 mm",
        note="not-in-standard",
    ),
    Trap(
        "shoulder screw M4 x Ø5 x 12",
        ("shoulder screw [external thread] thread=M4 shoulder_diameter=5 length=12",),
        says="the length is that of the shoulder",
    ),
    Trap(
        "8 x 20 M6 shoulder screw",
        ("shoulder screw [shoulder diameter] shoulder_diameter=8 thread=M6 length=20",),
        "h8 or f9",
        note="standards-differ",
    ),
    Trap(
        "10 x 40 stripper bolt",
        ("shoulder screw [shoulder diameter] shoulder_diameter=10 thread=M8 length=40",),
        "h8 or f9",
    ),
    Trap(
        "Passschraube M6 x 30",
        (
            "hex fit bolt [external thread] thread=M6 length=30 body_diameter=7",
            "shoulder screw [shoulder diameter] shoulder_diameter=8 thread=M6 length=30",
            "shoulder screw [shoulder diameter] shoulder_diameter=6 thread=M5 length=30",
        ),
        "hex fit bolt",
        "ambiguous",
    ),
    Trap("FHCS M3-10", ("countersunk screw [external thread] thread=M3 length=10",), says="over all, with the head"),
    Trap(
        "Senkkopf M4x20", ("countersunk screw [external thread] thread=M4 length=20",), says="over all, with the head"
    ),
    Trap(
        "M3x8 flat head screw",
        (
            "countersunk screw [external thread] thread=M3 length=8",
            "screw [external thread] thread=M3 length=8 head=flat-topped",
        ),
        "Is the flat head countersunk",
        "ambiguous",
    ),
    Trap(
        "set screw M8 x 30",
        ("set screw [external thread] thread=M8 length=30", f"{HEX} [external thread] thread=M8 length=30"),
        "set screw",
        "ambiguous",
    ),
    Trap(
        "5 mm allen bolt",
        (
            "socket head cap screw [across flats] thread=M6 across_flats=5",
            "socket head cap screw [external thread] thread=M5 across_flats=4",
        ),
        "thread M6",
        "ambiguous",
    ),
    Trap(
        "13 mm bolt",
        (f"{HEX} [across flats] thread=M8 across_flats=13",),
        "Is 13 mm the spanner or the thread? Please give thread and length",
        "ambiguous",
    ),
    Trap(
        "M10 hex, spanner 17",
        (
            f"{HEX} [external thread] thread=M10 across_flats=17",
            "hex nut [internal thread] internal_thread=M10 across_flats=17 height=8",
        ),
        "Is it a screw or a nut, and to which standard",
        "ambiguous",
    ),
    Trap(
        "hex bolt M10 x 40",
        (f"{HEX} [external thread] thread=M10 length=40 across_flats=None",),
        "across flats 16 mm in ISO 4017, 17 mm in DIN 933",
        note="standards-differ",
    ),
    Trap("hex bolt M10 x 40 spanner 17", (f"{HEX} [external thread] thread=M10 length=40 across_flats=17",)),
    Trap("DIN 7984 M5 x 12", ("low head cap screw [external thread] thread=M5 length=12 across_flats=3",)),
    Trap("DIN 6912 M5 x 12", ("low head cap screw [external thread] thread=M5 length=12 across_flats=4",)),
    Trap(
        "low head cap screw M5x12",
        ("low head cap screw [external thread] thread=M5 length=12 across_flats=None",),
        "across flats 3 mm in DIN 7984, 4 mm in DIN 6912",
        note="standards-differ",
    ),
    Trap("10-32 SHCS", ("socket head cap screw [external thread] thread=10-32_UNF",), says="4.826 mm outside"),
    Trap("8-32 x 1/2 SHCS", ("socket head cap screw [external thread] thread=8-32_UNC length=12.7",), says="4.1656 mm"),
    Trap(
        "1/4 tripod screw 10 mm",
        ("machine screw [external thread] thread=1/4-20_UNC length=10",),
        note="look-alike",
        says="a tripod screw has the coarse inch thread",
    ),
    Trap(
        "M2 x 6 self tapping for plastic",
        ("self-tapping screw [outer diameter] outer_diameter=2 length=6",),
        note="not-metric",
    ),
    Trap(
        "ST3.5 x 13 tapping screw", ("self-tapping screw [outer diameter] thread=ST3.5 outer_diameter=3.53 length=13",)
    ),
    Trap(
        "Blechschraube 2,9 x 9,5", ("self-tapping screw [outer diameter] outer_diameter=2.9 thread=ST2.9 length=9.5",)
    ),
    Trap("wood screw 4 x 40", ("wood screw [outer diameter] outer_diameter=4 length=40",)),
    Trap("M8 x 1 x 20 hex bolt", (f"{HEX} [external thread] thread=M8x1 length=20",)),
    Trap("M8 x 20 hex bolt", (f"{HEX} [external thread] thread=M8 length=20",)),
    Trap("M12 bolt", ("screw [external thread] thread=M12",), "Which head has the screw", "ambiguous"),
    Trap(
        "stud DIN 939 M8 x 30",
        ("stud [external thread] thread=M8 length=30 screwed_in_length=10",),
        says="is measured without the screwed-in end",
    ),
    Trap(
        "stud M8 x 30", ("stud [external thread] thread=M8 length=30",), "with or without the screwed-in", "ambiguous"
    ),
    Trap("tige filetée Ø8", ("threaded rod [external thread] thread=M8",), note="look-alike"),
)

NUTS_AND_WASHERS = (
    Trap("DIN 125 A 5,3", ("plain washer [bore] bore=5.3 screw_size=M5",)),
    Trap("washer M5", ("plain washer [screw size] screw_size=M5 bore=5.3",)),
    Trap(
        "washer M8 x 10 x 1",
        ("plain washer [screw size] screw_size=M8 outer_diameter=10 thickness=1",),
        "at least 15 mm outside",
        "ambiguous",
    ),
    Trap("M5 lock nut DIN 985", (f"{LOCK} [internal thread] internal_thread=M5 height=5",)),
    Trap("M5 lock nut ISO 7040", (f"{LOCK} [internal thread] internal_thread=M5 height=6.8",)),
    Trap("M5 lock nut ISO 10511", (f"{LOCK} [internal thread] internal_thread=M5 height=5",)),
    Trap(
        "M5 lock nut",
        (f"{LOCK} [internal thread] internal_thread=M5 height=None across_flats=8",),
        "height 6.8 mm in ISO 7040, 5 mm in ISO 10511",
        note="standards-differ",
    ),
    Trap(
        "square nut M5",
        ("square nut [internal thread] internal_thread=M5 height=None across_flats=8",),
        "height 2.7 mm in DIN 562, 4 mm in DIN 557",
        note="standards-differ",
    ),
    Trap("thin square nut M3", ("square nut [internal thread] internal_thread=M3 height=1.8 across_flats=5.5",)),
    Trap(
        "T-nut M8",
        (
            "T-slot nut [internal thread] internal_thread=M8",
            "T-slot nut [slot width] slot_width=8",
            "tee nut [internal thread] internal_thread=M8",
        ),
        "Which slot width and which thread",
        "ambiguous",
    ),
    Trap(
        "T nut 8",
        (
            "T-slot nut [slot width] slot_width=8",
            "T-slot nut [internal thread] internal_thread=M8",
            "tee nut [internal thread] internal_thread=M8",
            "lead screw nut [internal thread] outer_diameter=8",
        ),
        "Which slot width and which thread",
        "ambiguous",
    ),
    Trap(
        "M5 T-nut for 2020 profile",
        ("T-slot nut [internal thread] internal_thread=M5 profile=20 slot_width=None",),
        "its slot left open",
    ),
    Trap(
        "drop-in T-nut M5 slot 6 (2020)", ("T-slot nut [internal thread] internal_thread=M5 slot_width=6 profile=20",)
    ),
    Trap(
        "barrel nut M6 x 20",
        (
            "cross dowel [internal thread] internal_thread=M6 length=20",
            "sleeve nut [internal thread] internal_thread=M6 length=20",
        ),
        "Is it a cross dowel",
        "ambiguous",
    ),
    Trap("Nut M4 x 3.2", ("hex nut [internal thread] internal_thread=M4 height=3.2",)),
)

STANDOFFS_AND_INSERTS = (
    Trap(
        "standoff M3 x 20",
        ("standoff [internal thread] internal_thread=M3 length=20",),
        "Are both ends tapped, or is one a stud and how long is it",
        "ambiguous",
    ),
    Trap(
        "standoff M3x21mm FM - (Thread 4mm)",
        ("standoff [internal thread] internal_thread=M3 length=21 stud_length=4 ends=male-female",),
    ),
    Trap("M3*6+3 brass pillar", ("standoff [internal thread] internal_thread=M3 length=6 stud_length=3",)),
    Trap(
        "M5 x 30 spacer",
        (
            "spacer [screw size] screw_size=M5 length=30",
            "standoff [internal thread] internal_thread=M5 length=30",
        ),
        "Does an M5 screw pass through the spacer",
        "ambiguous",
    ),
    Trap(
        "M3 5mm IN/OUT standoff",
        ("standoff [internal thread] internal_thread=M3 length=5 ends=male-female",),
        "the stud counted apart",
    ),
    Trap(
        "M3x5x4 heat set insert",
        (
            "heat-set insert [internal thread] internal_thread=M3 outer_diameter=5 length=4",
            "heat-set insert [internal thread] internal_thread=M3 outer_diameter=4 length=5",
        ),
        "Which outside diameter over the knurl",
        "ambiguous",
    ),
    Trap(
        "M3*5*4.2 heat set insert",
        (
            "heat-set insert [internal thread] internal_thread=M3 outer_diameter=5 length=4.2",
            "heat-set insert [internal thread] internal_thread=M3 outer_diameter=4.2 length=5",
        ),
        "Which outside diameter over the knurl",
        "ambiguous",
    ),
    Trap(
        "M2.5x3.4 heat set insert",
        (
            "heat-set insert [internal thread] internal_thread=M2.5 outer_diameter=3.4 length=None",
            "heat-set insert [internal thread] internal_thread=M2.5 outer_diameter=None length=3.4",
        ),
        "Which outside diameter over the knurl",
        "ambiguous",
    ),
    Trap(
        "heat-set insert M3 x 5,7",
        ("heat-set insert [internal thread] internal_thread=M3 length=5.7 outer_diameter=None",),
        "by the maker's sheet",
    ),
    Trap(
        "M4 X D6.0 X L5.0 heat set insert",
        ("heat-set insert [internal thread] internal_thread=M4 outer_diameter=6 length=5",),
        "by the maker's sheet",
    ),
    Trap(
        "M3 heat insert",
        ("heat-set insert [internal thread] internal_thread=M3 hole_diameter=None outer_diameter=None",),
        "which hole is the insert made for",
        "ambiguous",
    ),
    Trap(
        "4x3x5 heat set",
        (
            "heat-set insert [internal thread] internal_thread=M4 outer_diameter=5 length=3",
            "heat-set insert [internal thread] internal_thread=M3 outer_diameter=4 length=5",
            "heat-set insert [internal thread] internal_thread=M3 outer_diameter=5 length=4",
        ),
        "Which number is the thread",
        "ambiguous",
    ),
    Trap("M4 rivet nut", ("rivet nut [internal thread] internal_thread=M4 hole_diameter=6",)),
    Trap(
        "rivet nut 6 mm",
        (
            "rivet nut [internal thread] internal_thread=M6 hole_diameter=9",
            "rivet nut [hole size] internal_thread=M4 hole_diameter=6",
        ),
        "Is it the thread or the hole",
        "ambiguous",
    ),
    Trap(
        "wire thread insert M3x4.5",
        ("wire thread insert [internal thread] internal_thread=M3 length=4.5 length_ratio=1.5d",),
    ),
    Trap(
        "self-clinching nut S-M3-1",
        ("press-in insert [internal thread] internal_thread=M3 hole_diameter=4.25 min_sheet=1 length=None",),
        says="shank for sheet of at least 1 mm, no length",
    ),
    Trap("M6x13 wood insert", ("wood insert [internal thread] internal_thread=M6 length=13 outer_diameter=None",)),
    Trap("rod end 8", ("rod end [bore] bore=8",), "male or female, right or left hand", "ambiguous"),
    Trap("rod end 10 female", ("rod end [bore] bore=10 internal_thread=None",), "which pitch", "ambiguous"),
)

TRAPS = [
    pytest.param(trap, id=trap.line) for group in (SCREWS, NUTS_AND_WASHERS, STANDOFFS_AND_INSERTS) for trap in group
]


@pytest.mark.parametrize("trap", TRAPS)
def test_a_wording_is_read_in_every_meaning_and_no_other(trap: Trap) -> None:
    """The readings come in the stated order with the stated sizes, and the state says whether one is certain."""
    answer = from_scratch(trap.line)
    assert answer.state == trap.state, answer.question or answer.reason
    shown = [_shown(reading, wanted) for reading, wanted in zip(answer.readings, trap.readings, strict=False)]
    assert shown == list(trap.readings)
    assert len(answer.readings) == len(trap.readings)


@pytest.mark.parametrize("trap", TRAPS)
def test_what_is_open_is_asked_and_what_surprises_is_noted(trap: Trap) -> None:
    """The question names what the supplier must settle; notes and evidence say what a buyer would not expect."""
    answer = from_scratch(trap.line)
    first = answer.readings[0]
    assert (trap.question is None) == (answer.question is None), answer.question
    assert trap.question is None or trap.question in (answer.question or "")
    assert trap.note is None or trap.note in {note.code for note in first.notes}
    assert trap.says is None or any(trap.says in piece.says for piece in first.because)


@pytest.mark.parametrize(
    ("line", "family"),
    [
        ("DIN 934 M8 square nut", "hex nut"),
        ("DIN 912 M4x8 countersunk screw", "socket head cap screw"),
        ("DIN 127 M6 toothed lock washer", "spring washer"),
    ],
)
def test_a_standard_outranks_the_words_but_the_contradiction_is_asked(line: str, family: str) -> None:
    """The number of a standard comes first among the readings; words that contradict it make the line ambiguous."""
    answer = from_scratch(line)
    assert answer.state == "ambiguous"
    assert answer.readings[0].family == family
    assert "Which one is wanted?" in (answer.question or "")


@pytest.mark.parametrize(
    ("line", "missing"),
    [
        ("M3 heat insert", ("outer_diameter", "length")),
        ("M5 T-nut for 2020 profile", ("slot_width",)),
        ("M3x10 M/F standoff", ()),
    ],
)
def test_the_open_part_is_named(line: str, missing: tuple[str, ...]) -> None:
    """A line can be certain of its thread and leave the rest open: what is open stands under missing."""
    assert from_scratch(line).readings[0].missing == missing


@pytest.mark.parametrize(
    ("line", "other"),
    [
        ("4 x 20 SHCS", "8-32 UNC"),
        ("hex nut 5", "10-32 UNF"),
        ("6 x 30 hex bolt", "1/4-20 UNC"),
        ("3 x 10 grub screw", "4-40 UNC"),
    ],
)
def test_a_size_without_m_is_noted_as_near_an_inch_thread(line: str, other: str) -> None:
    """A plain number leaves the system of units open: the inch thread that is taken for it stands in a note."""
    (reading,) = from_scratch(line).readings
    assert any(note.code == "look-alike" and other in note.text for note in reading.notes)


@pytest.mark.parametrize("line", ["M4 x 20 SHCS", "DIN 912 4 x 20", "8-32 x 1/2 SHCS", "ISO 4762 M6 x 30"])
def test_a_size_with_m_a_standard_or_threads_per_inch_is_no_near_miss(line: str) -> None:
    """Where the system of units is settled there is no note on look-alikes."""
    (reading,) = from_scratch(line).readings
    assert "look-alike" not in {note.code for note in reading.notes}


def test_ten_by_thirty_two_is_no_10_32() -> None:
    """A cross between the numbers is a length: ``10 x 32`` stays metric and open, ``10-32`` is an inch thread."""
    crossed, dashed = from_scratch("10 x 32 screw"), from_scratch("10-32 screw")
    assert crossed.state == dashed.state == "ambiguous"
    assert all(getattr(item.dimensions["thread"], "system", "") == "metric" for item in crossed.readings)
    assert [getattr(item.dimensions["thread"], "designation", "") for item in dashed.readings] == ["10-32 UNF"]
