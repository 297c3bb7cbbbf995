"""What should stand on the order instead: the designation of a part that goes with the mate.

Every proposal is read again by the reader and judged like any line, so none is offered that does not pass.
Screws keep their kind and class and change length or thread; pins change size. A length that the standard lists comes
first, then a nominal length of ISO 888, which is marked as rare.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import cache, lru_cache
from itertools import chain
from typing import NamedTuple

from reference import tables
from reference.families import by_name
from reference.quantities import Limits, ThreadSize
from reference.sizes import Size
from service.reading import read
from service.reading.model import Reading
from service.verdict import bore, clamp
from service.verdict.model import BoreMate, ClampMate, Finding, FitWanted, ReadingVerdict
from service.verdict.roles import HEADED


class Proposal(NamedTuple):
    """An order text, how it is judged, whether the part is rare, and what to know about it."""

    text: str
    verdict: ReadingVerdict
    share: Decimal | None = None
    rare: bool = False
    findings: tuple[Finding, ...] = ()


PINS: Mapping[str, tuple[str, ...]] = {
    "parallel pin": ("ISO 8734 - {d} - A - St", "ISO 2338 - {d} m6 - St", "ISO 2338 - {d} h8 - St"),
    "parallel pin with internal thread": ("ISO 8735 - {d} - A - St",),
    "slotted spring pin": ("ISO 8752 - {d} - St", "ISO 13337 - {d} - St"),
    "coiled spring pin": ("ISO 8750 - {d} - St",),
}
"""Family -> what its usual standards call a pin, in the order of preference."""

_LENGTH_PLACE = "<length>"


# --- pins for a bore -------------------------------------------------------------------------------------------------


def pin_for(readings: Sequence[Reading], mate: BoreMate, fit: FitWanted | None) -> Proposal | None:
    """Return the best standard pin of the readings' kinds for a bore, or None where they name none or none goes.

    It keeps the length of the line where the standard lists that, and else takes the next one listed.
    """
    family = next((reading.family for reading in readings if reading.family in PINS), None)
    pin = None if family is None else _pin(family, mate, fit)
    lengths = {_length(reading) for reading in readings if reading.family in PINS}
    wanted = lengths.pop() if len(lengths) == 1 else None
    if pin is None or wanted is None:
        return None if pin is None else pin.proposal
    length = next((one for one in pin.lengths if one >= wanted), wanted)
    proposal = pin.proposal._replace(text=pin.proposal.text.replace(_LENGTH_PLACE, str(length)))
    if length == wanted:
        return proposal
    text = f"{pin.standard} lists no {wanted} mm for this size; {length} mm is the next length"
    note = Finding("length-not-listed", "note", text, {"wanted": wanted, "length": length}, pin.source)
    return proposal._replace(findings=(note,))


def _length(reading: Reading) -> Decimal | None:
    length = reading.dimensions.get("length")
    return length.nominal if isinstance(length, Limits) else None


class _Pin(NamedTuple):
    proposal: Proposal
    standard: str
    lengths: tuple[Decimal, ...]
    source: str


@lru_cache(maxsize=512)
def _pin(family: str, mate: BoreMate, fit: FitWanted | None) -> _Pin | None:
    """Return the best pin of a kind for a bore, its length left open."""
    found: list[_Pin] = []
    for name in dict.fromkeys((family, "parallel pin" if family.startswith("parallel") else family)):
        for designation in PINS[name]:
            for reading in read(designation.format(d=mate.diameter.nominal)).readings:
                row = _row(reading, mate.diameter.nominal)
                if reading.family == name and row is not None and row.standard in reading.standards:
                    judged = bore.judge(reading, mate, fit)
                    proposal = Proposal(reading.order_text, judged.verdict, judged.share)
                    found.append(_Pin(proposal, row.standard, row.lengths, row.source))
    fitting = next((pin for pin in found if pin.proposal.verdict == "fits"), None)
    nearly = [pin for pin in found if pin.proposal.verdict == "marginal"]
    return fitting or max(nearly, key=lambda pin: pin.proposal.share or 0, default=None)


def _row(reading: Reading, size: Decimal | str) -> Size | None:
    """Return the row of the reading's standard in its family's table, or of any standard where it names none."""
    family = by_name().get(reading.family)
    if family is None or family.sizes is None:
        return None
    found = (family.sizes.find(size, standard) for standard in (*reading.standards, None))
    return next((row for row in found if row is not None), None)


# --- a screw for a stack ---------------------------------------------------------------------------------------------


def screw_for(reading: Reading, mate: ClampMate) -> Proposal | None:
    """Return the same screw in a length, and with the thread, that clamps the stack; None where no length does."""
    thread = reading.dimensions.get("thread")
    if reading.family not in HEADED or not isinstance(thread, ThreadSize) or thread.system != mate.into.thread.system:
        return None
    wanted = mate.into.thread
    screw = clamp.screw_of(reading, wanted)
    listed = _listed(reading, wanted)
    if wanted.designation != thread.designation:
        screw = screw._replace(threaded=listed.threaded)
    found = length_for(screw, listed.lengths, mate)
    if found is None:
        return None
    length, verdict = found
    text = _with_length(reading.order_text.replace(thread.designation, wanted.designation, 1), _length(reading), length)
    rare = bool(listed.lengths) and length not in listed.lengths
    note = (_beyond(reading, length, wanted, listed),) if rare else ()
    return None if text is None else Proposal(text, verdict, rare=rare, findings=note)


class _Listed(NamedTuple):
    standard: str
    lengths: tuple[Decimal, ...]
    threaded: Decimal | None
    source: str


def _listed(reading: Reading, thread: ThreadSize) -> _Listed:
    """Return what the standard of the screw lists for a thread."""
    row = _row(reading, thread.designation)
    if row is None:
        return _Listed("", (), None, "")
    threaded = row.dimensions.get("thread_length")
    known = threaded.nominal if isinstance(threaded, Limits) else None
    return _Listed(row.standard, row.lengths, known, row.source)


@cache
def preferred_lengths() -> tuple[Decimal, ...]:
    """Return the nominal lengths of ISO 888 [mm], first and second choice, in order."""
    return tuple(row.decimal("length") for row in tables.load("preferred_lengths"))


@lru_cache(maxsize=256)
def length_for(
    screw: clamp.Screw, listed: tuple[Decimal, ...], mate: ClampMate
) -> tuple[Decimal, ReadingVerdict] | None:
    """Return the length that clamps best: one that fits before one that is marginal, a listed one before a rare one."""
    reach = clamp.reach_wanted(screw, mate)
    least, most = mate.grip, 2 * mate.grip + 10 * screw.thread.diameter
    if reach is not None:
        middle = clamp.grip_of(mate).middle
        least, most = max(least, middle + reach.least), min(most, middle + reach.most)
    others = (length for length in preferred_lengths() if length not in listed)
    marginal = None
    for length in chain(listed, others):
        if mate.grip < length and least <= length <= most:
            verdict = clamp.assess(screw, length, mate).verdict
            if verdict == "fits":
                return length, verdict
            if verdict == "marginal" and marginal is None:
                marginal = length, verdict
    return marginal


def _with_length(text: str, old: Decimal | None, new: Decimal) -> str | None:
    """Return the designation with another length; None where it holds no length to replace."""
    if _LENGTH_PLACE in text:
        return text.replace(_LENGTH_PLACE, str(new))
    places = list(re.finditer(rf"(?<=x ){re.escape(str(old))}(?![\d.])", text))
    return f"{text[: places[-1].start()]}{new}{text[places[-1].end() :]}" if places else None


def _beyond(reading: Reading, length: Decimal, thread: ThreadSize, listed: _Listed) -> Finding:
    """Say of a length that the standard does not list that it is hard to find."""
    lengths = list(dict.fromkeys(one for one in (_length(reading), length) if one and one not in listed.lengths))
    names = " and ".join(str(one) for one in lengths)
    verb = "lies" if len(lengths) == 1 else "lie"
    text = (
        f"{names} {verb} beyond the lengths that {listed.standard} lists for {thread.designation}"
        f" ({listed.lengths[0]} to {listed.lengths[-1]} mm): hard to find"
    )
    return Finding("rare-length", "note", text, {"listed_to": listed.lengths[-1], "length": length}, listed.source)
