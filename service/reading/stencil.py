"""Reads a line that differs only in a length from one read before, without reading it from scratch.

Order lists repeat themselves: ``M4x16``, ``M4x20``, ``M4x25`` of one screw. A stencil is an answer with a hole where
the length stood. It is made only where that is safe: every family in the answer treats lengths by comparison alone
(``Family.uniform_length``), and the smallest and the largest number that may fill the hole were read from scratch and
gave exactly what the stencil gives - so that every number between them does too. Shorter ones are proved one by one.
What does not belong here: any rule of reading. ``tests/reading/test_stencil.py`` compares it with reading from scratch.
"""

import re
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from reference.families import by_name
from reference.families.facts import Draft
from service.reading.assemble import length_note, limits_of, order_text
from service.reading.model import Because, LineReading, Note, Reading
from service.reading.questions import ask

if TYPE_CHECKING:
    from service.reading.reader import Meaning

_LENGTH = re.compile(
    r"(?:(?<=[\d m][xX*])|(?<=[xX*] ))(\d{1,4})(?=$|[ ,;)]|mm\b)|(?<= )(\d{1,4})(?= ?(?:mm )?(?:long|lg|lang)\b)"
)
_BEFORE = re.compile(r"(\d+)(?:[.,]\d+)?\D{0,4}$")
_UNIT_LETTERS = " mlong"
_HOLE = "\ue001"
_LEAST, _MOST = 7, 1999
"""No pitch of a thread is as large as the least length; no length of a small part is as large as the most [mm]."""

_MAX_STENCILS = 8192
_ONCE = object()


@dataclass(frozen=True, slots=True)
class _Part:
    """The reading of a stencil: where its evidence quotes the length, its order text around it, the lengths listed."""

    reading: Reading
    because: int | None
    order: tuple[str, ...]
    listed: tuple[str, str, tuple[Decimal, ...], str] | None
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class _Stencil:
    answer: LineReading
    least: int
    parts: tuple[_Part, ...]
    doubts: tuple[str, ...]
    asks: tuple[str, ...]
    proved: set[int] = field(default_factory=set)

    def fill(self, text: str, length: str) -> LineReading:
        """Return the answer for the text that has this length in its hole."""
        answer = self.answer
        readings = tuple([_fill(part, length) for part in self.parts])
        question = ask(readings, self.doubts, self.asks) if len(readings) > 1 else answer.question
        return LineReading(text, answer.state, readings, question, None, (), answer.quantity, answer.pack)


def _fill(part: _Part, number: str) -> Reading:
    reading = part.reading
    length = Decimal(number)
    dimensions = {**reading.dimensions, "length": limits_of(length)}
    because = reading.because
    if part.because is not None:
        old = because[part.because]
        new = Because(number + old.text.lstrip("0123456789"), old.says, old.source)
        because = (*because[: part.because], new, *because[part.because + 1 :])
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
        number.join(part.order),
        reading.attributes,
        notes,
    )


_DIGITS = re.compile(r"\d+")
_shapes: set[str] = set()
"""Texts with every number taken out of which a stencil was made: their like is worth one at first sight."""

_stencils: OrderedDict[str, _Stencil | object | None] = OrderedDict()


class _Cut(NamedTuple):
    """A text with a hole: the text around it, the length that stood there, the text before it."""

    key: str
    length: str
    before: str


def _cut(text: str) -> _Cut | None:
    """Return the text with a hole for its length, or None where it has none."""
    match = None
    for match in _LENGTH.finditer(text):  # noqa: B007 - the last one counts
        pass
    if match is None:
        return None
    before = text[: match.start()]
    return _Cut(f"{before}{_HOLE}{text[match.end() :]}", match[0], before)


def apply(text: str) -> LineReading | None:
    """Return the answer for the text if a stencil fits it, else None."""
    cut = _cut(text)
    if cut is None:
        return None
    held = _stencils.get(cut.key)
    if not isinstance(held, _Stencil) or cut.length[0] == "0":
        return None
    length = int(cut.length)
    if length > _MOST or (length < held.least and length not in held.proved):
        return None
    return held.fill(text, cut.length)


def learn(text: str, meaning: "Callable[[str], Meaning]") -> LineReading:
    """Read the text from scratch; when its like comes a second time, keep a stencil of it if that is safe."""
    read = meaning(text)
    cut = _cut(text)
    if cut is None:
        return read.answer
    shape = _DIGITS.sub("#", cut.key)
    if cut.key not in _stencils and shape not in _shapes:
        _keep(cut.key, _ONCE)
        return read.answer
    held = _stencils.get(cut.key, _ONCE)
    if held is _ONCE:
        made = _make(read, cut, meaning)
        _keep(cut.key, made)
        if isinstance(made, _Stencil) and len(_shapes) < _MAX_STENCILS:
            _shapes.add(shape)
    elif isinstance(held, _Stencil) and cut.length[0] != "0" and held.fill(text, cut.length) == read.answer:
        held.proved.add(int(cut.length))  # below the range: each number for itself
    return read.answer


def _keep(key: str, value: _Stencil | object | None) -> None:
    _stencils[key] = value
    if len(_stencils) > _MAX_STENCILS:
        _stencils.popitem(last=False)


def _make(read: "Meaning", cut: _Cut, meaning: "Callable[[str], Meaning]") -> _Stencil | object | None:
    """Return the stencil of a line, or None where the numbers at both ends of its range are not read like it."""
    answer = read.answer
    previous = _BEFORE.search(cut.before)
    least = max(_LEAST, int(previous[1]) + 1) if previous is not None else _LEAST
    if int(cut.length) < least:
        return _ONCE  # too short to tell: wait for a longer one
    if answer.state == "unread":
        return None
    parts: list[_Part] = []
    for reading, draft in zip(answer.readings, read.drafts, strict=True):
        part = _part(reading, draft, cut.length, read.inches)
        if part is None:
            return None
        parts.append(part)
    for first in (least, least + 26):
        made = _Stencil(answer, first, tuple(parts), read.doubts, read.asks)
        if _proved(made, cut, meaning):
            return made
    return None


def _part(reading: Reading, draft: Draft, length: str, inches: bool) -> _Part | None:
    if not by_name()[reading.family].uniform_length:
        return None
    places = [k for k, item in enumerate(reading.because) if item.text.rstrip(_UNIT_LETTERS) == length]
    if len(places) > 1:
        return None
    attributes = {"standard": draft.standards[0], **reading.attributes} if draft.standards else reading.attributes
    around = {key: value for key, value in reading.dimensions.items() if key != "length"}
    return _Part(
        reading,
        places[0] if places else None,
        tuple(order_text(draft.order_text or "", around, attributes, inches).split("<length>")),
        draft.listed,
        tuple(note for note in reading.notes if note.code != "length-not-listed"),
    )


def _proved(made: _Stencil, cut: _Cut, meaning: "Callable[[str], Meaning]") -> bool:
    """Tell whether reading from scratch gives what the stencil gives, at both ends of its range."""
    for length in (str(made.least), str(_MOST)):
        text = cut.key.replace(_HOLE, length)
        if meaning(text).answer != made.fill(text, length):
            return False
    return True


def clear() -> None:
    """Forget every stencil, for tests and measurements."""
    _stencils.clear()
    _shapes.clear()
