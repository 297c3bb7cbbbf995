"""How findings make the verdict of a reading, and how readings make the verdict of a line."""

from collections.abc import Iterable, Sequence
from decimal import Decimal

from service.verdict.model import Finding, JudgedReading, ReadingVerdict, VerdictWord


def worst(findings: Iterable[Finding]) -> ReadingVerdict:
    """Return the verdict of one reading: wrong before open before marginal before fits; notes do not count.

    Wrong comes before open because no value that is still to be stated can put it right.
    """
    weights = {finding.weight for finding in findings}
    if "wrong" in weights:
        return "wrong"
    if "open" in weights:
        return "open"
    return "marginal" if "marginal" in weights else "fits"


def combine(judged: Sequence[JudgedReading]) -> tuple[VerdictWord, Decimal | None]:
    """Return the verdict of a line from all its readings, and the worst share where it is fits or marginal.

    All fits make ``fits``, all wrong ``wrong``, fits and marginal only ``marginal``; any other mix, or an open one,
    makes ``ask``; no reading at all is ``unread``.
    """
    if len(judged) == 1:
        verdict = judged[0].verdict
        return ("ask", None) if verdict == "open" else (verdict, judged[0].share)
    verdicts = {reading.verdict for reading in judged}
    if not verdicts:
        return "unread", None
    if verdicts == {"wrong"}:
        return "wrong", None
    if not verdicts <= {"fits", "marginal"}:
        return "ask", None
    shares = [reading.share for reading in judged if reading.share is not None]
    return "marginal" if "marginal" in verdicts else "fits", min(shares, default=None)
