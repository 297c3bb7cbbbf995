"""Varied, distinct purchase lines as a club's orders would hold them, and a fitting mate for each.

Made from a seed, so that two runs measure the same lines. Families, word forms, order of words, separators, quantities,
decimal commas and inch sizes are mixed; some lines are misspelt and some cannot be read at all.
"""

from collections.abc import Callable, Iterator
from random import Random

Check = dict[str, str]
Draw = Callable[[Random], tuple[str, Check]]

PIN_SIZES = ("1.5", "2", "2.5", "3", "4", "5", "6", "8", "10", "12")
LENGTHS = (5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 25, 26, 28, 30, 32, 35, 36, 40, 45, 50, 55, 60, 70, 80)
SCREWS = ("2", "2.5", "3", "4", "5", "6", "8", "10", "12")
BEARINGS = ("608", "623", "624", "625", "626", "688", "6000", "6001", "6002", "6200", "6201", "6202", "6804", "6900")
CROSSES = ("x", " x ", "X", "×", " × ", "*")
MATERIALS = ("aluminium", "steel", "brass", "6061-T6")


def _cross(random: Random, *parts: object) -> str:
    return random.choice(CROSSES).join(str(part) for part in parts)


def _bore(random: Random, size: str) -> Check:
    return {
        "bore": f"{size} {random.choice(('H7', 'H7', 'H8', 'G7'))}",
        "fit": random.choice(("location", "press", "slip")),
    }


def dowel(random: Random) -> tuple[str, Check]:
    """Return a parallel pin in one of its wordings."""
    size, length = random.choice(PIN_SIZES), random.choice(LENGTHS)
    comma = size.replace(".", ",")
    text = random.choice(
        (
            f"ISO 8734 - {size} x {length} - A - St",
            f"ISO 2338 - {size} m6 x {length} - St",
            f"DIN 6325 {_cross(random, size, length)}",
            f"{_cross(random, size, length)} dowel pin",
            f"dowel pin {_cross(random, size + 'mm', str(length) + 'mm')} hardened",
            f"parallel pin Ø{comma}{random.choice(CROSSES)}{length} m6",
            f"DIN 7 {size} h8 x {length} stainless",
        )
    )
    return text, _bore(random, size)


def threaded_dowel(random: Random) -> tuple[str, Check]:
    """Return a pin with an internal thread, or one that may be."""
    size, length = random.choice(("6", "8", "10", "12", "16")), random.choice(LENGTHS)
    text = random.choice(
        (
            f"ISO 8735 - {size} x {length} - A - St",
            f"DIN 7979 D {_cross(random, size, length)}",
            f"dowel pin with internal thread {_cross(random, size, length)}",
            f"M{random.choice(('4', '5', '6', '8'))} dowel pin {length} long",
        )
    )
    return text, _bore(random, size)


def spring_pin(random: Random) -> tuple[str, Check]:
    """Return a slotted, coiled or taper pin."""
    size, length = random.choice(("2", "2.5", "3", "4", "5", "6", "8")), random.choice(LENGTHS)
    text = random.choice(
        (
            f"ISO 8752 - {size} x {length} - St",
            f"roll pin {_cross(random, size, length)}",
            f"slotted spring pin {size} x {length} heavy duty",
            f"ISO 8750 {size}x{length} coiled spring pin",
            f"ISO 2339 - A - {size} x {length} - St",
        )
    )
    return text, {"bore": f"{size} H12"}


def cap_screw(random: Random) -> tuple[str, Check]:
    """Return a screw with a socket in one of its heads."""
    size, length = random.choice(SCREWS), random.choice(LENGTHS)
    grade = random.choice(("8.8", "10.9", "12.9", "A2-70", "A4-80", ""))
    name, standard = random.choice(
        (
            ("socket head cap screw", "ISO 4762"),
            ("SHCS", "DIN 912"),
            ("button head screw", "ISO 7380-1"),
            ("countersunk socket screw", "ISO 10642"),
            ("low head cap screw", "DIN 7984"),
        )
    )
    thread = f"M{size}"
    text = random.choice(
        (
            f"{standard} - {thread} x {length} - {grade or '8.8'}",
            f"{standard} {_cross(random, thread, length)} {grade}",
            f"{_cross(random, thread, length)} {name} {grade}",
            f"{name} {_cross(random, thread, length)}",
        )
    )
    return text, _screw_mate(random, size, length)


