"""What a purchase line says before a part family makes sense of it: numbers, threads, standards, words.

What is made for every line is a named tuple: it costs a third of a frozen dataclass.
The reader (``service.reading.scan``) fills ``Facts``; a family turns them into ``Draft`` readings. Lengths are exact
millimetres. What does not belong here: deciding anything.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Any, NamedTuple

from reference.quantities import Dimension, Limits, Rating, ThreadSize


class Number(NamedTuple):
    """A number of the line: its value in millimetres (or as written, for a count), its words, and the label it carries.

    ``unit`` is '' where none is written, ``mm``, ``in`` and so on; ``label`` is a value of ``reference.words.LABELS``;
    ``upper`` is set where the line gives a range (``0.5-3.0``); ``before_word`` where a whole number without a unit is
    before a word, as a count does (``20 dowel pins``).
    """

    value: Decimal
    text: str
    unit: str = ""
    label: str | None = None
    upper: Decimal | None = None
    written: Decimal | None = None
    before_word: bool = False

    @property
    def plain(self) -> Decimal:
        """The number as written, without its unit."""
        return self.value if self.written is None else self.written


class ThreadMention(NamedTuple):
    """A thread in the line: its size, the words it was read from, and whether the M stood in capitals."""

    thread: ThreadSize
    text: str
    pitch_stated: bool = False
    capital: bool = True


Element = Number | ThreadMention


class StandardMention(NamedTuple):
    """A standard that the line names, e.g. ``ISO 8734``; ``known`` tells whether any family cites it."""

    name: str
    text: str
    known: bool


class ClassMention(NamedTuple):
    """A tolerance class in the line; ``hole`` where it is a hole's class (capital), ``thread`` where M6 may be one."""

    name: str
    text: str
    hole: bool = False
    thread: ThreadSize | None = None


@dataclass(slots=True)
class Facts:
    """Everything that was recognised in one line, in the order of the line."""

    line: str
    words: frozenset[str] = frozenset()
    standards: tuple[StandardMention, ...] = ()
    chains: list[list[Element]] = field(default_factory=list)
    labelled: list[Number] = field(default_factory=list)
    classes: list[ClassMention] = field(default_factory=list)
    ratings: list[tuple[str, Rating, str]] = field(default_factory=list)
    attributes: dict[str, str] = field(default_factory=dict)
    attribute_texts: dict[str, str] = field(default_factory=dict)
    quantity: int | None = None
    pack: int | None = None
    inches: bool = False
    doubts: list[str] = field(default_factory=list)
    code: str | None = None

    def threads(self) -> list[ThreadMention]:
        """Return the threads of the line in order."""
        return [part for chain in self.chains for part in chain if isinstance(part, ThreadMention)]

    def unplaced(self, draft: "Draft") -> list[Number]:
        """Return the plain numbers of a draft; one that leads the line before a word is taken as its count."""
        numbers = [part for part in draft.rest if isinstance(part, Number)]
        first = numbers[0] if numbers else None
        if first is None or self.quantity is not None or not first.before_word:
            return numbers
        if not self.line.lstrip().startswith(first.text):
            return numbers
        self.quantity = int(first.plain)
        draft.drop(first)
        return numbers[1:]

    def says(self, *words: str) -> bool:
        """Tell whether the line holds any of the (folded) words."""
        return not self.words.isdisjoint(words)


@dataclass(slots=True)
class Draft:
    """A reading in the making; families may add, split or drop drafts in their ``refine``.

    ``doubts`` hold what the supplier must be asked before the line is clear; a draft with doubts makes the line
    ambiguous; ``asks`` are assumptions to confirm on a clear line; ``rest`` holds sizes that found no place.
    ``because`` holds (text, says, source), ``notes`` (code, text, source). ``table_standard`` is the standard whose
    rows hold where the line names none, '' where none do; ``listed`` is filled from the table: standard, size, lengths,
    source.
    """

    family: str
    size_names: str
    evidence: str
    dimensions: dict[str, Dimension] = field(default_factory=dict)
    attributes: dict[str, str] = field(default_factory=dict)
    standards: tuple[str, ...] = ()
    because: list[tuple[str, str, str]] = field(default_factory=list)
    notes: list[tuple[str, str, str]] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)
    asks: list[str] = field(default_factory=list)
    order_text: str | None = None
    rest: list[Element] = field(default_factory=list)
    table_standard: str | None = None
    listed: tuple[str, str, tuple[Decimal, ...], str] | None = None

    def nominal(self, key: str) -> Decimal | None:
        """Return the nominal size of a dimension [mm], or None where the draft has none."""
        dimension = self.dimensions.get(key)
        return dimension.nominal if isinstance(dimension, Limits) else None

    def give(self, key: str, value: Decimal, text: str, says: str, source: str) -> None:
        """Add a dimension that follows from others or from a rule, with its evidence."""
        self.dimensions[key] = Limits(value)
        self.because.append((text, says, source))

    def rated(self, name: str) -> Decimal | None:
        """Return a rated quantity of the draft in its own unit, or None."""
        rating = self.dimensions.get("rating")
        held = rating.get(name) if isinstance(rating, Mapping) else None
        return held.value if held is not None else None

    def rate(self, name: str, rating: Rating, text: str, says: str, source: str) -> None:
        """Set a rated quantity, with its evidence."""
        held = self.dimensions.get("rating")
        self.dimensions["rating"] = {**(held if isinstance(held, Mapping) else {}), name: rating}
        self.because.append((text, says, source))

    def drop(self, *parts: Element) -> None:
        """Take parts that have found a meaning out of the rest."""
        self.rest = [part for part in self.rest if not any(part is other for other in parts)]

    def copy(self, **changes: Any) -> "Draft":
        """Return a draft of its own with some fields changed."""
        fresh = {
            "dimensions": dict(self.dimensions),
            "attributes": dict(self.attributes),
            "because": list(self.because),
            "notes": list(self.notes),
            "doubts": list(self.doubts),
            "asks": list(self.asks),
            "rest": list(self.rest),
        }
        return replace(self, **{**fresh, **changes})
