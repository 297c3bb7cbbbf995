"""Wordings of pins, springs, rings, keys, fittings and rated items whose size is not what a buyer assumes.

Each case holds the line, what must be read from it (as ``is_read`` takes it) and a part of the question to the
supplier, or None where nothing is to be asked.
"""

from collections.abc import Callable

import pytest

from service.reading import read

PINS = (
    (
        "spring pin 5 x 24",
        "slotted spring pin: size=hole size, hole_diameter=5, outer_diameter=5.5, length=24",
        "the hole",
    ),
    ("Spannstift 5x24", "slotted spring pin: size=hole size, hole_diameter=5, outer_diameter=5.5", "the hole"),
    ("goupille élastique 5x24", "slotted spring pin: size=hole size, hole_diameter=5", "the hole"),
    ("Spring pin ISO 8752 - 5 x 24 - St", "slotted spring pin: size=hole size, hole_diameter=5, length=24", None),
    ("DIN 1481 M5 x 20", "slotted spring pin: size=hole size, hole_diameter=5, length=20", None),
    ("split pin 3.2 x 20", "split pin: size=hole size, hole_diameter=3.2, wire_diameter=2.8, length=20", "the hole"),
    ("Splint DIN 94 3,2x20", "split pin: size=hole size, hole_diameter=3.2, wire_diameter=2.8", None),
    ("cotter pin 1/8", "? split pin", "the split pin itself or its hole"),
    ("cotter pin 1/8 x 1", "? split pin", "crank cotter"),
    (
        "taper pin 4 x 30",
        "taper pin: size=small end diameter, small_end_diameter=4, large_end_diameter=4.6",
        "small end",
    ),
    ("Kegelstift ISO 2339 4x30", "taper pin: size=small end diameter, large_end_diameter=4.6, length=30", None),
    ("taper pin no. 2 x 1 in", "taper pin: size=large end diameter, large_end_diameter=4.9022, length=25.4", None),
    (
        "taper pin with threaded end 6 x 50",
        "taper pin with external thread: size=small end diameter, small_end_diameter=6, thread=M6, length=50",
        "small end",
    ),
    ("DIN 7977 5 x 40", "taper pin with external thread: small_end_diameter=5, thread=M5", None),
    ("grooved pin 4 x 20", "grooved pin: size=hole size, hole_diameter=4, outer_diameter=4", "full length"),
    ("Kerbstift DIN 1475 4 x 20", "grooved pin: size=hole size, hole_diameter=4, length=20", None),
    ("clevis pin 8 x 40", "clevis pin: size=outer diameter, outer_diameter=8, length=40, tolerance_class=h11", "h11"),
    ("Bolzen 8 x 20", "? clevis pin, hex head screw (threaded to the head)", "screw"),
    ("Bolzen ISO 2341 B 8 x 40", "clevis pin: size=outer diameter, outer_diameter=8, split_pin_hole=2", None),
    ("inch dowel 1/4 x 1", "parallel pin: size=outer diameter, outer_diameter=6.35, length=25.4", ""),
    ("dowel 60 mm", "? parallel pin", "outside diameter"),
    ("2.5 mm dowel", "parallel pin: size=outer diameter, outer_diameter=2.5", "m6"),
    ("R-clip 3 mm", "? spring cotter", "shaft size 3 mm"),
    ("ball lock pin 5 x 20", "quick release pin: size=outer diameter, outer_diameter=5, length=20", "grip"),
)
"""Sources: ISO 8752, ISO 1234, ISO 2339, ISO 8737, ISO 8740, ISO 2341, ASME B18.8.2; marketplace and everyday use."""

