"""The fields of an order that are not a part's: amounts with units and packs, days, lead times, lists of names.

Every reader takes the value of a JSON field or the text of a cell, and the path of the field for errors. Words for
units are those of the five languages.

>>> amount("2,5 m", None, "quantity"), lead_time("2-3 Wochen", "lead_time").said
(Amount(number=2500000, unit='length'), '14 to 21 days, 17.5 likely')
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal

from reference import units
from reference.words import LENGTH_UNITS, PACK_WORDS, PIECE_WORDS, fold
from service.orders.leadtime import LONGEST_WAIT, quoted, ranged, recorded
from service.orders.model import MICROMETRES, Amount, LeadTime
from service.verdict.model import CheckError

MOST_PIECES = 10_000_000
LONGEST_NAME = 60
LONGEST_TEXT = 500


MOST_NAMED = 20
"""Names that an error lists at most."""


def some_of(names: Iterable[str]) -> str:
    """Return names as an error lists them: the first ones, and whether there are more.

    >>> some_of(["L1", "L2"]), some_of(f"L{n}" for n in range(30))[-13:]
    ('L1, L2', 'L18, L19, ...')
    """
    listed = list(names)
    return ", ".join(listed[:MOST_NAMED]) + (", ..." if len(listed) > MOST_NAMED else "")


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


_GROUPS = {
    **dict.fromkeys(_words("pair pairs paar paare paire paires par pares paio paia"), 2),
    **dict.fromkeys(_words("dozen dozens dutzend douzaine douzaines docena docenas dozzina dozzine dz"), 12),
    **dict.fromkeys(_words("hundred hundert cent ciento cento"), 100),
    **dict.fromkeys(_words("thousand tausend mille mil tsd"), 1000),
}
"""Word for a group of pieces, folded -> how many they are."""

_PIECES = PIECE_WORDS | _words("stueck st stk pezzi pzi unite unites pieza piezas unidad unita")
_PACKS = PACK_WORDS | _words(
    "boxes bags ve vpe gebinde pkg conditionnement envase confezioni pacco packungen boites cajas bolsas"
)
_LENGTHS = {**LENGTH_UNITS, **dict.fromkeys(_words("lfm laufmeter metri metros meters metres"), Decimal(1000))}

_DAYS = {
    **dict.fromkeys(_words("d day days tag tage tagen jour jours dia dias giorno giorni gg kalendertage"), Decimal(1)),
    **dict.fromkeys(_words("w wk wks week weeks woche wochen wo semaine semaines sem semana semanas"), Decimal(7)),
    **dict.fromkeys(_words("settimana settimane sett"), Decimal(7)),
    **dict.fromkeys(_words("month months monat monate monaten mois mes meses mese mesi"), Decimal(30)),
}
"""Unit of time, folded -> calendar days; a month is taken as 30."""
_WORKING = _words(
    "at arbeitstag arbeitstage arbeitstagen werktage werktagen bd working business ouvrables ouvres laborables habiles"
    " lavorativi"
)
_AT_ONCE = _words("stock lager sofort lagernd immediately immediat disponible disponibile inmediato subito pronto")

_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff]")
_NUMBER = re.compile(r"[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)")
_GROUPED = re.compile(r"\d{1,3}(?:[ '’\u00a0\u202f]\d{3})+")
_DOUBTFUL = re.compile(r"\d{1,3}[.,]\d{3}")
_QUANTITY = re.compile(r"(?P<number>[\d.,'’\s\u00a0\u202f]*\d)\s*(?P<unit>\D*)", re.DOTALL)
_SPAN = re.compile(
    r"(?P<low>\d+(?:[.,]\d+)?)(?:\s*(?:-|–|to|bis|à|a|/|\.\.)\s*(?P<next>\d+(?:[.,]\d+)?))?"
    r"(?:\s*(?:-|–|/|\.\.)\s*(?P<last>\d+(?:[.,]\d+)?))?\s*(?P<unit>[^\d]*)",
    re.IGNORECASE,
)
_GERMAN_DAY = re.compile(r"(?P<day>\d{1,2})\.\s?(?P<month>\d{1,2})\.\s?(?P<year>\d{4})")
_SLASHED_DAY = re.compile(r"(?P<one>\d{1,2})[/-](?P<other>\d{1,2})[/-](?P<year>\d{4})")


# --- texts and names -------------------------------------------------------------------------------------------------


def text(value: object, field: str, longest: int = LONGEST_TEXT, example: str = "index pins") -> str:
    """Return a text, empty where none is given; a number of JSON by its shortest text.

    Raises:
        CheckError: it is no text, or too long.
    """
    if value is None:
        return ""
    if isinstance(value, int | float | Decimal) and not isinstance(value, bool):
        value = f"{value:g}" if isinstance(value, float) else str(value)
    if not isinstance(value, str) or len(value) > longest or _UNPRINTABLE.search(value):
        raise CheckError(field, value, f"text of up to {longest} characters", example)
    return " ".join(value.split())


def names(value: object, field: str) -> tuple[str, ...]:
    """Return names, given as a list or as text with commas, semicolons or blanks between them; each once.

    Raises:
        CheckError: one is no name.
    """
    if value is None:
        return ()
    parts: Sequence[object] = value if isinstance(value, list | tuple) else re.split(r"[,;\s]+", text(value, field))
    found = tuple(text(part, f"{field}[{place}]", LONGEST_NAME, "N1") for place, part in enumerate(parts))
    if isinstance(value, list | tuple) and not all(found):
        raise CheckError(field, value, "a list of ids", '["N1", "N2"]')
    return tuple(dict.fromkeys(name for name in found if name))


def switch(value: object, field: str) -> bool:
    """Return a switch: true, yes, 1, x, or a word for it in the five languages.

    Raises:
        CheckError: it is neither on nor off.
    """
    if isinstance(value, bool) or value is None:
        return bool(value)
    word = fold(str(value).strip())
    if word in {"1", "true", "yes", "y", "x", "ja", "j", "oui", "o", "si", "s", "wahr", "vrai", "verdadero", "vero"}:
        return True
    if word in {"", "0", "false", "no", "n", "nein", "non", "-", "falsch", "faux", "falso"}:
        return False
    raise CheckError(field, value, "yes or no", "yes")


# --- numbers ---------------------------------------------------------------------------------------------------------


def number(value: object, field: str, least: Decimal, most: Decimal, example: str = "14") -> Decimal:
    """Return a number within bounds, with a decimal point or a decimal comma.

    Raises:
        CheckError: it is no number, or out of bounds.
    """
    accepted = f"a number from {least} to {most}"
    if isinstance(value, int | float | Decimal) and not isinstance(value, bool):
        value = str(value)
    written = value.strip() if isinstance(value, str) else ""
    if not _NUMBER.fullmatch(written):
        raise CheckError(field, value, accepted, example)
    found = Decimal(written.replace(",", "."))
    if not least <= found <= most:
        raise CheckError(field, value, accepted, example)
    return units.tidy(found)


def whole(value: object, field: str, least: int = 0, most: int = MOST_PIECES, example: str = "6") -> int:
    """Return a whole number within bounds; ``1 000`` and ``1'000`` group thousands.

    Raises:
        CheckError: it is none, or could be either a thousand or one (``1.000``).
    """
    if isinstance(value, str):
        value = value.strip()
        if _GROUPED.fullmatch(value):
            value = re.sub(r"\D", "", value)
        elif _DOUBTFUL.fullmatch(value):
            raise CheckError(field, value, "a whole number without a sign between thousands", re.sub(r"\D", "", value))
    found = number(value, field, Decimal(least), Decimal(most), example)
    if found != found.to_integral_value():
        raise CheckError(field, value, "a whole number", example)
    return int(found)


def amount(value: object, unit: object, field: str) -> Amount:
    """Return how much is meant: pieces, or a length of what is cut; the unit beside the number or apart.

    Raises:
        CheckError: no number, a unit that is not known, or a unit of packs without their size.
    """
    found, packs = amount_or_packs(value, unit, field)
    if packs:
        raise CheckError(field, f"{value} {unit or ''}".strip(), "pieces, or the size of a pack beside it", "10 pcs")
    return found


def amount_or_packs(value: object, unit: object, field: str) -> tuple[Amount, bool]:
    """Return the amount, and whether it counts packs whose size has to be known.

    Raises:
        CheckError: no number, or a unit that is not known.
    """
    word = fold(text(unit, f"{field} unit", LONGEST_NAME)).strip(" .")
    if isinstance(value, str) and (match := _QUANTITY.fullmatch(value.strip())) and match["unit"].strip():
        if word:
            raise CheckError(field, f"{value} {unit}", "one unit: beside the number or in its own field", "6 pcs")
        value, word = match["number"].strip(), fold(match["unit"].strip(" .()"))
    factor = _LENGTHS.get(word)
    if factor is not None:
        length = number(value, field, Decimal(0), Decimal(MOST_PIECES), "2.5 m") * factor * MICROMETRES
        if length != length.to_integral_value():
            raise CheckError(field, value, "a length to a thousandth of a millimetre", "2.5 m")
        return Amount(int(length), "length"), False
    count = whole(value, field)
    if word in _GROUPS:
        return Amount(count * _GROUPS[word]), False
    if not word or word in _PIECES:
        return Amount(count), False
    if word in _PACKS:
        return Amount(count), True
    raise CheckError(field, f"{value} {word}", "pieces, pairs, dozens, packs, or a length with its unit", "6 pcs")


# --- days and lead times ---------------------------------------------------------------------------------------------


def day(value: object, field: str) -> date | None:
    """Return a day: ISO 8601, or day.month.year with dots; None where none is given.

    Raises:
        CheckError: it is no day, or day and month could be exchanged.
    """
    if value is None or (isinstance(value, str) and not value.strip()):
        return None
    accepted, example = "a day as ISO 8601 has it", "2027-02-01"
    if isinstance(value, date):
        return value
    if not isinstance(value, str):
        raise CheckError(field, value, accepted, example)
    written = value.strip()
    try:
        if match := _GERMAN_DAY.fullmatch(written):
            return date(int(match["year"]), int(match["month"]), int(match["day"]))
        if match := _SLASHED_DAY.fullmatch(written):
            one, other = int(match["one"]), int(match["other"])
            if one <= 12 and other <= 12 and one != other:
                problem = "a day as ISO 8601 has it: day and month could be exchanged here"
                raise CheckError(field, value, problem, example)
            return date(int(match["year"]), min(one, other), max(one, other))
        return date.fromisoformat(written[:10] if written[10:11] in ("T", " ") else written)
    except CheckError:
        raise
    except ValueError:
        raise CheckError(field, value, accepted, example) from None


def lead_time(value: object, field: str) -> LeadTime | None:
    """Return a lead time: days, a range {low, likely, high}, a record of past days, or text (``2-3 weeks``).

    Raises:
        CheckError: it is none of these.
    """
    if value is None or value == "":
        return None
    example = '{"low": 10, "likely": 14, "high": 60}'
    accepted = "days, a range {low, likely, high}, a list of past lead times, or text such as 2-3 weeks"
    try:
        if isinstance(value, Mapping):
            return _from_object(value, field, accepted, example)
        if isinstance(value, list | tuple):
            return recorded(days_list(value, field))
        if isinstance(value, str):
            return _from_text(value, field, accepted)
        return quoted(_days(value, field))
    except CheckError:
        raise
    except ValueError as error:
        raise CheckError(field, value, f"{accepted}; {error}", example) from None


def days_list(value: object, field: str) -> tuple[Decimal, ...]:
    """Return a record: lead times that were really taken [days].

    Raises:
        CheckError: it is no list of days, or an empty one.
    """
    if not isinstance(value, list | tuple) or not 0 < len(value) <= 1000:
        raise CheckError(field, value, "a list of 1 to 1000 lead times in days", "[12, 15, 40]")
    return tuple(_days(one, f"{field}[{place}]") for place, one in enumerate(value))


def _days(value: object, field: str) -> Decimal:
    return number(value, field, Decimal(0), Decimal(LONGEST_WAIT))


def _from_object(value: Mapping[str, object], field: str, accepted: str, example: str) -> LeadTime:
    for name, one in value.items():
        if name not in ("low", "likely", "high", "days", "record"):
            raise CheckError(f"{field}.{name}", one, "low, likely, high; or days; or record", example)
    if set(value) == {"days"}:
        return quoted(_days(value["days"], f"{field}.days"))
    if set(value) == {"record"}:
        return recorded(days_list(value["record"], f"{field}.record"))
    if "days" in value or "record" in value or value.get("low") is None or value.get("high") is None:
        raise CheckError(field, dict(value), accepted, example)
    low, high = (_days(value[name], f"{field}.{name}") for name in ("low", "high"))
    likely = value.get("likely")
    return ranged(low, (low + high) / 2 if likely is None else _days(likely, f"{field}.likely"), high)


def _from_text(value: str, field: str, accepted: str) -> LeadTime:
    words = frozenset(re.findall(r"[^\W\d_]+", fold(value)))
    match = _SPAN.fullmatch(value.strip())
    if match is None:
        if words & _AT_ONCE:
            return quoted(Decimal(0))
        raise CheckError(field, value, accepted, "2-3 weeks")
    unit = frozenset(re.findall(r"[^\W\d_]+", fold(match["unit"])))
    factors = {_DAYS[word] for word in unit if word in _DAYS}
    if (unit and not factors and not unit & _WORKING) or len(factors) > 1:
        raise CheckError(field, value, "days, weeks or months", "2-3 weeks")
    factor = factors.pop() if factors else Decimal(1)
    if unit & _WORKING and factor == 1:
        factor = Decimal(7) / 5
    given = [Decimal(one.replace(",", ".")) * factor for one in match.group("low", "next", "last") if one]
    numbers = [units.tidy(_days(one.quantize(Decimal("0.1")), field)) for one in given]
    if len(numbers) == 1:
        return quoted(numbers[0])
    if len(numbers) == 2:
        return ranged(numbers[0], units.tidy((numbers[0] + numbers[1]) / 2), numbers[1])
    return ranged(numbers[0], numbers[1], numbers[2])
