"""Figures of the workshop: friction, screw heads and keys, holes as really made, instruments; each with its source.

What does not belong here: materials and property classes (``reference.materials``), and what the figures do to a joint
(``service.strength``).

>>> head("socket head cap screw", 8).bearing_diameter
12.33
>>> screw_friction("B").lower, screw_friction(None).lower
(0.08, 0.1)
"""

from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from reference import tables
from reference.words import fold


class UnknownFigure(ValueError):  # noqa: N818 - it is the figure that is unknown
    """No such figure is held; the message names the field, the value and what is accepted."""


@dataclass(frozen=True, slots=True)
class Friction:
    """A band of friction coefficients and what the surfaces are like."""

    name: str
    lower: float
    upper: float
    condition: str
    source: str
    basis: str


@dataclass(frozen=True, slots=True)
class Head:
    """A screw head: bearing and hole diameters [mm], its drive, and the part of the thread's load that it carries.

    ``drive_size`` is the width across flats [mm], None for a recess that is no hexagon.
    """

    name: str
    standards: str
    bearing_diameter: float
    hole_diameter: float
    drive: str
    drive_size: float | None
    load_factor: float
    source: str
    basis: str


@dataclass(frozen=True, slots=True)
class Key:
    """A hexagon key: its arms [mm]."""

    size: float
    long_arm: float
    short_arm: float
    source: str
    basis: str


@dataclass(frozen=True, slots=True)
class ProcessSpread:
    """Where a process lands: middle of the sizes met minus nominal, and half their range [mm]."""

    process: str
    material: str
    mean_deviation: Decimal
    half_spread: Decimal
    distribution: str
    source: str
    basis: str


@dataclass(frozen=True, slots=True)
class Instrument:
    """A measuring instrument and the expanded uncertainty (k = 2) to reckon with [mm]."""

    name: str
    feature: str
    uncertainty: Decimal
    note: str
    source: str
    basis: str


HEAD_WORDS = {
    "socket": "socket",
    "socket head cap screw": "socket",
    "cylinder": "socket",
    "hex": "hex",
    "hex head screw": "hex",
    "hex head bolt": "hex",
    "hexagon": "hex",
    "low": "low",
    "low head cap screw": "low",
    "button": "button",
    "button head screw": "button",
    "countersunk": "countersunk",
    "countersunk screw": "countersunk",
    "flat": "countersunk",
    "pan": "pan",
    "pan head screw": "pan",
    "cheese": "cheese",
    "cheese head screw": "cheese",
}
"""Word or family name -> head of head_bearing.csv."""


@cache
def _friction() -> dict[tuple[str, str], Friction]:
    return {
        (row.text("use"), row.text("name")): Friction(
            row.text("name"),
            float(row.decimal("lower")),
            float(row.decimal("upper")),
            row.text("condition"),
            row.source,
            row.basis,
        )
        for row in tables.load("friction")
    }


def screw_friction(friction: float | str | None) -> Friction:
    """Return the band of friction of a screw: from a coefficient, a class A to E, or None where nothing is stated.

    A coefficient is taken as given, without a band.

    Raises:
        UnknownFigure: neither a class nor a coefficient from 0.03 to 0.6.
    """
    if friction is None:
        return _friction()["screw", "unknown"]
    if isinstance(friction, str) and ("screw", friction.strip().upper()) in _friction():
        return _friction()["screw", friction.strip().upper()]
    try:
        value = float(str(friction).strip().replace(",", "."))
    except ValueError:
        value = 0.0
    if not 0.03 <= value <= 0.6:
        raise UnknownFigure(
            f"friction {friction!r} is neither a coefficient from 0.03 to 0.6 nor a class A to E; for example 0.12 or B"
        )
    return Friction(str(value), value, value, "as stated", "stated", "computed")


def press_friction(hub_kind: str) -> Friction:
    """Return the band of friction of a part pressed into a hub of that kind of material.

    Raises:
        UnknownFigure: no band is held for the kind.
    """
    found = _friction().get(("press", hub_kind))
    if found is None:
        known = ", ".join(name for use, name in _friction() if use == "press")
        raise UnknownFigure(f"hub {hub_kind!r}: no friction for this kind of material; held are {known}")
    return found


@cache
def _lubrications() -> dict[str, tuple[str, str, str]]:
    return {
        fold(word): (row.text("lubrication"), row.text("plain_class"), row.text("stainless_class"))
        for row in tables.load("lubrication")
        for word in row.text("words").split("|")
    }