SPRINGS_AND_SEALS = (
    ("compression spring 1 x 8 x 25", "? compression spring", "outer diameter 8 mm"),
    (
        "Druckfeder DIN 2098 1 x 8 x 25",
        "compression spring: wire_diameter=1, mean_diameter=8, outer_diameter=9, free_length=25",
        None,
    ),
    ("die spring 10 x 25", "die spring: size=hole size, hole_diameter=10, shaft_size=5, free_length=25", "the hole"),
    ("die spring 10 x 25 blue", "? die spring", "ISO 10243"),
    ("ISO 10243 10 x 25 blue", "die spring: hole_diameter=10, colour=blue", None),
    ("extension spring OD 5, 20 long", "? extension spring", "hooks"),
    ("O-ring 20x2", "O-ring: size=bore, bore=20, cross_section=2", "inside diameter"),
    ("O-ring 20*2", "? O-ring", "outer diameter 20 mm"),
    ("O-ring 24x20x2", "O-ring: outer_diameter=24, bore=20, cross_section=2", None),
    ("O-ring 24x21x2", "? O-ring", "twice the section"),
    ("O-ring -014", "O-ring: size=catalogue number, bore=12.42, cross_section=1.78", None),
    ("O-ring P10", "O-ring: size=catalogue number, bore=9.8, cross_section=1.9", None),
    ("O-ring G25", "O-ring: size=catalogue number, bore=24.4, cross_section=3.1", None),
    ("O-Ring 21,89x2,62 (118)", "O-ring: bore=21.89, cross_section=2.62, series=AS568-118, quantity=None", None),
    ("E-clip 5", "E-ring: size=groove diameter, groove_diameter=5, shaft_size_lower=6, shaft_size_upper=8", "groove"),
    ("E-clip for 5 mm shaft", "? E-ring", "size 3.2 or 4"),
    ("E-clip 5/16", "E-ring: size=shaft size, shaft_size=7.9375", "as the shaft, not the groove"),
    ("circlip 10", "? external retaining ring, internal retaining ring", "hole diameter 10 mm"),
    ("retaining ring 10", "? external retaining ring, internal retaining ring, E-ring", "groove diameter 10 mm"),
    ("circlip A10", "external retaining ring: size=shaft size, shaft_size=10, groove_diameter=9.6", None),
    ("circlip J10", "internal retaining ring: size=hole size, hole_diameter=10, groove_diameter=10.4", None),
    ("key 8", "? parallel key", "shaft"),
    ("key DIN 6885 8 x 7 x 30", "parallel key: size=width x height, width=8, height=7, length=30", "form A"),
    ("key DIN 6885 B 8 x 7 x 30", "parallel key: width=8, length=30, form=B", None),
    ("magnet 3 x 5", "magnet: size=outer diameter, outer_diameter=3, thickness=5", None),
    ("ring magnet 10x5x3", "? magnet", "bore 3 mm"),
    ("encoder magnet 6 x 2.5", "? magnet", "magnetised across"),
    ("diametric encoder magnet 6 x 2.5", "magnet: outer_diameter=6, magnetisation=diametric", None),
)
"""Sources: DIN 2098-1, ISO 10243, AS568, JIS B 2401, DIN 6799, DIN 471, DIN 472, DIN 6885-1; seller lists."""