def bolt(random: Random) -> tuple[str, Check]:
    """Return a hexagon bolt, a set screw or a slotted screw."""
    size, length = random.choice(SCREWS[2:]), random.choice(LENGTHS)
    text = random.choice(
        (
            f"ISO 4017 - M{size} x {length} - 8.8",
            f"hex bolt M{size}x{length} 10.9 zinc plated",
            f"DIN 933 {_cross(random, f'M{size}', length)} A2",
            f"grub screw M{size} x {length} cup point",
            f"ISO 4026 M{size}x{length} 45H",
            f"DIN 84 M{size} x {length} cheese head",
        )
    )
    return text, _screw_mate(random, size, length)


def _screw_mate(random: Random, size: str, length: int) -> Check:
    grip = max(2, length - random.choice((4, 6, 8, 10)))
    return random.choice(
        (
            {"clamp": f"{grip} into M{size} depth {random.choice((8, 10, 12, 16))} in {random.choice(MATERIALS)}"},
            {"clamp": f"{grip} into nut M{size}"},
            {"tapped": f"M{size} depth {length + 5} in {random.choice(MATERIALS)}"},
        )
        if size not in ("2", "2.5")
        else ({"tapped": f"M{size} depth {length + 5} in {random.choice(MATERIALS)}"},)
    )


def nut_or_washer(random: Random) -> tuple[str, Check]:
    """Return a nut or a washer."""
    size = random.choice(("3", "4", "5", "6", "8", "10", "12"))
    text = random.choice(
        (
            f"ISO 4032 - M{size} - 8",
            f"DIN 985 M{size} A2 lock nut",
            f"nyloc nut M{size}",
            f"hex nut M{size} zinc",
            f"ISO 7089 - {size} - 200 HV",
            f"M{size} washer form A stainless",
            f"DIN 9021 M{size}",
            f"spring washer M{size}",
        )
    )
    return text, {"presence": "yes"}


def bearing(random: Random) -> tuple[str, Check]:
    """Return a rolling bearing or a plain bush."""
    code = random.choice(BEARINGS)
    text = random.choice(
        (f"{code}-2RS", f"ball bearing {code} ZZ", f"{code}ZZ deep groove ball bearing C3", f"bearing {code}")
    )
    return text, {"shaft": f"{random.choice(('8', '5', '10', '12'))} {random.choice(('h6', 'j6', 'g6'))}"}


def bush(random: Random) -> tuple[str, Check]:
    """Return a plain bush by its three dimensions."""
    bore = random.choice((3, 4, 5, 6, 8, 10, 12))
    outer, length = bore + random.choice((2, 3, 4)), random.choice((4, 6, 8, 10, 12, 15, 20))
    text = random.choice(
        (
            f"bronze bush {_cross(random, bore, outer, length)}",
            f"plain bearing {_cross(random, bore, outer, length)} sintered",
        )
    )
    return text, {"shaft": f"{bore} h6"}


def ring_or_key(random: Random) -> tuple[str, Check]:
    """Return an O-ring, a retaining ring or a key."""
    size = random.choice((8, 10, 12, 14, 15, 16, 18, 20, 22, 25, 30))
    text = random.choice(
        (
            f"O-ring {_cross(random, size, random.choice((1.5, 2, 2.5, 3)))} NBR 70",
            f"DIN 471 - {size} x 1",
            f"circlip {size}mm external",
            f"DIN 472 {size} internal retaining ring",
            f"parallel key DIN 6885 A {_cross(random, 4, 4, size)}",
        )
    )
    return text, {"presence": "yes"}


