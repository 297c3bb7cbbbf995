"""Materials by grade or bare word, and property classes of screws: strength, stiffness and expansion with sources.

A bare word ("aluminium", "Stahl", "ottone") stands for one named ordinary grade, which the result states. What does not
belong here: what a load does to a part (``service.strength``), friction and heads (``reference.workshop``).

>>> material("Alu").assumed
'aluminium: taken as 6061-T6'
>>> property_class("8.8", 5).yield_strength
640.0
"""

import re
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache, lru_cache

from reference import tables
from reference.words import fold

_PUNCTUATION = re.compile(r"[^0-9a-z]+")
_SERIES = re.compile(r"^(enaw|aw|aisi)(?=\d)")


class UnknownMaterial(ValueError):  # noqa: N818 - it is the material that is unknown
    """No material of that name or grade is held; the message lists what is."""


class UnknownPropertyClass(ValueError):  # noqa: N818 - it is the class that is unknown
    """No property class of that name is held, or not for that diameter; the message lists what is."""


@dataclass(frozen=True, slots=True)
class Material:
    """A material: moduli and strengths in MPa, expansion in 1/K.

    ``yield_strength`` is ReL, Rp0.2 or the yield stress of a plastic (0.1 % proof stress of grey iron);
    ``surface_pressure`` the limiting pressure under a screw head; ``shear_strength`` follows from the tensile strength
    by the ratio of its kind; ``minimum`` tells whether the strengths are lower limits or typical values; ``assumed``
    says what a bare word was taken for, and is empty where a grade was named.
    """

    name: str
    grade: str
    kind: str
    youngs_modulus: float
    poisson_ratio: float
    yield_strength: float
    tensile_strength: float
    shear_strength: float
    surface_pressure: float
    expansion: float
    expansion_band: tuple[float, float]
    minimum: bool
    assumed: str
    source: str
    basis: str


@dataclass(frozen=True, slots=True)
class PropertyClass:
    """Minimum strengths of a screw of a property class, MPa; ``stainless`` for the classes of ISO 3506-1."""

    name: str
    tensile_strength: float
    yield_strength: float
    proof_stress: float
    stainless: bool
    source: str
    basis: str


@dataclass(frozen=True, slots=True)
class _Kind:
    name: str
    ordinary_grade: str
    shear_ratio: float


def _key(text: str) -> str:
    """Fold case, accents, blanks and the name of the series, so that "EN AW-6061 T6" and "6061-t6" meet."""
    return _SERIES.sub("", _PUNCTUATION.sub("", fold(text)))


@cache
def _kinds() -> tuple[dict[str, _Kind], dict[str, str]]:
    kinds: dict[str, _Kind] = {}
    words: dict[str, str] = {}
    for row in tables.load("material_kinds"):
        kind = _Kind(row.text("kind"), row.text("ordinary_grade"), float(row.decimal("shear_ratio")))
        kinds[kind.name] = kind
        words |= {_key(word): kind.name for word in row.text("words").split("|")}
    return kinds, words


@cache
def _bands() -> dict[str, tuple[float, float]]:
    bands: dict[str, tuple[float, float]] = {}
    for row in tables.load("thermal_expansion"):
        lower, upper = float(row.decimal("lower").scaleb(-6)), float(row.decimal("upper").scaleb(-6))
        old = bands.get(row.text("grade"), (lower, upper))
        bands[row.text("grade")] = min(old[0], lower), max(old[1], upper)
    return bands