def lubrication_friction(lubrication: str, stainless: bool = False) -> Friction:
    """Return the band of friction of a screw treated so: ``dry``, ``oil``, ``grease``, ``paste``, ``wax``, ...

    Raises:
        UnknownFigure: no such word is held.

    >>> lubrication_friction("oiled").name, lubrication_friction("oiled", stainless=True).name
    ('B', 'D')
    """
    found = _lubrications().get(fold(" ".join(lubrication.replace("-", " ").split())))
    if found is None:
        known = ", ".join(dict.fromkeys(name for name, _, _ in _lubrications().values()))
        raise UnknownFigure(f"lubrication {lubrication!r} is not known; accepted are {known}, for example oil")
    return _friction()["screw", found[2] if stainless else found[1]]


@cache
def _heads() -> dict[tuple[str, Decimal], Head]:
    heads: dict[tuple[str, Decimal], Head] = {}
    for row in tables.load("head_bearing"):
        drive_size = row.number_or_none("drive_size")
        heads[row.text("head"), row.decimal("size")] = Head(
            row.text("head"),
            row.text("standards"),
            float(row.decimal("bearing_diameter")),
            float(row.decimal("hole_diameter")),
            row.text("drive"),
            None if drive_size is None else float(drive_size),
            float(row.decimal("load_factor")),
            row.source,
            row.basis,
        )
    return heads


def head(name: str, diameter: Decimal | float) -> Head:
    """Return a screw head by its word or family name, at a thread diameter [mm].

    Raises:
        UnknownFigure: no such head, or none at this diameter.
    """
    word = HEAD_WORDS.get(fold(name.strip()))
    if word is None:
        heads = ", ".join(dict.fromkeys(HEAD_WORDS.values()))
        raise UnknownFigure(f"head {name!r} is not known; accepted are {heads}, for example socket")
    found = _heads().get((word, Decimal(str(diameter))))
    if found is None:
        sizes = " ".join(f"M{size}" for kind, size in _heads() if kind == word)
        raise UnknownFigure(f"head {name!r} has no figures at {diameter} mm; held are {sizes}")
    return found


@cache
def _keys() -> dict[float, Key]:
    return {
        float(row.decimal("size")): Key(
            float(row.decimal("size")),
            float(row.decimal("long_arm")),
            float(row.decimal("short_arm")),
            row.source,
            row.basis,
        )
        for row in tables.load("hexagon_keys")
    }


def hexagon_key(across_flats: float) -> Key | None:
    """Return the hexagon key of a width across flats [mm], None where no such key is held."""
    return _keys().get(float(across_flats))


@cache
def _breaking_torques() -> dict[tuple[str, Decimal], tuple[float, str]]:
    return {
        (row.text("property_class"), row.decimal("diameter")): (float(row.decimal("torque")), row.source)
        for row in tables.load("breaking_torques")
    }


def stainless_breaking_torque(property_class: str, diameter: Decimal | float) -> tuple[float, str] | None:
    """Return the minimum breaking torque [N m] of a stainless class ("A2-70") with coarse thread, and its source."""
    return _breaking_torques().get((property_class.rpartition("-")[2], Decimal(str(diameter))))


def process_spread(process: str, nominal: Decimal, material: str | None = None) -> ProcessSpread:
    """Return where a process lands at a nominal size [mm].

    Raises:
        UnknownFigure: no such process, or none at this size.
    """
    rows = [row for row in tables.load("process_spreads") if row.text("process") == fold(process.strip())]
    if not rows:
        known = ", ".join(dict.fromkeys(row.text("process") for row in tables.load("process_spreads")))
        raise UnknownFigure(f"process {process!r} is not known; accepted are {known}")
    for row in rows:
        if row.decimal("over") < nominal <= row.decimal("up_to") and material in (None, row.text("material")):
            return ProcessSpread(
                row.text("process"),
                row.text("material"),
                row.decimal("mean_deviation"),
                row.decimal("half_spread"),
                row.text("distribution"),
                row.source,
                row.basis,
            )
    raise UnknownFigure(f"process {process!r}: no spread is held at {nominal} mm")


def instrument(name: str, feature: str = "outside") -> Instrument:
    """Return an instrument by its word in five languages; ``feature`` chooses among several entries of one.

    Raises:
        UnknownFigure: no such instrument.
    """
    word = fold(name.strip())
    rows = [
        row
        for row in tables.load("instruments")
        if word == row.text("instrument") or word in {fold(alias) for alias in row.text("aliases").split("|")}
    ]
    if not rows:
        known = ", ".join(dict.fromkeys(row.text("instrument") for row in tables.load("instruments")))
        raise UnknownFigure(f"instrument {name!r} is not known; accepted are {known}, for example calliper")
    row = next((row for row in rows if row.text("feature") == feature), rows[0])
    return Instrument(
        row.text("instrument"),
        row.text("feature"),
        row.decimal("uncertainty"),
        row.text("note"),
        row.source,
        row.basis,
    )
