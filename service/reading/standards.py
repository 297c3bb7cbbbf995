"""Finds the standards that a line names (``DIN EN ISO 4762``, ``GB/T 119``, ``ASME B18.8.2``) and blanks them out."""

import re
from functools import lru_cache

from reference.families import by_standard
from reference.families.facts import StandardMention
from service.reading.scan import BLANK

_STANDARD = re.compile(
    r"(?<![a-z0-9])((?:din|iso|uni|nf|bs|en|ansi|asme|gb|jis)(?:[ /:.-]{0,3}(?:din|en|iso|asme|ansi))*)"
    r"(?:[ /:.-]{0,3}([a-z](?=[ .]?\d)|t(?=[ ./-]?\d)))?"
    r"[ /:.-]{0,3}(\d{1,6}(?:\.\d{1,3})*(?:(?<=\.\d)m(?![a-z]))?)(?![.,]?\d)"
    r"(?:-(\d{1,2})(?![\w.,]))?(?::(?:19|20)\d\d)?",
    re.IGNORECASE,
)
_AMOUNT = re.compile(r"(?:^| )[0-9]+(?:[.,][0-9]+)? ?$")
_ORDINARY_WORDS = frozenset({"en", "uni", "bs", "nf", "jis"})
"""Also ordinary words or too short to be sure of: they name a standard only with three digits or more."""


@lru_cache(maxsize=4096)
def _name(bodies: str, letter: str | None, number: str, part: str | None) -> tuple[str, bool, bool] | None:
    """Return the standard's name, whether it is known, and whether the part belongs to the name."""
    low = bodies.lower()
    known = by_standard()
    if number.startswith("0"):
        return None
    number = number.upper()  # ASME B18.8.5M
    digits = number.replace(".", "")
    if "iso" in low:
        body = "ISO"
    elif "din" in low:
        body = "DIN"
    elif "gb" in low:
        body = "GB/T"
        number = number.split(".")[0] if f"GB/T {number}" not in known else number
    elif "asme" in low or "ansi" in low:
        body = "ASME"
    elif low.startswith("jis"):
        body = "JIS"
    else:
        if len(digits) < 3:
            return None
        body = low.split()[0].rstrip("/:.-").upper()
    if body == "GB/T" and letter and letter.lower() != "t":
        return None
    if letter and body in {"ASME", "JIS"}:
        number = f"{letter.upper()}{'' if body == 'ASME' else ' '}{number}"
    elif letter and body != "GB/T":
        return None
    if body == "JIS" and not letter:
        return None
    name = f"{body} {number}"
    if part and f"{name}-{part}" in known:
        return f"{name}-{part}", True, True
    return name, name in known, False


def find(text: str) -> tuple[tuple[StandardMention, ...], str]:
    """Return the standards of a normalised line and the line with them blanked out.

    >>> find("DIN EN ISO 8734 - 5 x 20")[0][0].name
    'ISO 8734'
    """
    found: list[StandardMention] = []
    pieces: list[str] = []
    end = 0
    for match in _STANDARD.finditer(text):
        if match[1].lower() == "gb" and len(match[3]) < 3 and _AMOUNT.search(text[: match.start()]):
            continue  # 64 GB 2 pcs
        named = _name(match[1], match[2], match[3], match[4])
        if named is None:
            continue
        name, known, with_part = named
        stop = match.end() if with_part or match[4] is None else match.start(4) - 1
        found.append(StandardMention(name, text[match.start() : stop].strip(), known))
        pieces += (text[end : match.start()], " ", BLANK, " ")
        end = stop
    if not found:
        return (), text
    pieces.append(text[end:])
    return tuple(found), "".join(pieces)
