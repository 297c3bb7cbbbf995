"""Reads a line that differs only in a length or a count from one read before, without reading it from scratch.

Order lists repeat themselves: ``M4x16``, ``M4x20``, ``M4x25`` of one screw. A stencil is an answer with a hole where the
length (or the number of pieces) stood. It is made only where that is safe: the answer is clear, every family in it treats
lengths by comparison alone (``Family.uniform_length``), and the smallest and the largest number that may fill the hole
were read from scratch and gave exactly what the stencil gives - so that every number between them does too.
What does not belong here: any rule of reading. ``tests/reading/test_stencil.py`` compares it with reading from scratch.
"""

import re
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING

from reference.families import by_name
from service.reading.assemble import length_note, limits_of, order_text
from service.reading.model import Because, LineReading, Note, Reading
from service.reading.questions import ask
from service.reading.text import normalise

if TYPE_CHECKING:
    from service.reading.reader import Meaning

_LENGTH = re.compile(r"(?<=[\d ][xX*])( ?)(\d{2,4})(?=$|[ ,;)]|mm\b)")
_COUNT = re.compile(r"(?<![\w.,/*#-])(\d{1,4})(?= ?(?:pcs|pieces|off|stk|pz|uds?|szt)\b)", re.IGNORECASE)
_BEFORE = re.compile(r"(\d+)(?:[.,]\d+)?\D{0,4}$")
_HOLE = "\ue001"
_LEAST, _MOST = 14, 1999
_MAX_STENCILS = 8192
_ONCE = object()


@dataclass(frozen=True, slots=True)
class _Part:
    """One reading of a stencil: the words of the length in its evidence, its designation rule, the lengths listed."""

    reading: Reading
    because: int | None
    template: str
    attributes: dict[str, str]
    listed: tuple[str, str, tuple[Decimal, ...], str] | None
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class _Stencil:
    answer: LineReading
    counts: bool
    least: int
    part: _Part | None
    asks: tuple[str, ...]
    inches: bool

    def fill(self, line: str, number: str) -> LineReading:
        """Return the answer for the line that has this number in the hole."""
        answer = self.answer
        if self.counts or self.part is None:
            readings, quantity = answer.readings, int(number)
        else:
            readings, quantity = (_fill(self.part, number, self.inches),), answer.quantity
        question = ask(line, readings, (), self.asks) if self.asks else None
        return LineReading(line, "clear", readings, question, None, (), quantity, answer.pack)


def _fill(part: _Part, number: str, inches: bool) -> Reading:
    reading = part.reading
    length = Decimal(number)
    dimensions = {**reading.dimensions, "length": limits_of(length)}
    because = reading.because
    if part.because is not None:
        old = because[part.because]
        because = (*because[: part.because], Because(number, old.says, old.source), *because[part.because + 1 :])
    notes = part.notes
    if part.listed is not None:
        note = length_note(part.listed, length)
        if note is not None:
            notes = (*notes, Note(*note))
    return Reading(
        reading.family,
        reading.standards,
        reading.size_names,
        reading.evidence,
        MappingProxyType(dimensions),
        reading.missing,
        because,
        order_text(part.template, dimensions, part.attributes, inches),
        reading.attributes,
        notes,
    )


_stencils: OrderedDict[str, _Stencil | object | None] = OrderedDict()


def _cut(line: str) -> tuple[str, str, bool, str] | None:
    """Return the line with a hole, the number that stood there, whether it counts pieces, and the text before it."""
    text = normalise(line)
    match = _COUNT.search(text)
    if match is not None:
        at, number, counts = match.start(1), match[1], True
    else:
        found = list(_LENGTH.finditer(text))
        if not found:
            return None
        match = found[-1]
        at, number, counts = match.start(2), match[2], False
    before = text[:at]
    return f"{before}{_HOLE}{text[at + len(number) :]}", number, counts, before


def apply(line: str) -> LineReading | None:
    """Return the answer for the line if a stencil fits it, else None."""
    cut = _cut(line)
    if cut is None:
        return None
    held = _stencils.get(cut[0])
    if not isinstance(held, _Stencil) or cut[1][0] == "0":
        return None
    return held.fill(line, cut[1]) if held.least <= int(cut[1]) <= _MOST else None


def learn(line: str, meaning: "Callable[[str], Meaning]") -> LineReading:
    """Read the line from scratch; when its like comes a second time, keep a stencil of it if that is safe."""
    read = meaning(line)
    cut = _cut(line)
    if cut is None:
        return read.answer
    key = cut[0]
    if key not in _stencils:
        _keep(key, _ONCE)
    elif _stencils[key] is _ONCE:
        _keep(key, _make(read, cut, meaning))
    return read.answer


def _keep(key: str, value: _Stencil | object | None) -> None:
    _stencils[key] = value
    if len(_stencils) > _MAX_STENCILS:
        _stencils.popitem(last=False)


def _make(read: "Meaning", cut: tuple[str, str, bool, str], meaning: "Callable[[str], Meaning]") -> _Stencil | None:
    key, number, counts, before = cut
    answer = read.answer
    if answer.state != "clear" or len(answer.readings) != 1 or number[0] == "0":
        return None
    reading, draft = answer.readings[0], read.drafts[0]
    least = _LEAST
    part: _Part | None = None
    if counts:
        if answer.quantity != int(number) or answer.pack is not None:
            return None
        least = 1
    else:
        previous = _BEFORE.search(before)
        if previous is not None:
            least = max(least, int(previous[1]) + 1)
        if not by_name()[reading.family].uniform_length or answer.quantity == int(number):
            return None
        places = [k for k, item in enumerate(reading.because) if item.text == number]
        if len(places) > 1:
            return None
        attributes = dict(reading.attributes)
        if draft.standards:
            attributes.setdefault("standard", draft.standards[0])
        part = _Part(
            reading,
            places[0] if places else None,
            draft.order_text or "",
            attributes,
            draft.listed,
            tuple(note for note in reading.notes if note.code != "length-not-listed"),
        )
    made = _Stencil(answer, counts, least, part, tuple(draft.asks), read.inches)
    for probe in (str(least), str(_MOST), number):
        text = key.replace(_HOLE, probe)
        if meaning(text).answer != replace(made.fill(text, probe), line=text):
            return None
    return made


def clear() -> None:
    """Forget every stencil, for tests and measurements."""
    _stencils.clear()
