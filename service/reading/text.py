"""Brings a line into one spelling and cuts it into tokens that evidence can quote."""

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from reference.words import fold

_SIGNS = str.maketrans(
    {
        "×": "x", "✕": "x", "✖": "x", "⨯": "x", "∗": "*", "·": "*", "•": " ",
        "″": '"', "”": '"', "“": '"', "„": '"', "‟": '"', "«": " ", "»": " ",
        "′": "'", "’": "'", "‘": "'", "`": "'",
        "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "‒": "-", "~": "-",
        "⌀": "ø", "∅": "ø", "Ø": "ø", "Φ": "ø", "φ": "ø", "Ф": "ø",
        "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8", "⁄": "/",
        "µ": "u", "μ": "u", "Ω": "ohm", "\u2126": "ohm",
        "²": "2", "º": "°", "㎜": "mm", "，": ",", "．": ".", "（": "(",
        "）": ")", "：": ":", "；": ";", "　": " ", "＊": "*", "＃": "#", "Ｍ": "M", "ｘ": "x", "Ｘ": "x",
        "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\t": " ", "\r": " ", "\n": " ", "_": " ",
    }
)  # fmt: skip
_DIGITS = str.maketrans("０１２３４５６７８９", "0123456789")
_TOKEN = re.compile(
    r"[0-9]+(?:[.,][0-9]+)*"  # 12  12.7  12,7  18.8.2
    r"|(?:(?<![\w.,])|(?<=[xX]))[.,][0-9]+"  # .5  x.8
    r"|[mM]{2}(?=[xX](?:[0-9øD]|$))"  # the unit in 4mmx20mm
    r"|(?<=[0-9])[xX](?=[A-Za-zø]{1,2}[0-9])"  # the sign in 4xM3, 8xD5
    r"|ø(?=[a-zA-Z]{2})"  # the sign in Øext 8
    r"|[^\W\d_]+|[^\w\s]|[\ue000-\uf8ff]"
)
_LONG_WORD = re.compile(r"[^\W\d_]{3,}|(?<![^\W_])[A-Z]{2}(?![^\W_])")
_LEADING_M = re.compile(r"(?<![^\W_.,])(?<![0-9] )m(?=[0-9])")
_TIMES = re.compile(r"(?<=[0-9 ])X(?=[0-9 ])")


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the line: ``kind`` is n(umber), w(ord) or s(ign); ``space`` tells whether blank stood before it."""

    kind: str
    text: str
    low: str
    space: bool
    value: Decimal | None = None


def normalise(line: str) -> str:
    """Return the line in one spelling: the signs of the trade, single blanks, words in small letters.

    Letters beside a number keep their case: H7 and h7 are not the same, nor are M6 and m6 behind a diameter.

    >>> normalise("Ø5×20  DOWEL Pin H7 ½″"), normalise("SHCS m3x10 MM"), normalise("pin 6 m6")
    ('ø5x20 dowel pin H7 1/2"', 'shcs M3x10 mm', 'pin 6 m6')
    """
    if not line.isascii():
        line = line.translate(_SIGNS).translate(_DIGITS)
    pieces = line.replace("''", '"').split()
    before, last = "", len(pieces) - 1
    for k, piece in enumerate(pieces):
        pieces[k] = _spelled(piece, before, k < last)
        before = "0 " if "0" <= piece[-1] <= "9" else " "
    return " ".join(pieces)


@lru_cache(maxsize=4096)
def _spelled(piece: str, before: str, more: bool) -> str:
    """Return a piece of a line, which has no blank in it, in one spelling; what stands around it counts a little."""
    text = f"{before}{piece} " if more else before + piece
    text = _LEADING_M.sub("M", _LONG_WORD.sub(_lower, _TIMES.sub("x", text)))
    return text[len(before) : -1] if more else text[len(before) :]


def _lower(match: re.Match[str]) -> str:
    return match[0].lower()


@lru_cache(maxsize=16384)
def decimal(text: str) -> Decimal | None:
    """Return the number written with a decimal point or comma, or None where it is none (``18.8.2``).

    >>> decimal("12,7"), decimal("1.250,5"), decimal("18.8.2")
    (Decimal('12.7'), Decimal('1250.5'), None)
    """
    commas, points = text.count(","), text.count(".")
    if commas and points:
        if commas == points == 1:
            thousands = "," if text.index(",") < text.index(".") else "."
            return Decimal(text.replace(thousands, "").replace(",", "."))
        return None
    if commas + points > 1:
        return None
    return Decimal(text.replace(",", ".") if commas else text)


@lru_cache(maxsize=32768)
def _token(text: str, space: bool) -> Token:
    first = text[0]
    if "0" <= first <= "9" or (len(text) > 1 and first in ".,"):
        value = decimal(text)
        return Token("w" if value is None else "n", text, text, space, value)
    if first.isalpha() and not "\ue000" <= first <= "\uf8ff":
        return Token("w", text, fold(text) if text != "ø" else "ø", space)
    return Token("s", text, text, space)


@lru_cache(maxsize=2048)
def _chunk(text: str) -> tuple[Token, ...]:
    """Return the tokens of a piece of the line that has no blank in it; the first one has a blank before it."""
    found: list[Token] = []
    end = 0
    for match in _TOKEN.finditer(text):
        start = match.start()
        found.append(_token(match.group(), start > end or start == 0))
        end = match.end()
    return tuple(found)


def tokens(text: str) -> list[Token]:
    """Return the tokens of a normalised line."""
    found: list[Token] = []
    for chunk in text.split():
        found += _chunk(chunk)
    return found


_WORD = re.compile(r"[^\W\d_]+")


@lru_cache(maxsize=2048)
def _chunk_words(text: str) -> frozenset[str]:
    return _one_set(frozenset([fold(word) for word in _WORD.findall(text)]))


@lru_cache(maxsize=4096)
def _one_set(words: frozenset[str]) -> frozenset[str]:
    """Return the same set for equal words: most pieces of lines hold none, or an x."""
    return words


def words(text: str) -> frozenset[str]:
    """Return the folded words of a normalised line, in any order."""
    return frozenset().union(*map(_chunk_words, text.split()))