@cache
def _grades() -> tuple[dict[str, Material], dict[str, str]]:
    kinds, _ = _kinds()
    grades: dict[str, Material] = {}
    aliases: dict[str, str] = {}
    for row in tables.load("materials"):
        grade, kind = row.text("grade"), kinds[row.text("kind")]
        tensile, expansion = float(row.decimal("tensile_strength")), float(row.decimal("expansion").scaleb(-6))
        grades[grade] = Material(
            name=grade,
            grade=grade,
            kind=kind.name,
            youngs_modulus=float(row.decimal("youngs_modulus")),
            poisson_ratio=float(row.decimal("poisson_ratio")),
            yield_strength=float(row.decimal("yield_strength")),
            tensile_strength=tensile,
            shear_strength=kind.shear_ratio * tensile,
            surface_pressure=float(row.decimal("surface_pressure")),
            expansion=expansion,
            expansion_band=_bands().get(grade, (expansion, expansion)),
            minimum=row.text("strengths") == "minimum",
            assumed="",
            source=row.source,
            basis=row.basis,
        )
        aliases |= {_key(alias): grade for alias in (grade, *row.text("aliases").split("|"))}
    return grades, aliases


def material_grades() -> tuple[str, ...]:
    """Return the grades that are held, in the order of the table."""
    return tuple(_grades()[0])


def material_kinds() -> tuple[str, ...]:
    """Return the kinds of material; each is also a word that :func:`material` understands."""
    return tuple(_kinds()[0])


@cache
def material(name: str) -> Material:
    """Return a material by its grade ("6061-T6", "S235", "CuZn39Pb3") or by a bare word in five languages.

    Raises:
        UnknownMaterial: neither a grade nor a word for a kind of material.
    """
    grades, aliases = _grades()
    kinds, words = _kinds()
    key = _key(name)
    if key in aliases:
        found = grades[aliases[key]]
        named = key == _key(found.grade) or any(char.isdigit() for char in key)
        return found if named else replace(found, assumed=f"{name.strip()}: taken as {found.grade}")
    if key in words:
        kind = kinds[words[key]]
        found = grades[kind.ordinary_grade]
        return replace(found, name=kind.name, assumed=f"{kind.name}: taken as {found.grade}")
    raise UnknownMaterial(
        f"material {name!r} is not known; accepted are a word such as {', '.join(kinds)} "
        f"or a grade such as 6061-T6, S235, C45, 304, CuZn39Pb3, GG-25, POM"
    )


@cache
def _classes() -> dict[str, tuple[tuple[Decimal, Decimal, PropertyClass], ...]]:
    classes: dict[str, tuple[tuple[Decimal, Decimal, PropertyClass], ...]] = {}
    for row in tables.load("property_classes"):
        name = row.text("property_class")
        strengths = PropertyClass(
            name=name,
            tensile_strength=float(row.decimal("tensile_strength")),
            yield_strength=float(row.decimal("yield_strength")),
            proof_stress=float(row.decimal("proof_stress")),
            stainless=name.startswith("A"),
            source=row.source,
            basis=row.basis,
        )
        over = row.number_or_none("over_diameter") or Decimal(0)
        classes[name] = (*classes.get(name, ()), (over, row.decimal("up_to_diameter"), strengths))
    return classes


def property_classes() -> tuple[str, ...]:
    """Return the names of the property classes that are held."""
    return tuple(_classes())


@lru_cache(maxsize=1024)
def property_class(name: str, diameter: Decimal | float) -> PropertyClass:
    """Return the minimum strengths of a property class ("8.8", "A2-70") at a thread diameter [mm].

    A leading zero, the mark of a head of reduced loadability ("08.8", "010.9"), is read as the class behind it.

    Raises:
        UnknownPropertyClass: no such class, or the standard has none of it at this diameter.
    """
    key = name.strip().upper().replace(" ", "").removeprefix("0")
    if re.fullmatch(r"A[1-5][578]0", key):
        key = f"{key[:2]}-{key[2:]}"
    found = _classes().get(key)
    if found is None:
        raise UnknownPropertyClass(
            f"property_class {name!r} is not known; accepted are {', '.join(_classes())}, for example 8.8"
        )
    for over, up_to, strengths in found:
        if over < Decimal(str(diameter)) <= up_to:
            return strengths
    raise UnknownPropertyClass(f"property_class {key} is guaranteed up to M{found[-1][1]}, not for {diameter} mm")
