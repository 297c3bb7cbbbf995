"""What an order check takes and answers: plain immutable values.

Amounts are whole numbers: pieces, or thousandths of a millimetre of what is cut to length. Dates are days; lead times
are calendar days, the days of steps working days.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from types import MappingProxyType
from typing import Literal, NamedTuple

from reference.units import tidy
from service.reading.habits import Habit
from service.receipts.model import Receipt
from service.verdict.model import Check, Finding, Mate, VerdictWord

Unit = Literal["piece", "length"]
NeedState = Literal["covered", "short", "missing", "in doubt"]
Per = Literal["copy", "order"]
Why = Literal["broken", "lost", "used"]

MICROMETRES = 1000
"""Parts of a millimetre in which lengths are counted."""


class Amount(NamedTuple):
    """How many pieces, or how much length (in thousandths of a millimetre)."""

    number: int
    unit: Unit = "piece"

    def said(self, other: int | None = None) -> str:
        """Return the amount, or another number of the same unit, as messages show it: ``6``, ``1200 mm``."""
        number = self.number if other is None else other
        return str(number) if self.unit == "piece" else f"{tidy(Decimal(number) / MICROMETRES)} mm"

    @property
    def millimetres(self) -> Decimal:
        """The length [mm]."""
        return Decimal(self.number) / MICROMETRES


@dataclass(frozen=True, slots=True)
class LeadTime:
    """An uncertain lead time [calendar days]: its mean and standard deviation, and where it comes from.

    A standard deviation of 0 is a single quoted number: it is taken as it stands.
    """

    mean: float
    deviation: float
    said: str


@dataclass(frozen=True, slots=True)
class Need:
    """What the design requires. ``asks`` is the check that its part has to pass, the line left open; ``asked`` are its
    fields as a query has them, empty where one of them is no text.

    ``part`` is the designation that is wanted, in words or by a standard; ``neighbours`` are needs whose mates the same
    part must also go with; ``must_match`` are needs with which interface and version have to agree. ``breaks`` is the
    share of pieces that break or get lost while building; ``hours`` of use and ``mtbf_hours`` give what fails later.
    ``per`` tells whether the quantity is needed for every copy or once for the whole order.
    """

    id: str
    required: Amount
    description: str = ""
    step: str | None = None
    asks: Check | None = None
    asked: tuple[tuple[str, str], ...] = ()
    part: str = ""
    interface: str = ""
    version: str = ""
    must_match: tuple[str, ...] = ()
    neighbours: tuple[str, ...] = ()
    variants: tuple[str, ...] = ()
    per: Per = "copy"
    spare: int = 0
    lead_time: LeadTime | None = None
    fragile: bool = False
    breaks: Decimal | None = None
    hours: Decimal | None = None
    mtbf_hours: Decimal | None = None
    price: Decimal | None = None
    measure: bool = False

    @property
    def mate(self) -> Mate | None:
        """What the part must go with."""
        return None if self.asks is None else self.asks.mate

    @property
    def name(self) -> str:
        """What messages call the need."""
        return f"{self.id} {self.description}" if self.description else self.id


@dataclass(frozen=True, slots=True)
class Supply:
    """An order line, or a piece of stock: what covers needs.

    ``amount`` is what it brings in all, packs multiplied out; ``pack`` the pieces in one pack. ``serves`` are the needs
    that it is for (``for`` on the wire), empty where that is to be found out. ``received`` is how much is here.
    ``habits`` are what its supplier is known to mean by a sign.
    """

    id: str
    line: str
    amount: Amount
    said: str
    stock: bool = False
    pack: int = 1
    serves: tuple[str, ...] = ()
    supplier: str = ""
    lead_time: LeadTime | None = None
    quoted: Decimal | None = None
    ordered_on: date | None = None
    received_on: date | None = None
    received: int = 0
    shipment: str = ""
    interface: str = ""
    version: str = ""
    out_of_stock: bool = False
    back_on: date | None = None
    quote_until: date | None = None
    second_source_for: str | None = None
    substitute_for: str | None = None
    receipts: tuple[Receipt, ...] = ()
    price: Decimal | None = None
    notes: tuple[str, ...] = ()
    habits: tuple[Habit, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """A stage of the build: what comes before it, how many working days it takes, whether it can be undone.

    ``needs`` lists what it waits for; None leaves that to the needs themselves, and to everything where the step is
    irreversible.
    """

    id: str
    after: tuple[str, ...] = ()
    days: int = 0
    irreversible: bool = False
    needs: tuple[str, ...] | None = None
    done_on: date | None = None


@dataclass(frozen=True, slots=True)
class Loss:
    """Pieces that broke or got lost during the build: their need opens again."""

    quantity: int
    need: str | None
    line: str | None
    why: Why
    on: date | None = None


@dataclass(frozen=True, slots=True)
class Supplier:
    """A supplier's own record: lead times that it really took, and how they compared with its quotes."""

    id: str
    record: tuple[Decimal, ...] = ()
    ratios: tuple[Decimal, ...] = ()


@dataclass(frozen=True, slots=True)
class ColumnNotRead:
    """A column of a sheet that is not understood: named in the reply, never dropped."""

    sheet: str
    column: str
    cells: int


