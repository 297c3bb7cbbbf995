"""What a part family declares: its nouns, standards, how its numbers are ordered, its table and its order text.

One family is one module of this package that ends in ``FAMILY = Family(...)`` (or ``FAMILIES = (...)``); the package
finds it by itself. Rules that a declaration cannot say go into its ``refine`` function, beside it.
What does not belong here: the reading of text (``service.reading``).
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property

from reference.families.facts import Draft, Facts
from reference.quantities import Dimension
from reference.sizes import SizeTable, size_table

COMMON_PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class Layout:
    """One order in which a line may write a family's numbers: ``Layout("outer_diameter", "length")``.

    A layout applies when the line has as many unlabelled numbers as it has keys not yet given by labels, and ``when``
    (if given) holds for the numbers. The first that applies is taken; one that ``competes`` is read beside it, and the
    line is then ambiguous. A key that starts with ``-`` is a number to be ignored.
    """

    keys: tuple[str, ...]
    competes: bool = False
    when: Callable[[Mapping[str, Decimal]], bool] | None = None
    says: str = ""
    source: str = COMMON_PRACTICE
    size_names: str | None = None


@dataclass(frozen=True, slots=True)
class Standard:
    """A standard that names this family.

    ``rows`` is the standard whose rows of the family's table hold (an equivalent); ``fixed`` holds attributes that the
    standard decides (``tolerance_class``, ``point``); ``order`` its designation rule where it is not the family's.
    """

    name: str
    rows: str | None = None
    fixed: Mapping[str, str] = field(default_factory=dict)
    order: str | None = None
    implies: Mapping[str, Dimension] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Code:
    """A catalogue designation: a regular expression on the lower-case line, and what its groups mean.

    Named groups are dimension keys (numbers) or attributes; ``decode`` may replace that. ``identifies``: the code alone
    names the family, without a noun.
    """

    pattern: str
    identifies: bool = False
    decode: Callable[[Mapping[str, str]], Draft | None] | None = None
    says: str = "a catalogue designation"
    source: str = COMMON_PRACTICE


@dataclass(frozen=True, slots=True)
class Example:
    """A line and what must be read from it; every declaration tests itself with them.

    ``dimensions`` are nominal sizes in millimetres or designations as text; ``state`` is the expected state.
    """

    line: str
    state: str = "clear"
    dimensions: Mapping[str, str] = field(default_factory=dict)
    size_names: str | None = None


def phrases(text: str, *others: str) -> tuple[str, ...]:
    """Return noun phrases written with commas; with more lists, every combination of a phrase of each.

    >>> phrases("circlip, snap ring", "shaft, external")
    ('circlip shaft', 'circlip external', 'snap ring shaft', 'snap ring external')
    """
    found = tuple(" ".join(part.split()) for part in text.split(","))
    for other in others:
        found = tuple(f"{one} {two}" for one in found for two in phrases(other))
    return found


def words(text: str) -> frozenset[str]:
    """Return the words of a text as a set, for ``unless`` and ``words``."""
    return frozenset(text.split())


@dataclass(frozen=True, slots=True)
class Mates:
    """How a family meets its mates, where that is not plain from its dimensions.

    A family that declares nothing meets a bore with its outer diameter and a shaft with its bore.

    Attributes:
        own_hole: class of the hole that the part is made for by its standard, '' where it has none of its own.
        bore_key: dimension that goes into a bore.
        for_bore, for_shaft: dimension that names the one bore or shaft the part is made for.
        housing, seat: first and last class of the housing or shaft the part is fitted to where no fit is given.
        through: a screw that goes through a clearance hole and into a tapped one.
        headed: a screw whose head clamps a stack.
        over_all: the length counts with the head, or there is no head.
        reamed: a pin that in class m6 is made for a hole H7.
        tapered: needs a tapered hole.
        in_bore, on_shaft: whether any bore or shaft is made for the part at all.
    """

    own_hole: str | None = None
    bore_key: str = "outer_diameter"
    for_bore: str | None = None
    for_shaft: str | None = None
    housing: tuple[str, str] | None = None
    seat: tuple[str, str] | None = None
    through: bool = False
    headed: bool = False
    over_all: bool = False
    reamed: bool = False
    tapered: bool = False
    in_bore: bool = True
    on_shaft: bool = True


Refine = Callable[["Family", Facts, list[Draft]], Sequence[Draft]]


@dataclass(frozen=True)
class Family:
    """The declaration of one part family.

    Attributes:
        name: the family's name, the standard's own where there is one.
        size_names: which dimension the size in a line names.
        key: the dimension key of that size; the table is looked up by it.
        nouns: language -> phrases; a phrase matches when all its words stand in the line, in any order.
        standards: the standards that define the family, the usual one first.
        layouts: how unlabelled numbers are ordered, preferred first.
        labels: label (``reference.words.LABELS``) -> dimension key, beside the usual ones.
        thread: dimension key that a thread in the line fills, or None where the family has no thread.
        needs: dimension keys or rated quantities (or ``a|b``) that an order must state; absent ones are ``missing``.
        identity: keys without which the line cannot be clear.
        order: the designation to order, with ``{key}`` for dimensions and attributes.
        tolerance_class: class assumed for the key dimension where neither line nor standard gives one.
        question: what to ask when the line leaves the family's usual gap open.
        ratings: names of the rated quantities that the family takes from the line.
        plain_m: an M before the size is only a sloppy way to write it (spring pins): no thread.
        plain_thread: a plain number may name the thread (``tige filetee 8``).
        length_says: how the standard measures the length, where that is worth saying.
        kin: families that this family's nouns may loosely mean; a catalogue code or standard of one decides.
        generic: no part of its own but a word that leaves the family open (``pin``, ``screw``).
        listed_lengths: a length beyond the table's list is worth a note.
        listed_sizes: a size beyond the table's rows is worth a note, and a doubt where its standard is named.
        yields: the noun also stands in lines of other parts (``4 mm tube`` of a fitting) and yields to any of them.
        unless: words beside which the noun names no such part (``spark plug``, ``key ring``).
        uniform_length: every rule of the family treats lengths by comparison only, so that lines which differ in the
            length alone may be read from one stencil (``service.reading.stencil``).
        mates: how the part meets bores, shafts and threads, where that is not plain from its dimensions.
        alone: property classes that, beside a thread, name the family where no noun does (``M4x50 12.9``).
        inch_order, inch_standard: the designation of the inch series, used where the thread is a unified one.
        words: further words that this family understands in a line.
    """

    name: str
    size_names: str
    key: str
    nouns: Mapping[str, tuple[str, ...]]
    order: str
    standards: tuple[Standard, ...] = ()
    layouts: tuple[Layout, ...] = ()
    labels: Mapping[str, str] = field(default_factory=dict)
    thread: str | None = None
    table: str | None = None
    codes: tuple[Code, ...] = ()
    needs: tuple[str, ...] = ()
    identity: tuple[str, ...] = ()
    tolerance_class: str | None = None
    question: str = ""
    ratings: tuple[str, ...] = ()
    plain_m: bool = False
    plain_thread: bool = False
    length_says: str = ""
    refine: Refine | None = None
    examples: tuple[Example, ...] = ()
    source: str = COMMON_PRACTICE
    kin: tuple[str, ...] = ()
    generic: bool = False
    listed_lengths: bool = True
    listed_sizes: bool = True
    yields: bool = False
    unless: frozenset[str] = frozenset()
    uniform_length: bool = False
    mates: Mates = Mates()
    alone: frozenset[str] = frozenset()
    inch_order: str = ""
    inch_standard: str = ""
    words: frozenset[str] = frozenset()

    @cached_property
    def sizes(self) -> SizeTable | None:
        """The family's table of sizes, read once."""
        return size_table(self.table, self.key) if self.table else None

    @cached_property
    def by_standard(self) -> Mapping[str, Standard]:
        """The family's standards by name."""
        return {standard.name: standard for standard in self.standards}

    @cached_property
    def usual_standards(self) -> tuple[str, ...]:
        """The standards to name where the line names none."""
        return tuple(standard.name for standard in self.standards[:2])

    @cached_property
    def needed(self) -> tuple[tuple[str, ...], ...]:
        """``needs``, each as its alternatives."""
        return tuple(tuple(need.split("|")) for need in self.needs)

    @cached_property
    def identifying(self) -> tuple[tuple[str, ...], ...]:
        """``identity``, each key as its alternatives."""
        return tuple(tuple(key.split("|")) for key in self.identity)

    @cached_property
    def label_keys(self) -> Mapping[str, str]:
        """Label -> dimension key: the usual ones, then the family's own."""
        return {**USUAL_LABELS, **self.labels}


USUAL_LABELS: Mapping[str, str] = {
    "od": "outer_diameter",
    "id": "bore",
    "bore": "bore",
    "hole": "hole_diameter",
    "length": "length",
    "height": "height",
    "thickness": "thickness",
    "depth": "length",
    "width": "width",
    "wire": "wire_diameter",
    "section": "cross_section",
    "flange": "flange_diameter",
    "teeth": "teeth",
    "pitch": "pitch",
    "lead": "lead",
    "starts": "starts",
    "shoulder": "shoulder_diameter",
    "shaft": "shaft_size",
    "slot": "slot_width",
    "belt": "belt_width",
    "tube": "tube_diameter",
    "free length": "free_length",
    "across flats": "across_flats",
    "head": "head_diameter",
}
"""What a label means in most families; a family's own ``labels`` come first."""
