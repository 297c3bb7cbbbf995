"""What reading a line gives: readings with their dimensions, evidence and gaps. Plain immutable values.

Named tuples, because one is built for every line read and they cost a third of a frozen dataclass.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

from reference.quantities import Dimension

Evidence = Literal["stated", "implied", "assumed"]
State = Literal["clear", "ambiguous", "unread"]


_NONE: Mapping[str, str] = MappingProxyType({})


class Because(NamedTuple):
    """One piece of the line and what it says: the evidence of a reading, token by token."""

    text: str
    says: str
    source: str


class Note(NamedTuple):
    """Something a buyer should know about a reading: a rare length, a size that no table lists, a look-alike."""

    code: str
    text: str
    source: str


class Reading(NamedTuple):
    """One possible meaning of a line.

    ``dimensions`` uses the keys of the contract (millimetres); ``attributes`` holds what is no dimension (material,
    property_class, finish, series, seal, hand, profile, point); ``missing`` names what an order would still need.
    """

    family: str
    standards: tuple[str, ...]
    size_names: str
    evidence: Evidence
    dimensions: Mapping[str, Dimension]
    missing: tuple[str, ...] = ()
    because: tuple[Because, ...] = ()
    order_text: str = ""
    attributes: Mapping[str, str] = _NONE
    notes: tuple[Note, ...] = ()


class LineReading(NamedTuple):
    """All readings of one line, best supported first.

    ``state`` is ``clear``, ``ambiguous`` or ``unread``; ``question`` is what to ask the supplier (also on a clear line
    where a default was assumed that matters); ``reason`` and ``nearest`` explain an unread line; ``quantity`` is the
    number of pieces ordered where the line states it, ``pack`` the pieces in one pack.
    """

    line: str
    state: State
    readings: tuple[Reading, ...]
    question: str | None = None
    reason: str | None = None
    nearest: tuple[str, ...] = ()
    quantity: int | None = None
    pack: int | None = None
