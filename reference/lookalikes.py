"""Near misses between inch and metric: which size is taken for which, by how much they differ, what tells them apart.

Only the pairs are a table; the differences follow from ``reference.threads``. Whether a line of text may mean the
other one is for ``service.reading``.

>>> [(other.name, str(other.difference)) for other in lookalikes(parse("M5"))]
[('10-24 UNC', '-0.174'), ('10-32 UNF', '-0.174')]
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache, lru_cache
from types import MappingProxyType

from reference import tables
from reference.quantities import Limits, ThreadSize
from reference.threads import ThreadError, limits, parse
from reference.units import length, tidy

CALLIPER = Decimal("0.02")
"""What a workshop calliper can be out by [mm], either way: common practice."""

PITCH_GAUGE = Decimal("0.03")
"""The least difference in pitch, as a share, that a pitch gauge shows on a short thread: common practice."""


@dataclass(frozen=True, slots=True)
class LookAlike:
    """A size that is taken for another.

    ``difference`` is its diameter less the other's [mm], of threads between the basic major diameters.
    ``pitch_difference`` is the share by which its pitch is larger; ``turns_until_binding`` how many turns of the two
    threads in each other bring them half a pitch out of step: they bind before. Both are None for plain sizes and for
    equal pitches. ``told_apart_by`` names the instruments that tell the two, none of them sure where it is empty.
    """

    name: str
    diameter: Decimal
    difference: Decimal
    pitch_difference: Decimal | None
    turns_until_binding: Decimal | None
    told_apart_by: tuple[str, ...]
    source: str


@cache
def _pairs(kind: str) -> Mapping[str, tuple[tuple[str, str], ...]]:
    """Return for each size the sizes that are taken for it, each with its source."""
    pairs: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for row in tables.load("inch_metric_lookalikes"):
        if row.text("kind") == kind:
            pairs[row.text("metric")].append((row.text("other"), row.source))
            pairs[row.text("other")].append((row.text("metric"), row.source))
    return MappingProxyType({size: tuple(others) for size, others in pairs.items()})


def _outside(thread: ThreadSize) -> Limits | None:
    """Return the limits of the outside diameter in the usual class, or None where none are held."""
    try:
        return limits(thread, "6g" if thread.system == "metric" else "2A").major
    except ThreadError:
        return None


def _gap(one: Limits, other: Limits) -> Decimal:
    """Return the gap between two ranges of size [mm]; negative where they overlap."""
    return max(one.low - other.high, other.low - one.high)


def _instruments(thread: ThreadSize, other: ThreadSize, pitch_difference: Decimal | None) -> tuple[str, ...]:
    mine, theirs = _outside(thread), _outside(other)
    gap = _gap(mine, theirs) if mine and theirs else Decimal(-1)
    found = []
    if gap > 2 * CALLIPER:
        found.append("calliper")
    elif gap > 0:
        found.append("micrometer")
    if pitch_difference is not None and abs(pitch_difference) > PITCH_GAUGE:
        found.append("pitch gauge")
    return tuple(found)


def _compare(thread: ThreadSize, name: str, source: str) -> LookAlike:
    other = parse(name)
    if other is None or other.pitch is None or thread.pitch is None:
        raise tables.TableError(f"inch_metric_lookalikes.csv: {name!r} is no thread with a pitch")
    apart = other.pitch - thread.pitch
    share = tidy((apart / thread.pitch).quantize(Decimal("0.001"))) or None  # pitches are printed rounded
    turns = share and tidy((min(other.pitch, thread.pitch) / abs(apart) / 2).quantize(Decimal("0.1")))
    return LookAlike(
        other.designation,
        other.diameter,
        tidy(other.diameter - thread.diameter),
        share,
        turns,
        _instruments(thread, other, share),
        source,
    )


@lru_cache(maxsize=1024)
def lookalikes(thread: ThreadSize) -> tuple[LookAlike, ...]:
    """Return the threads that are taken for this one, in the order of the table.

    >>> near = lookalikes(parse("M5"))[1]
    >>> near.name, near.turns_until_binding, near.told_apart_by
    ('10-32 UNF', Decimal('63.5'), ('micrometer',))
    """
    return tuple(_compare(thread, *other) for other in _pairs("thread").get(thread.designation, ()))


@lru_cache(maxsize=1024)
def plain_lookalikes(diameter: Decimal) -> tuple[LookAlike, ...]:
    """Return the plain diameters (pins, shafts, bores) that are taken for this one [mm].

    >>> [(other.name, str(other.difference)) for other in plain_lookalikes(Decimal(3))]
    [('1/8 in', '0.175')]
    >>> [other.name for other in plain_lookalikes(Decimal("3.175"))]
    ['3 mm']
    """
    found = []
    for size, others in _pairs("plain").items():
        if length(size) == diameter:
            for name, source in others:
                value = length(name)
                shown = name if name.endswith("in") else f"{name} mm"
                difference = tidy(value - diameter)
                tool = "calliper" if abs(difference) > 2 * CALLIPER else "micrometer"
                found.append(LookAlike(shown, value, difference, None, None, (tool,), source))
    return tuple(found)
