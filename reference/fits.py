"""ISO 286: tolerance grades, limits of size of every tolerance class up to 500 mm, and what a fit allows.

The tables are stored (``it_grades``, ``shaft_deviations``, ``hole_deviations_special``); holes follow from shafts by
the rules of ISO 286-1, which :func:`limits` applies. Reading a fit out of a line of text does not belong here
(``service.reading``), nor judging a pair of parts (``service.verdict``).

>>> limits(Decimal(25), "H8").upper, limits(Decimal(25), "f7").lower
(Decimal('25.033'), Decimal('24.959'))
>>> window("location", Decimal(5)).text
'H7/k6 to H7/n6 at 5 mm'
"""

import re
from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache, lru_cache
from typing import Literal

from reference import tables
from reference.quantities import Limits
from reference.units import tidy

Kind = Literal["hole", "shaft"]
FitKind = Literal["clearance", "transition", "interference"]

GRADES = ("01", "0", *(str(number) for number in range(1, 19)))
"""The standard tolerance grades, finest first."""

LARGEST = Decimal(500)
"""The largest nominal size held here [mm]; ISO 286-1 goes on to 3150 mm with fewer classes."""

_ABOVE_ZERO_LINE = ("k", "m", "n", "p", "r", "s", "t", "u", "v", "x", "y", "z", "za", "zb", "zc")
_BELOW_ZERO_LINE = ("a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h")
LETTERS = (*_BELOW_ZERO_LINE, "js", "j", *_ABOVE_ZERO_LINE)
"""The fundamental deviations of shafts, loosest first; holes carry the same ones in capitals."""

_CLASS = re.compile(r"([A-Z]{1,2}|[a-z]{1,2}|Js)\s?(01|\d{1,2})")
_MICROMETRE = Decimal("0.001")
_ZERO = Decimal(0)


class UndefinedClass(ValueError):  # noqa: N818 - it is the class that is undefined
    """ISO 286 defines no such tolerance class, or not at this size; the message says what is defined."""


@dataclass(frozen=True, slots=True)
class ToleranceClass:
    """A tolerance class such as H7: the letters of its fundamental deviation and its grade."""

    letter: str
    grade: str
    kind: Kind

    @property
    def number(self) -> int:
        """The grade as a number that grows as the grade coarsens: 7 for 7, 0 for 0, -1 for 01."""
        return GRADES.index(self.grade) - 1

    def __str__(self) -> str:
        return self.letter + self.grade


@dataclass(frozen=True, slots=True)
class FitWindow:
    """The clearance that a fit allows: bore minus shaft [mm], negative for interference.

    ``loosest_upper`` is the clearance up to which the fit is still marginal, None where there is no such allowance.
    """

    lower: Decimal
    upper: Decimal
    loosest_upper: Decimal | None
    text: str


@dataclass(frozen=True, slots=True)
class Word:
    """A fit named by a word: the tightest and the loosest class pair that it spans, and the loosest marginal one."""

    tightest: str
    loosest: str
    marginal: str | None = None


WORDS: Mapping[str, Word] = {
    "slip": Word(tightest="H7/h6", loosest="H7/g6", marginal="H9/d9"),
    "location": Word(tightest="H7/n6", loosest="H7/k6"),
    "press": Word(tightest="H7/s6", loosest="H7/p6"),
}
"""What the words slip, location and press span, in preferred fits of ISO 286-1; the choice is common practice."""


@lru_cache(maxsize=4096)
def parse_class(text: str) -> ToleranceClass:
    """Return the tolerance class that the text names: capitals for a hole, small letters for a shaft.

    Raises:
        UndefinedClass: the text is no tolerance class of ISO 286.

    >>> parse_class("js6")
    ToleranceClass(letter='js', grade='6', kind='shaft')
    """
    match = _CLASS.fullmatch(text.strip())
    if match:
        letter = "JS" if match[1] == "Js" else match[1]
        if letter.lower() in LETTERS and match[2] in GRADES:
            return ToleranceClass(letter, match[2], "hole" if letter.isupper() else "shaft")
    raise UndefinedClass(
        f"{text!r} is no tolerance class of ISO 286: a class is a letter, capital for a hole and small for a shaft "
        "(A to H, JS, J, K, M, N, P to V, X to Z, and CD, EF, FG, ZA, ZB, ZC), and a grade 01, 0 or 1 to 18, "
        "for example H7 or m6"
    )


