"""Reads a line that differs only in a length from one read before, without reading it from scratch.

Order lists repeat themselves: ``M4x16``, ``M4x20``, ``M4x25`` of one screw. A stencil is an answer with a hole where
the length stood. It is used only where that is safe: every family in the answer treats lengths by comparison alone
(``Family.uniform_length``), and two lengths were read from scratch and gave exactly what the stencil gives - so that
every number between them does too. Where lengths go on coming from beyond, both ends of all that can come are tried.
Numbers too small to be sure of are proved one by one.
What does not belong here: any rule of reading. ``tests/reading/test_stencil.py`` compares it with reading from scratch.
"""

import re
from collections import OrderedDict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from reference.families import by_name
from reference.families.facts import Draft
from reference.quantities import Dimension, Limits
from reference.words import GRADES
from service.reading.assemble import length_note, limits_of, order_text
from service.reading.model import Because, LineReading, Note, Reading
from service.reading.questions import ask

if TYPE_CHECKING:
    from service.reading.reader import Meaning

_CROSSED = re.compile(r"(?:(?<=[\d m])[xX*]|[xX*] )(\d{1,4})(?=$|[ ,;)]|mm\b)")
_CALLED_LONG = re.compile(r"(?<= )(\d{1,4})(?= ?(?:mm )?(?:long|lg|lang)\b)")
_BEFORE = re.compile(r"(\d+)(?:[.,]\d+)?\D{0,4}$")
_UNIT_LETTERS = " mlong"
_HOLE = "\ue001"
_LEAST, _MOST = 7, 1999
"""No pitch of a thread is as large as the least length; no length of a small part is as large as the most [mm]."""

_STEP = 26
"""How much higher the range begins where its least length is read otherwise."""

_MAX_STENCILS = 4096
_TRIES = 2
"""How often a length from beyond widens the range before both ends of all that can come are tried."""

_NO_LENGTHS = frozenset(grade for grade in GRADES if grade.isdigit())
"""Whole numbers that can be something else than a length between others that cannot: ``304 long`` names a steel."""


@dataclass(frozen=True, slots=True)
class _Part:
    """The reading of a stencil, cut where the length stands: in its dimensions, its evidence, its order text.

    ``quotes`` is the evidence that quotes the length, its text without the number, with what stands before and behind;
    ``listed`` and ``lengths`` are what the table lists; ``notes`` are those that do not depend on the length.
    """

    reading: Reading
    dimensions: dict[str, Dimension]
    quotes: tuple[tuple[Because, ...], Because, tuple[Because, ...]] | None
    order: tuple[str, ...]
    listed: tuple[str, str, tuple[Decimal, ...], str] | None
    lengths: frozenset[Decimal]
    notes: tuple[Note, ...]

    def fill(self, number: str) -> Reading:
        """Return the reading with this length."""
        reading, quotes, notes = self.reading, self.quotes, self.notes
        limits = _limits(number)
        dimensions = self.dimensions.copy()
        dimensions["length"] = limits
        if quotes is None:
            because = reading.because
        else:
            before, (rest, says, source), after = quotes
            because = (*before, Because(number + rest, says, source), *after)
        if self.listed is not None and limits.nominal not in self.lengths:
            note = length_note(self.listed, limits.nominal)
            notes = notes if note is None else (*notes, Note(*note))
        return Reading(
            reading.family,
            reading.standards,
            reading.size_names,
            reading.evidence,
            MappingProxyType(dimensions),
            reading.missing,
            because,
            number.join(self.order),
            reading.attributes,
            notes,
        )


@lru_cache(maxsize=2 * _MOST)
def _limits(number: str) -> Limits:
    return limits_of(Decimal(number))


@dataclass(slots=True)
class _Stencil:
    """An answer with a hole, its readings as ``parts``.

    ``low`` to ``high`` is the range that is proved, ``proved`` are lengths besides; below ``floor`` a number can be
    something else. ``widened`` counts how often the range grew, ``closed`` says that its ends were tried.
    """

    answer: LineReading
    parts: tuple[_Part, ...]
    doubts: tuple[str, ...]
    asks: tuple[str, ...]
    floor: int
    low: int
    high: int
    proved: frozenset[int] = frozenset()
    widened: int = 0
    closed: bool = False

    def holds(self, length: int) -> bool:
        """Tell whether a line of this length is read like the others."""
        return self.low <= length <= self.high or length in self.proved

    def fill(self, text: str, length: str) -> LineReading:
        """Return the answer for the text that has this length in its hole."""
        _, state, _, question, _, _, quantity, pack = self.answer
        if len(self.parts) == 1:
            readings: tuple[Reading, ...] = (self.parts[0].fill(length),)
        else:
            readings = tuple([part.fill(length) for part in self.parts])
            question = ask(readings, self.doubts, self.asks)
        return LineReading(text, state, readings, question, None, (), quantity, pack)


_stencils: OrderedDict[str, _Stencil | None] = OrderedDict()
"""Text around the hole -> its stencil, None where none can be made."""


class Cut(NamedTuple):
    """A text with a hole: the text around it, the length that stood there, the text before it."""

    key: str
    length: str
    before: str


