"""Scores the reader on labelled lines: per family, lines read all right, ambiguity seen, confident wrong, over-asking.

Run as ``python bench/accuracy.py [FILE]``; the default is the development set in ``tests/data``. A label is a truth by
standard or common practice. A line counts as all right when its family, what its size names and every stated dimension
are right; an ambiguous line when it is answered ``ambiguous``. ``wrong`` lines are clear readings that are false.
"""

import csv
import sys
from collections import Counter
from decimal import Decimal, InvalidOperation
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from reference.quantities import Limits, Rating, ThreadSize
from service.reading import LineReading, Reading, read

DEVELOPMENT_SET = Path(__file__).resolve().parent.parent / "tests" / "data" / "labelled_lines.csv"

FAMILIES = {
    "hex head screw": {"hex head screw (threaded to the head)", "hex head bolt"},
    "lock nut": {"lock nut (prevailing torque)"},
    "taper pin": {"taper pin", "taper pin with internal thread", "taper pin with external thread"},
    "plain washer": {"plain washer", "large washer"},
}
"""Label of a family -> the names that it may have here; others stand for themselves."""

SIZE_NAMES = {
    "bore it fits": {"hole size", "bore it fits"},
    "width x height": {"width x height", "width"},
    "body size": {"body size", "outer diameter", "rating"},
}

KEYS = {
    "thread": ("thread", "internal_thread", "screw_size"),
    "fits_thread": ("screw_size",),
    "shaft_diameter": ("shaft_size",),
    "housing_bore": ("hole_diameter",),
    "tube_outer_diameter": ("tube_diameter",),
    "length": ("length", "pitch_length", "free_length"),
    "nominal_size": (),
    "height": ("height", "thickness", "length"),
    "thickness": ("thickness", "height"),
    "body_length": ("length",),
}
NOT_SCORED = frozenset(
    "material finish series seal profile hand grade stud_length nominal_size rail_width clearance form speed".split()
)
RATINGS = {
    "voltage_v": "voltage",
    "current_a": "current",
    "power_w": "power",
    "capacity_gb": "capacity",
    "resistance_ohm": "resistance",
    "capacity_mah": "charge",
}


def _same(label: str, value: object) -> bool:
    if isinstance(value, ThreadSize):
        plain = value.designation.replace(" ", "").lower()
        return label.replace(" ", "").lower() in {plain, plain.split("x")[0]}
    if isinstance(value, Limits):
        try:
            return abs(value.nominal - Decimal(label)) < Decimal("0.006")
        except InvalidOperation:
            return False
    if isinstance(value, Rating):
        return value.value == Decimal(label)
    return str(value).lower().replace(" ", "") == label.lower().replace(" ", "")


def _has(reading: Reading, answer: LineReading, key: str, label: str) -> bool:
    if key == "quantity":
        return answer.quantity == int(label)
    if key in RATINGS:
        rating = reading.dimensions.get("rating")
        held = rating.get(RATINGS[key]) if isinstance(rating, dict) else None
        return held is not None and _same(label, held)
    for name in KEYS.get(key, (key,)):
        if name in reading.dimensions and _same(label, reading.dimensions[name]):
            return True
    if key == "pitch":
        return any(isinstance(d, ThreadSize) and d.pitch == Decimal(label) for d in reading.dimensions.values())
    if key in reading.attributes:
        try:
            return Decimal(reading.attributes[key]) == Decimal(label)
        except InvalidOperation:
            return reading.attributes[key].lower() == label.lower()
    return False


def judge(row: dict[str, str], answer: LineReading) -> tuple[str, str]:
    """Return how a line was answered - ``right``, ``asked`` (right to ask), ``over-asked``, ``unread``, ``wrong``,
    ``not asked`` (a clear reading where the line is open) - and what was off."""
    if row["ambiguous"] == "yes":
        if answer.state == "ambiguous":
            return "asked", ""
        return ("unread", "") if answer.state == "unread" else ("not asked", "answered clear")
    if answer.state == "unread":
        return "unread", answer.reason or ""
    reading = answer.readings[0]
    off: list[str] = []
    if reading.family not in FAMILIES.get(row["family"], {row["family"]}):
        off.append(f"family {reading.family}")
    if reading.size_names not in SIZE_NAMES.get(row["size_names"], {row["size_names"]}):
        off.append(f"size_names {reading.size_names} for {row['size_names']}")
    for part in filter(None, row["dims_stated"].split(";")):
        key, _, label = part.partition("=")
        if key not in NOT_SCORED and not _has(reading, answer, key, label):
            off.append(f"{key} {label}")
    if answer.state == "ambiguous":
        return "over-asked", f"{answer.question} {'; '.join(off)}"
    return ("wrong", "; ".join(off)) if off else ("right", "")


def main(path: Path, verbose: bool) -> None:
    """Print the score of every family and the lines that were not right."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    by_family: dict[str, Counter[str]] = {}
    implied = Counter[str]()
    misses: list[str] = []
    for row in rows:
        answer = read(row["line"])
        result, off = judge(row, answer)
        by_family.setdefault(row["family"], Counter())[result] += 1
        if result == "right":
            for part in filter(None, row["dims_implied"].split(";")):
                key, _, label = part.partition("=")
                if key not in NOT_SCORED:
                    implied["right" if _has(answer.readings[0], answer, key, label) else "absent or other"] += 1
        if result not in {"right", "asked"}:
            misses.append(f"{row['id']} {result:10} {row['line']!r} [{row['family']}] {off}")
    columns = ("right", "asked", "over-asked", "not asked", "unread", "wrong")
    print(f"{'family':36}" + "".join(f"{name:>12}" for name in columns))
    for family in sorted(by_family):
        print(f"{family:36}" + "".join(f"{by_family[family][name] or '':>12}" for name in columns))
    total = sum(by_family.values(), Counter())
    print(f"{'all':36}" + "".join(f"{total[name]:>12}" for name in columns))
    good = total["right"] + total["asked"]
    print(f"all right: {good} of {len(rows)} = {100 * good / len(rows):.1f} %   confident wrong: {total['wrong']}")
    print(f"implied dimensions of the lines read right: {dict(implied)}")
    if verbose:
        print("\n".join(misses))


if __name__ == "__main__":
    files = [Path(arg) for arg in sys.argv[1:] if not arg.startswith("-")]
    main(files[0] if files else DEVELOPMENT_SET, "-v" in sys.argv)