def is_hole_class(text: str) -> bool:
    """Return whether the tolerance class is one of holes.

    >>> is_hole_class("H7"), is_hole_class("m6")
    (True, False)
    """
    return parse_class(text).kind == "hole"


class _Ranges:
    """One table by ranges of nominal size, each over its lower bound up to and including its upper bound."""

    def __init__(self, name: str) -> None:
        rows = tables.load(name).rows
        self._upper_bounds = [row.decimal("up_to") for row in rows]
        columns = [column for column in rows[0].cells if column not in ("over", "up_to", "source", "basis")]
        self._deviations = [
            {column: None if (um := row.number_or_none(column)) is None else um * _MICROMETRE for column in columns}
            for row in rows
        ]
        self._sources = [row.source for row in rows]

    def at(self, size: Decimal) -> Mapping[str, Decimal | None]:
        """Return the figures of the range that holds the size [mm]."""
        return self._deviations[bisect_left(self._upper_bounds, size)]

    def source(self, size: Decimal) -> str:
        """Return the source of the range that holds the size."""
        return self._sources[bisect_left(self._upper_bounds, size)]

    def spans(self, column: str) -> str:
        """Say at which sizes the column is filled."""
        filled = [index for index, row in enumerate(self._deviations) if row[column] is not None]
        over = self._upper_bounds[filled[0] - 1] if filled[0] else _ZERO
        return f"over {over} mm up to {self._upper_bounds[filled[-1]]} mm"


@cache
def _grades() -> _Ranges:
    return _Ranges("it_grades")


@cache
def _shafts() -> _Ranges:
    return _Ranges("shaft_deviations")


@cache
def _special_holes() -> _Ranges:
    return _Ranges("hole_deviations_special")


def _check_size(size: Decimal) -> None:
    if not size.is_finite() or not _ZERO < size <= LARGEST:
        raise UndefinedClass(f"no limits are held at {size} mm: ISO 286 is held here over 0 up to {LARGEST} mm")


def _tolerance(grade: str, size: Decimal) -> Decimal:
    if size <= 1 and grade in ("14", "15", "16", "17", "18"):
        raise UndefinedClass(f"ISO 286-1 does not define IT{grade} at {size} mm: grades above IT13 start over 1 mm")
    value = _grades().at(size)[f"IT{grade}"]
    assert value is not None  # noqa: S101 - the table has no gap, a test sees to it
    return value


def tolerance(grade: str, size: Decimal) -> Decimal:
    """Return the standard tolerance of a grade at a nominal size [mm].

    Args:
        grade: ``01``, ``0``, ``1`` to ``18``, with or without ``IT`` before it.
        size: nominal size over 0 up to 500 mm.

    Raises:
        UndefinedClass: there is no such grade, or not at this size.

    Source: ISO 286-1 Table 1.

    >>> tolerance("IT7", Decimal(25))
    Decimal('0.021')
    """
    number = grade.strip().upper().removeprefix("IT")
    if number not in GRADES:
        raise UndefinedClass(f"{grade!r} is no tolerance grade of ISO 286: expected IT01, IT0 or IT1 to IT18")
    _check_size(size)
    return tidy(_tolerance(number, size))


def _undefined(tolerance_class: ToleranceClass, size: Decimal, defined: str) -> UndefinedClass:
    return UndefinedClass(f"ISO 286 does not define {tolerance_class} at {size} mm: {defined}")


def _tabulated(wanted: ToleranceClass, size: Decimal) -> Decimal:
    """Return the tabulated deviation of the class's letter for shafts [mm], or refuse the class by name."""
    letter = wanted.letter.lower()
    if letter in ("a", "b") and size <= 1:
        raise _undefined(wanted, size, f"{wanted.letter} starts over 1 mm")
    value = _shafts().at(size)[letter]
    if value is None:
        raise _undefined(wanted, size, f"{wanted.letter} is defined {_shafts().spans(letter)}")
    return value


