"""What a check asks and what a verdict answers: plain immutable values, exact decimals in millimetres.

What is built once per request or per distinct mate is a frozen dataclass; what is built for every line judged
(``Finding``, ``JudgedReading``, ``Verdict``) is a named tuple, because that costs a third of the time.
Parsing of mates is in ``mates.py``, judging in ``judge.py`` and one module per kind of mate.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar, Literal, NamedTuple

from reference.materials import Material
from reference.quantities import Limits, Rating, ThreadSize
from service.reading.model import Reading, State

Weight = Literal["fits", "marginal", "wrong", "open", "note"]
"""How a finding counts: ``note`` informs and never changes the verdict; ``open`` needs a value that is not stated."""

ReadingVerdict = Literal["fits", "marginal", "wrong", "open"]
VerdictWord = Literal["fits", "marginal", "ask", "wrong", "unread"]


class CheckError(ValueError):
    """A check that cannot be understood: names the field, the value as given, what is accepted and an example."""

    def __init__(self, field: str, value: object, accepted: str, example: str) -> None:
        """Keep the four parts; the text says them in one line."""
        self.field = field
        self.value = value
        self.accepted = accepted
        self.example = example
        super().__init__(f"{field}: {value!r} is not understood; accepted: {accepted}; example: {example}")


class Window(NamedTuple):
    """A range of clearance [mm], both ends included; negative clearance is interference."""

    lower: Decimal
    upper: Decimal


@dataclass(frozen=True, slots=True, eq=False)
class BoreMate:
    """A hole that the part goes into. ``process`` names how it is made where its limits come from that.

    ``text`` of any mate is what messages call it.
    """

    kind: ClassVar[str] = "bore"
    text: str
    diameter: Limits
    depth: Decimal | None = None
    end: Literal["blind", "through"] | None = None
    material: Material | None = None
    process: str | None = None
    source: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class ShaftMate:
    """A shaft that the part goes onto."""

    kind: ClassVar[str] = "shaft"
    text: str
    diameter: Limits
    material: Material | None = None
    source: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class TappedHoleMate:
    """A thread that a screw goes into; ``depth`` is its full thread [mm], without the run-out of the tap below."""

    kind: ClassVar[str] = "tapped hole"
    text: str
    thread: ThreadSize
    depth: Decimal | None = None
    end: Literal["blind", "through"] | None = None
    material: Material | None = None


@dataclass(frozen=True, slots=True, eq=False)
class NutEnd:
    """A clamp that ends in a nut: its thread, its height [mm] and where that is from; ``prevailing`` if a lock nut."""

    kind: ClassVar[str] = "nut"
    text: str
    thread: ThreadSize
    height: Decimal
    source: str
    prevailing: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class ClampMate:
    """A stack of parts under a screw, ending in a tapped hole or a nut.

    ``layers`` are the thicknesses in order from the head, washers included [mm]; ``grip`` is their sum; ``parts`` are
    the same with their limits, where any has some.
    """

    kind: ClassVar[str] = "clamp"
    text: str
    layers: tuple[Decimal, ...]
    grip: Decimal
    into: TappedHoleMate | NutEnd
    parts: tuple[Limits, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class PocketMate:
    """A recess that a part lies in: a round one by its diameter, a square one by length and width [mm]."""

    kind: ClassVar[str] = "pocket"
    text: str
    diameter: Limits | None = None
    length: Limits | None = None
    width: Limits | None = None
    depth: Limits | None = None


@dataclass(frozen=True, slots=True, eq=False)
class GrooveMate:
    """A turned groove for a retaining ring or an O-ring: its floor, its width, and where it is.

    ``diameter`` is that of the floor, ``on`` tells whether the groove is turned into a shaft or a bore of ``size``;
    ``against`` is the bore or shaft that an O-ring seals against, ``service`` how (static, moving).
    """

    kind: ClassVar[str] = "groove"
    text: str
    on: Literal["shaft", "bore"]
    diameter: Limits
    width: Limits | None = None
    size: Limits | None = None
    against: Limits | None = None
    service: Literal["static", "moving"] = "static"


Comparison = Literal["at least", "at most", "exactly", "usual"]


class Needed(NamedTuple):
    """A quantity that a part must be rated for: ``usual`` compares it as is usual for that quantity and part."""

    name: str
    rating: Rating
    comparison: Comparison = "usual"


@dataclass(frozen=True, slots=True, eq=False)
class RatingMate:
    """Quantities that the part must be rated for, with the margin asked for (0.2 is a fifth more)."""

    kind: ClassVar[str] = "rating"
    text: str
    needed: tuple[Needed, ...]
    margin: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True, eq=False)
class HolePatternMate:
    """Holes that the part is bolted to: so many, each a thread or a clearance ``hole`` (for a ``screw``).

    They lie in a row at ``pitch``, in two rows apart by ``across``, or on a ``circle``; ``position`` is the diameter of
    the tolerance zone of their places [mm].
    """

    kind: ClassVar[str] = "hole pattern"
    text: str
    count: int
    thread: ThreadSize | None = None
    hole: Limits | None = None
    screw: ThreadSize | None = None
    pitch: Limits | None = None
    across: Limits | None = None
    circle: Limits | None = None
    position: Decimal | None = None


class PulleyAt(NamedTuple):
    """A pulley on a belt's path [mm]: by its teeth, or smooth by its diameter; the belt's ``back`` may run on it.

    One with neither is the clamp of an open belt.
    """

    x: Decimal
    y: Decimal
    teeth: int | None
    diameter: Decimal | None
    back: bool


class Moves(NamedTuple):
    """What a tensioner does: the pulley that it moves, counted from 1, and how far [mm]."""

    pulley: int
    x: Decimal
    y: Decimal


@dataclass(frozen=True, slots=True, eq=False)
class BeltPathMate:
    """The path of a timing belt: profile and pitch, its pulleys, its length on the pitch line [mm].

    ``path`` runs from the tensioner slack to the tensioner at the end of its ``travel``, as ``moves`` says.
    ``clamp_teeth`` is set for an open belt, the teeth held at each end. ``centres`` is the centre
    distance of two pulleys, ``belt_width`` what the pulleys are made for.
    """

    kind: ClassVar[str] = "belt path"
    text: str
    profile: str
    pitch: Decimal
    pulleys: tuple[PulleyAt, ...]
    path: Limits
    clamp_teeth: int | None = None
    moves: Moves | None = None
    travel: Decimal | None = None
    centres: Limits | None = None
    belt_width: Decimal | None = None


@dataclass(frozen=True, slots=True, eq=False)
class PresenceMate:
    """The part only has to be there: a tool, an adapter, a cable."""

    kind: ClassVar[str] = "presence"
    text: str


Mate = (
    BoreMate
    | ShaftMate
    | TappedHoleMate
    | ClampMate
    | PocketMate
    | GrooveMate
    | HolePatternMate
    | BeltPathMate
    | RatingMate
    | PresenceMate
)
"""Every kind of mate; ``kinds.py`` tells how to add one."""


@dataclass(frozen=True, slots=True, eq=False)
class FitWanted:
    """What the pair must do: the words given, the window of clearance they stand for, and where that comes from.

    ``loosest_upper`` is how loose a ``slip`` may be before it is wrong: between ``window.upper`` and it, ``marginal``.
    """

    wanted: str
    window: Window
    from_text: str
    loosest_upper: Decimal | None = None


class Temperatures(NamedTuple):
    """The temperatures at which a fit has to hold [degC]; both alike where one is given."""

    lower: Decimal
    upper: Decimal

    @property
    def text(self) -> str:
        """The temperatures as messages show them."""
        return f"{self.lower} degC" if self.lower == self.upper else f"{self.lower} to {self.upper} degC"


class Check(NamedTuple):
    """One line against one mate, with the fit wanted where one was given.

    ``temperature`` asks what the fit does away from 20 degC, the part being of ``part_material`` where the line does
    not say.
    """

    line: str
    mate: Mate
    fit: FitWanted | None = None
    temperature: Temperatures | None = None
    part_material: Material | None = None


class Finding(NamedTuple):
    """One checked statement with its numbers, its source and its weight."""

    code: str
    weight: Weight
    text: str
    numbers: Mapping[str, Decimal | str]
    source: str


NOT_LENGTHS = frozenset(
    {
        *("share", "interference_share", "diameters"),
        *("strip_load", "preload", "breaking_load", "press_in", "holds"),
        *("recommended", "never_exceed", "pressure", "stress"),
        *("squeeze_lower", "squeeze_upper", "stretch_lower", "stretch_upper", "fill_upper"),
        *("rated", "rated_upper", "needed_value", "margin"),
        *("holes", "teeth", "teeth_in_mesh"),
        *("temperature_lower", "temperature_upper", "limit_temperature"),
    }
)
"""Numbers of findings that are no lengths: shares, counts, forces [N], torques [N m], stresses [MPa], ratings, degC.

Every other number of a finding is a length [mm].
"""


class JudgedReading(NamedTuple):
    """A reading with its own verdict.

    ``share`` is the part of all pairs that is within limits, where chance decides (1 is all of them); ``cautions``
    belong to the figures among the findings.
    """

    reading: Reading
    verdict: ReadingVerdict
    clearance: Window | None
    findings: tuple[Finding, ...]
    share: Decimal | None = None
    cautions: tuple[str, ...] = ()


class Verdict(NamedTuple):
    """The answer to a check. ``fit`` is the fit that was judged against: the one wanted, or the standard's own."""

    verdict: VerdictWord
    line: str
    state: State
    mate: Mate
    fit: FitWanted | None
    readings: tuple[JudgedReading, ...]
    findings: tuple[Finding, ...]
    question: str | None
    order_text: str
    cautions: tuple[str, ...]
    share: Decimal | None = None