def cut_out(text: str) -> Cut | None:
    """Return the text with a hole for its length, or None where it has none."""
    start = end = -1
    for match in _CROSSED.finditer(text):
        start, end = match.span(1)  # the last one counts
    if "lg" in text or "lang" in text or "long" in text:
        for match in _CALLED_LONG.finditer(text, max(end, 0)):
            start, end = match.span(1)
    if start < 0 or text[start] == "0" or text[start:end] in _NO_LENGTHS:
        return None
    before = text[:start]
    return Cut(f"{before}{_HOLE}{text[end:]}", text[start:end], before)


def apply(text: str, cut: Cut) -> LineReading | None:
    """Return the answer for the text if a stencil fits it, else None."""
    held = _stencils.get(cut.key)
    return held.fill(text, cut.length) if held is not None and held.holds(int(cut.length)) else None


def refused(cut: Cut) -> bool:
    """Tell whether no stencil can be made of texts with this hole."""
    return cut.key in _stencils and _stencils[cut.key] is None


def learn(text: str, cut: Cut, meaning: "Callable[[str], Meaning]") -> LineReading:
    """Read a text from scratch that no stencil fits, and have one that fits its like."""
    held = _stencils.get(cut.key)
    length = int(cut.length)
    if held is not None and held.widened == _TRIES and not held.closed:
        _try_ends(held, cut, meaning)
        if held.holds(length):
            return held.fill(text, cut.length)
    read = meaning(text)
    if held is None:
        floor = _floor(cut)
        made = _make(read, cut, floor)
        # Where it does not even give the answer it was made from, its hole is no length here: wait for another line.
        if made is None or (floor <= length <= _MOST and made.fill(text, cut.length) == read.answer):
            _keep(cut.key, made)
    elif length > _MOST:
        pass
    elif held.fill(text, cut.length) == read.answer:
        if length < held.floor:
            held.proved |= {length}
        else:
            held.low, held.high = min(held.low, length), max(held.high, length)
            held.widened += 1
    elif length < held.low:
        held.floor = max(held.floor, length + 1)
    else:
        held.closed = True
    return read.answer


def _keep(key: str, value: _Stencil | None) -> None:
    _stencils[key] = value
    if len(_stencils) > _MAX_STENCILS:
        _stencils.popitem(last=False)


def _floor(cut: Cut) -> int:
    """Return the least length that can be nothing but a length: longer than a pitch, and than what stands before."""
    previous = _BEFORE.search(cut.before)
    return _LEAST if previous is None else max(_LEAST, int(previous[1]) + 1)


def _make(read: "Meaning", cut: Cut, floor: int) -> _Stencil | None:
    """Return the stencil of a line, proved for its own length, or None where none can be made."""
    if read.answer.state == "unread":
        return None
    parts: list[_Part] = []
    for reading, draft in zip(read.answer.readings, read.drafts, strict=True):
        part = _part(reading, draft, cut.length, read.inches)
        if part is None:
            return None
        parts.append(part)
    length = int(cut.length)
    frame = read.answer._replace(readings=())  # the parts hold them
    return _Stencil(frame, tuple(parts), read.doubts, read.asks, floor, length, length)


def _try_ends(held: _Stencil, cut: Cut, meaning: "Callable[[str], Meaning]") -> None:
    """Widen the range to all that can come, if both ends of that are read like it; begin higher if need be."""
    held.closed = True
    for first in (held.floor, held.floor + _STEP):
        if all(_read_alike(held, cut, length, meaning) for length in (first, _MOST)):
            held.low, held.high = min(first, held.low) if first <= held.high else first, _MOST
            return


def _read_alike(held: _Stencil, cut: Cut, length: int, meaning: "Callable[[str], Meaning]") -> bool:
    text = cut.key.replace(_HOLE, str(length))
    return meaning(text).answer == held.fill(text, str(length))


def _part(reading: Reading, draft: Draft, length: str, inches: bool) -> _Part | None:
    if not by_name()[reading.family].uniform_length:
        return None
    places = [k for k, item in enumerate(reading.because) if item.text.rstrip(_UNIT_LETTERS) == length]
    if len(places) > 1:
        return None
    attributes = {"standard": draft.standards[0], **reading.attributes} if draft.standards else reading.attributes
    dimensions = dict(reading.dimensions)
    reading = reading._replace(
        because=tuple(map(_one, reading.because)),
        dimensions=MappingProxyType(dimensions),
        attributes=_attributes(tuple(reading.attributes.items())),
    )
    around = {key: value for key, value in dimensions.items() if key != "length"}
    quotes = None
    if places:
        old = reading.because[places[0]]
        bare = old._replace(text=old.text.lstrip("0123456789"))
        quotes = (reading.because[: places[0]], bare, reading.because[places[0] + 1 :])
    return _Part(
        reading,
        dimensions,
        quotes,
        tuple(order_text(draft.order_text or "", around, attributes, inches).split("<length>")),
        draft.listed,
        _set_of(draft.listed[2]) if draft.listed is not None else frozenset(),
        tuple(note for note in reading.notes if note.code != "length-not-listed"),
    )


@lru_cache(maxsize=1024)
def _set_of(lengths: tuple[Decimal, ...]) -> frozenset[Decimal]:
    return frozenset(lengths)


# Stencils have most of their evidence and attributes in common: equal ones are one object.


@lru_cache(maxsize=4096)
def _one(because: Because) -> Because:
    return because


@lru_cache(maxsize=1024)
def _attributes(items: tuple[tuple[str, str], ...]) -> Mapping[str, str]:
    return MappingProxyType(dict(items))


def clear() -> None:
    """Forget every stencil, for tests and measurements."""
    _stencils.clear()