def _j(wanted: ToleranceClass, size: Decimal, width: Decimal) -> tuple[Decimal, Decimal]:
    """Return the deviations of j and J, which have no rule: each class stands in the table."""
    ranges, grades = (
        (_shafts(), ("5", "6", "7", "8")) if wanted.kind == "shaft" else (_special_holes(), ("6", "7", "8"))
    )
    if wanted.grade not in grades:
        defined = f"{wanted.letter}{grades[0]} to {wanted.letter}{grades[-1]}"
        raise _undefined(wanted, size, f"{wanted.letter} is defined as {defined}")
    value = ranges.at(size)[str(wanted)]
    if value is None:
        raise _undefined(wanted, size, f"{wanted} is defined {ranges.spans(str(wanted))}")
    return (value, value + width) if wanted.kind == "shaft" else (value - width, value)


def _shaft(wanted: ToleranceClass, size: Decimal, width: Decimal) -> tuple[Decimal, Decimal]:
    letter = wanted.letter
    if letter in _BELOW_ZERO_LINE:
        upper = _ZERO if letter == "h" else _tabulated(wanted, size)
        return upper - width, upper
    if letter == "k" and not 4 <= wanted.number <= 7:
        return _ZERO, width
    lower = _tabulated(wanted, size)
    return lower, lower + width


def _hole(wanted: ToleranceClass, size: Decimal, width: Decimal) -> tuple[Decimal, Decimal]:
    letter = wanted.letter.lower()
    if letter in _BELOW_ZERO_LINE:
        lower = _ZERO if letter == "h" else -_tabulated(wanted, size)
        return lower, lower + width
    upper = _upper_deviation(wanted, size)
    return upper - width, upper


def _upper_deviation(wanted: ToleranceClass, size: Decimal) -> Decimal:
    """Return the upper deviation of the holes K to ZC [mm]: the shaft's mirrored, plus delta for the finer grades."""
    letter, grade = wanted.letter, wanted.number
    if letter == "N" and grade > 8:
        if size <= 1:
            raise _undefined(wanted, size, "N coarser than N8 starts over 1 mm")
        return Decimal("-0.004") if size <= 3 else _ZERO
    mirrored = -_tabulated(wanted, size)
    if size <= 3:
        return mirrored
    if letter == "K" and grade > 8:
        raise _undefined(wanted, size, "over 3 mm K is defined as K3 to K8")
    if str(wanted) == "M6" and (exception := _special_holes().at(size)["M6"]) is not None:
        return exception
    if grade > (8 if letter in ("K", "M", "N") else 7):
        return mirrored
    if grade < 3:
        raise _undefined(wanted, size, f"over 3 mm {letter} starts at {letter}3, since delta is given from IT3 on")
    return mirrored + _tolerance(wanted.grade, size) - _tolerance(str(grade - 1), size)


@lru_cache(maxsize=16384)
def limits(size: Decimal, tolerance_class: str) -> Limits:
    """Return the limits of size of a tolerance class at a nominal size, exact, in millimetres.

    Half a micrometre of JS and js is kept, where some charts drop it.

    Raises:
        UndefinedClass: the class is none, or ISO 286 does not define it at this size.

    Source: ISO 286-1 Tables 1 to 5 and the rules for holes there (delta for K, M, N to IT8 and P to ZC to IT7).

    >>> limits(Decimal(25), "P7")
    Limits(nominal=Decimal('25'), lower=Decimal('24.965'), upper=Decimal('24.986'), tolerance_class='P7')
    """
    wanted = parse_class(tolerance_class)
    _check_size(size)
    width = _tolerance(wanted.grade, size)
    letter = wanted.letter.lower()
    if letter == "js":
        lower, upper = -width / 2, width / 2
    elif letter == "j":
        lower, upper = _j(wanted, size, width)
    else:
        lower, upper = (_hole if wanted.kind == "hole" else _shaft)(wanted, size, width)
    return Limits(tidy(size), tidy(size + lower), tidy(size + upper), str(wanted))