def insert(random: Random) -> tuple[str, Check]:
    """Return an insert, a standoff or a magnet."""
    size, length = random.choice(("2", "2.5", "3", "4", "5")), random.choice((4, 5, 6, 8, 10, 12, 15, 20))
    text = random.choice(
        (
            f"heat set insert M{size} x {length}",
            f"standoff M{size}x{length} female female brass",
            f"hex standoff M{size} {length}mm male-female",
            f"magnet disc {_cross(random, int(float(size)) * 3, length)} N42",
        )
    )
    return text, {"presence": "yes"}


def inch(random: Random) -> tuple[str, Check]:
    """Return an inch size."""
    size, length = (
        random.choice(("1/8", "3/16", "1/4", "5/16", "3/8")),
        random.choice(("1/2", "3/4", "1", "1-1/4", "1.5")),
    )
    text = random.choice(
        (
            f'{size}" dowel pin {length}"',
            f'dowel pin {size}" x {length}" alloy',
            f'1/4-20 x {length}" socket head cap screw',
            f'#{random.choice((6, 8, 10))}-32 x {length}" SHCS',
            f'10-32 x {length}" button head',
        )
    )
    return text, {"bore": f'{size}" H7'}


def part_with_a_rating(random: Random) -> tuple[str, Check]:
    """Return something that is chosen by a rating."""
    text = random.choice(
        (
            f"heater cartridge {random.choice((12, 24))}V {random.choice((30, 40, 50, 60))}W 6x20",
            f"fuse {random.choice((1, 2, 3.15, 5, 10))}A 5x20 slow",
            f"{random.choice((16, 32, 64, 128))} GB microSD card class 10",
            f"power supply 24V {random.choice((60, 100, 150, 350))}W",
            f"compression spring {_cross(random, random.choice((0.8, 1, 1.2)), random.choice((8, 10)), 30)}",
            f"GT2 pulley {random.choice((16, 20, 36, 60))} teeth {random.choice((5, 8))}mm bore",
        )
    )
    return text, {"presence": "yes"}


def strange(random: Random) -> tuple[str, Check]:
    """Return a misspelt line, or one that says nothing."""
    size, length = random.choice(PIN_SIZES), random.choice(LENGTHS)
    text = random.choice(
        (
            f"dowell pin {size}x{length}",
            f"soket head cap scrw M5x{length}",
            f"ISO 4762 dowel pin {size}x{length}",
            f"thingamajig {size}/{length}",
            f"item {random.randrange(10_000, 99_999)} as last time",
        )
    )
    return text, _bore(random, size)


KINDS: tuple[tuple[Draw, int], ...] = (
    (dowel, 18),
    (threaded_dowel, 6),
    (spring_pin, 8),
    (cap_screw, 20),
    (bolt, 12),
    (nut_or_washer, 10),
    (bearing, 6),
    (bush, 4),
    (ring_or_key, 5),
    (insert, 4),
    (inch, 3),
    (part_with_a_rating, 2),
    (strange, 2),
)
"""Each kind of line with how often it comes, out of 100."""


def _dressed(random: Random, text: str) -> str:
    """Return the line with a quantity, a note or another case around it, as orders have them."""
    quantity = random.randrange(1, 400)
    text = random.choice(
        (
            text,
            f"{quantity} pcs {text}",
            f"{quantity}x {text}",
            f"{text}, qty {quantity}",
            f"{text} (pack of {quantity})",
            f"{text} - {quantity} off",
        )
    )
    return random.choice((str, str, str, str.upper, str.lower))(text)


def checks(count: int, seed: int = 1) -> Iterator[Check]:
    """Return that many checks with distinct lines."""
    random = Random(seed)  # noqa: S311 - variety, not secrecy
    seen: set[str] = set()
    kinds, weights = [kind for kind, _ in KINDS], [weight for _, weight in KINDS]
    while len(seen) < count:
        text, mate = random.choices(kinds, weights)[0](random)
        line = _dressed(random, text)
        if line not in seen:
            seen.add(line)
            yield {"line": line, **mate}
