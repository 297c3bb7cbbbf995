"""Judges a part that only has to be there: a tool, an adapter, a cable."""

from service.reading.model import Reading
from service.verdict.fields import Fields, known
from service.verdict.model import CheckError, Finding, FitWanted, JudgedReading, PresenceMate

_FOUND = Finding("present", "fits", "it only has to be there", {}, "the check")


def from_text(text: str, field: str) -> PresenceMate:
    """Return the presence of a short form: ``yes``.

    Raises:
        CheckError: the text says something else.
    """
    if text.lower() not in ("yes", "1", "true"):
        raise CheckError(field, text, "yes", "yes")
    return PresenceMate("to be there")


def from_fields(given: Fields, field: str) -> PresenceMate:
    """Return the presence of an object, which has no fields but its kind.

    Raises:
        CheckError: it has.
    """
    known(given, (), field)
    return PresenceMate("to be there")


def judge(reading: Reading, mate: PresenceMate, fit: FitWanted | None) -> JudgedReading:
    """Accept any part that was read."""
    return JudgedReading(reading, "fits", None, (_FOUND,))