@lru_cache(maxsize=4096)
def source(size: Decimal, tolerance_class: str) -> str:
    """Return where the limits of this class at this size come from, as replies show it.

    >>> source(Decimal(25), "H7")
    'ISO 286-1 Table 1 (via Narayana, Machine Drawing T15.1; GB/T 1800.3-1998)'
    """
    wanted = parse_class(tolerance_class)
    _check_size(size)
    letter = wanted.letter.lower()
    works = [_grades().source(size)]
    if wanted.letter == "J" or (str(wanted) == "M6" and _special_holes().at(size)["M6"] is not None):
        works.append(_special_holes().source(size))
    elif letter not in ("h", "js"):
        works.append(_shafts().source(size))
        if wanted.kind == "hole":
            works.append("holes from shafts by the rules of ISO 286-1")
    return "; ".join(works)


def clearance(hole: Limits, shaft: Limits) -> tuple[Decimal, Decimal]:
    """Return the least and the greatest clearance of a pair, bore minus shaft [mm]; negative is interference.

    >>> clearance(limits(Decimal(25), "H8"), limits(Decimal(25), "f7"))
    (Decimal('0.02'), Decimal('0.074'))
    """
    return tidy(hole.low - shaft.high), tidy(hole.high - shaft.low)


def kind(lower: Decimal, upper: Decimal) -> FitKind:
    """Return the kind of fit between a least and a greatest clearance [mm], as ISO 286-1 names it.

    >>> kind(Decimal("-0.024"), Decimal(0))
    'interference'
    """
    if lower >= 0:
        return "clearance"
    return "interference" if upper <= 0 else "transition"


@lru_cache(maxsize=4096)
def parse_pair(text: str) -> tuple[ToleranceClass, ToleranceClass]:
    """Return the hole and the shaft class of a pair written as ``H7/m6``.

    Raises:
        UndefinedClass: the text is no pair of a hole and a shaft class.

    >>> [str(one) for one in parse_pair("H7/m6")]
    ['H7', 'm6']
    """
    parts = text.split("/")
    if len(parts) == 2:
        hole, shaft = parse_class(parts[0]), parse_class(parts[1])
        if hole.kind == "hole" and shaft.kind == "shaft":
            return hole, shaft
    raise UndefinedClass(f"{text!r} is no fit of ISO 286: expected a hole class and a shaft class, for example H7/m6")


def _pair_clearance(pair: str, size: Decimal) -> tuple[Decimal, Decimal]:
    hole, shaft = parse_pair(pair)
    return clearance(limits(size, str(hole)), limits(size, str(shaft)))


@lru_cache(maxsize=4096)
def window(fit: str, size: Decimal) -> FitWindow:
    """Return the clearance that a fit allows at a nominal size: a word of ``WORDS`` or a class pair.

    Raises:
        UndefinedClass: the fit is neither, or not defined at this size.

    Source: common practice for the words (preferred fits of ISO 286-1), ISO 286 for the figures.

    >>> window("location", Decimal(5))
    FitWindow(lower=Decimal('-0.016'), upper=Decimal('0.011'), loosest_upper=None, text='H7/k6 to H7/n6 at 5 mm')
    >>> window("slip", Decimal(5)).loosest_upper
    Decimal('0.09')
    """
    word = WORDS.get(fit.strip().lower())
    if word is None:
        if "/" not in fit:
            raise UndefinedClass(f"{fit!r} is no fit: expected {', '.join(WORDS)} or a class pair, for example H7/m6")
        hole, shaft = parse_pair(fit)
        return FitWindow(*_pair_clearance(fit, size), None, f"{hole}/{shaft} at {tidy(size)} mm")
    text = f"{word.loosest} to {word.tightest} at {tidy(size)} mm"
    lower, upper = _pair_clearance(word.tightest, size)[0], _pair_clearance(word.loosest, size)[1]
    if word.marginal is None:
        return FitWindow(lower, upper, None, text)
    return FitWindow(lower, upper, _pair_clearance(word.marginal, size)[1], f"{text}, marginal up to {word.marginal}")