FITTINGS = (
    (
        "fitting G1/8 6 mm",
        "pipe fitting: size=external thread, thread=G 1/8, outer_diameter=9.728, tube_diameter=6",
        None,
    ),
    ("1/8 fitting", "? pipe fitting", "G (BSP), R (BSPT) or NPT"),
    ("PC6-01", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=R 1/8", None),
    ("PC8-02", "pipe fitting: size=tube outer diameter, tube_diameter=8, thread=R 1/4", None),
    ("PC4-M6", "pipe fitting: size=tube outer diameter, tube_diameter=4, thread=M6", None),
    ("PC4-M10", "pipe fitting: size=tube outer diameter, tube_diameter=4, thread=M10", "pitch"),
    ("QSM-M5-4", "pipe fitting: size=external thread, tube_diameter=4, thread=M5", None),
    ("6 mm tube", "? tube", "bore 6 mm"),
    ("pneumatic tube 6 mm", "tube: size=outer diameter, outer_diameter=6", "outside"),
    ("silicone tube 6 mm", "tube: size=bore, bore=6", "inside"),
    ("tube 2x4", "tube: size=bore, bore=2, outer_diameter=4", None),
    ("tube 4x2", "tube: size=outer diameter, bore=2, outer_diameter=4", None),
    ("PG7 gland", "cable gland: size=trade size, thread=PG7, outer_diameter=12.5", "cable"),
    (
        "M12 gland",
        "cable gland: size=external thread, thread=M12x1.5, hole_diameter=12.5",
        "a cable of about 3 to 6 mm",
    ),
    ("heat shrink 6", "heat shrink: size=bore, bore=6", "before shrinking"),
    ("heat shrink 6 mm 2:1", "heat shrink: bore=6, shrunk_diameter=3", None),
)
"""Sources: ISO 228-1, ISO 7-1, DIN 40430, EN 60423; codes of push-in fittings: common practice."""

RATED = (
    ("SSD M.2 2280 500GB", "storage module: size=size class, width=22, length=80, capacity=500", "NVMe or SATA"),
    ("5x20 fuse 2A", "? fuse", "(F) or time-lag (T)"),
    ("fuse 5x20 F2A 250V", "fuse: size=body size, outer_diameter=5, length=20, current=2, voltage=250", None),
    ("heater 40W", "? heater cartridge", "voltage"),
    ("heater 24V 40W", "heater cartridge: size=rating, voltage=24, power=40, resistance=14.4", None),
    ("power supply 24V 20A 350W", "? power supply", "480 W, not 350 W"),
    ("NTC 100k", "? temperature sensor", "beta"),
    ("NTC 100k B3950", "temperature sensor: resistance=100000, beta_k=3950", None),
    ("DC jack 5.5x2.1", "dc connector: outer_diameter=5.5, bore=2.1", None),
    ("DC jack 5.5", "? dc connector", "2.1, 2.5 mm"),
    ("0.5 wire", "? wire", "area in mm2 or the diameter"),
    ("RV2-4", "ring terminal: size=screw size, screw_size=M4, wire_class=2", None),
    ("ring terminal M4", "ring terminal: size=screw size, screw_size=M4", None),
    ("Draht 0,5 mm", "wire: size=wire diameter, wire_diameter=0.5", None),
    ("Litze 0,5 mm²", "wire: size=cross section area, area=0.5", None),
)
"""Sources: IEC 60127-2, P = U I, P = U^2 / R; common practice."""


@pytest.mark.parametrize(("line", "expected", "question"), [*PINS, *SPRINGS_AND_SEALS, *FITTINGS, *RATED])
def test_trap_is_read_and_asked_about(
    line: str, expected: str, question: str | None, is_read: Callable[[str, str], None]
) -> None:
    """The size is what the standard or the trade makes of it, and what stays open is asked."""
    is_read(line, expected)
    asked = read(line).question
    assert (asked is None) if question is None else (question in (asked or "")), asked


def test_a_heater_cartridge_is_ground_under_its_size() -> None:
    """A note tells it beside the clear reading."""
    (reading,) = read("heater cartridge 6x20 24V 40W").readings
    assert [note.code for note in reading.notes] == ["ground-undersize"]


def test_gigabytes_are_shown_in_gibibytes() -> None:
    """64 GB are 64 x 10^9 bytes: less than 60 GiB."""
    (reading,) = read("64GB eMMC storage module").readings
    assert [note.text for note in reading.notes] == ["64 GB are 59.6 GiB"]


@pytest.mark.parametrize(
    ("line", "quantity", "pack"),
    [
        ("split pin 2x20, pack of 50", 50, 50),
        ("goupille fendue 2x20 (lot de 20)", 20, 20),
        ("Splint 2x20, VE 100", 100, 100),
        ("E-clip 5, 100 uds", 100, None),
        ("O-ring 20x2, 12 Stk", 12, None),
    ],
)
def test_pieces_and_packs_are_counted(line: str, quantity: int, pack: int | None) -> None:
    """A pack's content is told beside the number of pieces."""
    answer = read(line)
    assert (answer.quantity, answer.pack) == (quantity, pack)


@pytest.mark.parametrize(
    ("line", "other"),
    [
        ("Passscheibe 8x14x0,5", "Passscheibe 8x14x0.5"),
        ("O-Ring 12,5x1,5", "O-Ring 12.5x1.5"),
        ("Heizpatrone 6,5x40 230V 100W", "Heizpatrone 6.5x40 230V 100W"),
    ],
)
def test_a_decimal_comma_is_a_decimal_point(line: str, other: str) -> None:
    """0,5 is half a millimetre, in every language."""
    assert [item.dimensions for item in read(line).readings] == [item.dimensions for item in read(other).readings]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("M5 spring pin 20 long", "slotted spring pin: hole_diameter=5"),
        ("M20 gland", "cable gland: thread=M20x1.5"),
        ("M12 sensor inductive", "sensor: thread=M12x1"),
        ("M8 4-pin connector", "circular connector: thread=M8x1"),
        ("SSD M.2 2242 1TB", "storage module: width=22, length=42"),
    ],
)
def test_m_is_no_coarse_metric_thread_everywhere(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Pins, glands, sensors, connectors and M.2 write an M that stands for something else."""
    is_read(line, expected)


@pytest.mark.parametrize("line", ["Passscheibe 14x8x0,3", "Passscheibe 8x14x0,3"])
def test_of_two_diameters_the_smaller_is_inside(line: str, is_read: Callable[[str, str], None]) -> None:
    """Shims are sorted whatever their order; so are tubes and disc springs."""
    is_read(line, "shim: bore=8, outer_diameter=14, thickness=0.3")


def test_capitals_leave_class_and_thread_open() -> None:
    """`8 M6` in capitals is class m6 or thread M6, unless the standard has no thread."""
    assert read("STIFT 10 M6 X 40").state == "ambiguous"
    assert read("STIFT 10 M6 X 40 ISO 8734").state == "clear"
