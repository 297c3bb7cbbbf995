"""What a receipt check takes and answers: plain immutable values, exact decimals in millimetres."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from service.reading.model import LineReading
from service.strength.measuring import MeasuredDecision

LabelWord = Literal["agrees", "contradicts", "not decided"]


@dataclass(frozen=True, slots=True)
class Uncertainty:
    """The expanded uncertainty of a measurement [mm], k = 2, and where it comes from."""

    value: Decimal
    said: str


@dataclass(frozen=True, slots=True)
class Receipt:
    """Pieces that were measured, and what they are held against.

    ``lower`` and ``upper`` are the limits [mm], one of them may be None; ``limits_from`` says where they come from.
    ``dimension`` is the dimension key that was measured; ``lot`` the number of pieces that the sample was taken from.
    """

    measured: tuple[Decimal, ...]
    lower: Decimal | None
    upper: Decimal | None
    limits_from: str
    uncertainty: Uncertainty
    dimension: str | None = None
    label: LineReading | None = None
    lot: int | None = None


@dataclass(frozen=True, slots=True)
class Sample:
    """What a sample without a piece outside says of its lot.

    ``outside_at_most`` is the share of the lot that can lie outside with the confidence; ``for_five_percent`` how many
    pieces without one outside would show that at most one in twenty is.
    """

    measured: int
    lot: int | None
    confidence: Decimal
    outside_at_most: Decimal
    for_five_percent: int
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class LabelCheck:
    """Whether what was measured can be what the label says."""

    label: str
    word: LabelWord
    text: str


@dataclass(frozen=True, slots=True)
class ReceiptCheck:
    """What the measured pieces prove, what the sample says of the lot, and whether the label can be true."""

    receipt: Receipt
    outcome: MeasuredDecision
    sample: Sample | None
    label: LabelCheck | None
    advice: str
