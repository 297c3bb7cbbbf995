"""Answers a receipt check: what the measured pieces prove, what that says of the bag, and if its label can be true.

>>> from service.receipts.intake import parse_receipt
>>> fields = {"limits": {"lower": 4.982, "upper": 5.0}, "measured": [4.99, 4.985], "uncertainty": 0.03}
>>> found = check(parse_receipt(fields))
>>> found.outcome.decision, found.outcome.worst.measured
('not provable', Decimal('4.985'))
"""

import math
from decimal import ROUND_CEILING, Decimal

from reference import fits, tables
from reference.families import by_name
from reference.quantities import Limits
from service.reading.model import LineReading
from service.receipts.intake import HOLES
from service.receipts.model import LabelCheck, LabelWord, Receipt, ReceiptCheck, Sample
from service.strength.measuring import MeasuredDecision, decide

CONFIDENCE = Decimal("0.95")
"""Confidence with which a sample speaks for its lot."""

LABEL_GRADE = "IT13"
"""Tolerance grade that a label's size is given where its limits are not known; common practice."""


def check(receipt: Receipt) -> ReceiptCheck:
    """Return what the measured pieces of a receipt prove."""
    outcome = decide(receipt.lower, receipt.upper, receipt.measured, receipt.uncertainty.value)
    sample = None
    if all(piece.inside >= 0 for piece in outcome.pieces):
        sample = sample_of(len(receipt.measured), receipt.lot)
    label = None if receipt.label is None else _label(receipt.label, receipt)
    return ReceiptCheck(receipt, outcome, sample, label, _advice(receipt, outcome))


def sample_of(measured: int, lot: int | None, confidence: Decimal = CONFIDENCE) -> Sample:
    """Return what a sample without a piece outside its limits says of the lot.

    Without a lot the share p is that for which (1 - p)^n is one minus the confidence; in a lot of known size it is the
    largest number of pieces outside that such a sample would still miss with that chance (hypergeometric).
    """
    miss = float(1 - confidence)
    if lot is None:
        share = 1 - miss ** (1 / measured)
    else:
        outside = 0
        while outside < lot - measured and _all_missed(lot, outside + 1, measured) > miss:
            outside += 1
        share = outside / lot
    percent = Decimal(repr(share)).quantize(Decimal("0.001"), ROUND_CEILING)
    of_lot = f"of the {lot} in the bag" if lot is not None else "of a large bag"
    text = f"{measured} measured, none outside: with {confidence:.0%} confidence at most {percent:.1%} {of_lot} are."
    if lot == measured:
        text = f"All {measured} were measured, none is outside."
    return Sample(
        measured,
        lot,
        confidence,
        percent,
        math.ceil(math.log(miss) / math.log(0.95)),
        text,
        "binomial: (1 - p)^n = 5 %" if lot is None else "hypergeometric, no piece outside in the sample",
    )


def _all_missed(lot: int, outside: int, measured: int) -> float:
    """Return the chance that a sample holds none of the pieces outside."""
    return math.comb(lot - outside, measured) / math.comb(lot, measured)


def _advice(receipt: Receipt, outcome: MeasuredDecision) -> str:
    """Say which instrument would decide where this one does not."""
    if outcome.decision != "not provable":
        return ""
    needed = outcome.needed_uncertainty
    if needed is None:
        return "A piece lies on or outside a limit: no finer instrument can prove it conforming; send it back or sort."
    rows = [row for row in tables.load("instruments") if row.decimal("uncertainty") < needed]
    if receipt.dimension is not None:
        inside = receipt.dimension in HOLES
        rows = [row for row in rows if row.text("feature").startswith("hole") == inside]
    finer: dict[str, str] = {}
    for row in rows:
        finer.setdefault(row.text("instrument"), f"{row.text('instrument')} (U {row.text('uncertainty')} mm)")
    named = f", for example {' or '.join(list(finer.values())[:2])}" if finer else ""
    return f"An uncertainty below {needed} mm would prove the worst piece{named}."


def _label(label: LineReading, receipt: Receipt) -> LabelCheck:
    """Hold the measured pieces against each meaning of the label."""
    words: list[LabelWord] = []
    said: list[str] = []
    families = by_name()
    for reading in label.readings:
        family = families.get(reading.family)
        key = receipt.dimension or (family.key if family else "")
        size = reading.dimensions.get(key)
        if not isinstance(size, Limits):
            continue
        lower, upper = _bounds(size)
        word = _label_word(decide(lower, upper, receipt.measured, receipt.uncertainty.value))
        words.append(word)
        said.append(f"{reading.family} with {key.replace('_', ' ')} {lower}..{upper}: {word}")
    if not words:
        return LabelCheck(label.line, "not decided", "The label says nothing that was measured.")
    if "agrees" in words:
        overall: LabelWord = "agrees"
    else:
        overall = "contradicts" if set(words) == {"contradicts"} else "not decided"
    measured = " to ".join(str(one) for one in dict.fromkeys((min(receipt.measured), max(receipt.measured))))
    return LabelCheck(label.line, overall, f"Measured {measured}; {'; '.join(said)}.")


def _bounds(size: Limits) -> tuple[Decimal, Decimal]:
    if size.lower is not None and size.upper is not None:
        return size.lower, size.upper
    width = fits.tolerance(LABEL_GRADE, min(size.nominal, Decimal(500)))
    return size.nominal - width, size.nominal + width


def _label_word(outcome: MeasuredDecision) -> LabelWord:
    if outcome.decision == "conforming":
        return "agrees"
    return "contradicts" if outcome.decision == "not conforming" else "not decided"
