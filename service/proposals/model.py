"""What a proposal asks and what it answers: plain immutable values."""

from decimal import Decimal
from typing import NamedTuple

from service.reading.model import Reading
from service.verdict.model import FitWanted, Mate


class Wanted(NamedTuple):
    """What a part is wanted for: mate and fit, and where it matters the family, the length [mm] and the material."""

    mate: Mate
    fit: FitWanted | None = None
    family: str | None = None
    length: Decimal | None = None
    material: str | None = None


class Trial(NamedTuple):
    """A part to try: the texts that may stand for it, best first.

    Trials of one ``group`` are the same part by different standards; ``rare`` marks what no list holds, ``says`` what
    led to it, ``source`` where its sizes stand.
    """

    family: str
    standard: str
    texts: tuple[str, ...]
    group: tuple[str, ...]
    rare: bool = False
    says: str = ""
    source: str = ""


class Substitute(NamedTuple):
    """The same part by another standard, and where it differs; nothing where it does not."""

    order_text: str
    standards: tuple[str, ...]
    differs: tuple[str, ...]


class Proposal(NamedTuple):
    """A part that goes with the mate: what to order, why, and what may stand in its place."""

    order_text: str
    standards: tuple[str, ...]
    family: str
    why: str
    rare: bool
    substitutes: tuple[Substitute, ...]
    missing: tuple[str, ...]
    share: Decimal | None
    source: str
    cautions: tuple[str, ...]
    reading: Reading


class Proposals(NamedTuple):
    """The answer: proposals, best first, and where there is none the reason."""

    wanted: Wanted
    fit: FitWanted | None
    proposals: tuple[Proposal, ...]
    tried: int
    reason: str | None