@dataclass(frozen=True, slots=True)
class Order:
    """Everything that is known: what the design needs, what is ordered and here, and how it is to be built."""

    needs: tuple[Need, ...]
    supplies: tuple[Supply, ...]
    steps: tuple[Step, ...] = ()
    suppliers: Mapping[str, Supplier] = field(default_factory=lambda: MappingProxyType({}))
    losses: tuple[Loss, ...] = ()
    copies: int = 1
    variants: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    today: date = date.min
    start_on: date | None = None
    wanted_on: date | None = None
    confidence: Decimal = Decimal("0.9")
    country: str = ""
    subdivision: str = ""
    closed_on: tuple[date, ...] = ()
    not_read: tuple[ColumnNotRead, ...] = ()
    assumed: tuple[str, ...] = ()

    def built(self, need: Need) -> int:
        """Return how many times a need is wanted: copies, or the variants that it belongs to."""
        if need.per == "order":
            return 1
        if not self.variants:
            return self.copies
        wanted = need.variants or tuple(self.variants)
        return sum(self.variants.get(name, 0) for name in wanted)


# --- answers ---------------------------------------------------------------------------------------------------------


class Judgement(NamedTuple):
    """How a line goes with a need: mate, part wanted, interface and neighbours together."""

    word: VerdictWord
    findings: tuple[Finding, ...]
    question: str | None
    order_text: str
    cautions: tuple[str, ...] = ()
    share: Decimal | None = None


class Share(NamedTuple):
    """A part of a supply that covers a need: how much, how well, and whether it is here."""

    supply: str
    need: str
    quantity: int
    word: VerdictWord
    here: bool


class Cover(NamedTuple):
    """How a need stands: pieces required, covered by what fits, and in doubt; what covers it."""

    need: Need
    required: int
    covered: int
    doubtful: int
    state: NeedState
    shares: tuple[Share, ...]
    text: str
    order_text: str

    @property
    def short(self) -> int:
        """How much is not there at all."""
        return max(self.required - self.covered - self.doubtful, 0)


class LineResult(NamedTuple):
    """How a line stands: its verdict against the needs that it serves, and what is left over."""

    supply: Supply
    word: VerdictWord
    judgements: tuple[tuple[str, Judgement], ...]
    used: int
    left: int
    proof: str | None


class NearMiss(NamedTuple):
    """A line that nearly covers a need, with the order text that puts it right."""

    line: str
    need: str
    word: VerdictWord
    text: str
    order_text: str
    question: str | None


class Surplus(NamedTuple):
    """More than is needed; ``unavoidable`` where a pack holds no fewer."""

    line: str
    over: Amount
    unavoidable: bool
    text: str


class Duplicate(NamedTuple):
    """A line that buys again what others already bring."""

    line: str
    of: tuple[str, ...]
    needs: tuple[str, ...]
    text: str


class Reason(NamedTuple):
    """One thing that keeps the order from being ready; ``delay_days`` is what it costs, None where nobody knows."""

    code: str
    text: str
    needs: tuple[str, ...]
    lines: tuple[str, ...]
    delay_days: int | None
    order_text: str = ""


class Variant(NamedTuple):
    """How many copies of a variant can be finished from what is here, and with what is ordered."""

    name: str
    wanted: int
    from_here: int
    with_ordered: int
    limited_by: tuple[str, ...]
    text: str


class Spare(NamedTuple):
    """What to buy spare, and why; ``have`` is what is left over already."""

    need: str
    buy: int
    have: int
    why: tuple[str, ...]
    text: str
    source: str


class Dates(NamedTuple):
    """The day by which something is there with 50 and with 90 %; None where nobody knows."""

    p50: date | None
    p90: date | None


class StepDates(NamedTuple):
    """When a step can start and when it is done; ``waits_for`` is what has no date."""

    step: Step
    start: Dates
    finish: Dates
    waits_for: tuple[str, ...]


class Deciding(NamedTuple):
    """A part that decides when the kit is complete."""

    id: str
    supplier: str
    needs: tuple[str, ...]
    arrives: Dates
    chance_last: float
    saves_days: int
    text: str


class LastOrder(NamedTuple):
    """The last day to order a line; ``late_by`` is how many days that is past."""

    line: str
    order_by: date
    late_by: int
    text: str


class Schedule(NamedTuple):
    """When the kit is complete, when each step can start, what decides it, and what has to be ordered until when."""

    kit: Dates
    known: Dates
    steps: tuple[StepDates, ...]
    deciding: tuple[Deciding, ...]
    order_by: tuple[LastOrder, ...]
    without_date: tuple[str, ...]
    arrivals: Mapping[str, Dates]
    assumed: tuple[str, ...]
    wanted_chance: float | None = None


class Gate(NamedTuple):
    """Whether a step may start, and what keeps it closed."""

    step: Step
    open: bool
    needs: tuple[str, ...]
    because: tuple[str, ...]


class OrderCheck(NamedTuple):
    """The answer to an order check."""

    order: Order
    ready: bool
    reasons: tuple[Reason, ...]
    lines: tuple[LineResult, ...]
    needs: tuple[Cover, ...]
    near_misses: tuple[NearMiss, ...]
    surplus: tuple[Surplus, ...]
    duplicates: tuple[Duplicate, ...]
    variants: tuple[Variant, ...]
    schedule: Schedule
    gates: tuple[Gate, ...]
    spares: tuple[Spare, ...]
    notes: tuple[str, ...]
