"""The one question to send to the supplier, in plain words, built from what the readings leave open."""

from collections.abc import Sequence

from reference.quantities import Dimension, Limits, ThreadSize
from service.reading.model import Reading


def contradiction(standard: str, family: str, words: str) -> str:
    """Return the question for a standard's number that contradicts the words."""
    return f"{standard} is a {family}, but the line says {words}. Which one is wanted?"


def _value(dimension: Dimension) -> str:
    if isinstance(dimension, Limits):
        number = format(dimension.nominal.normalize(), "f")
        return f"{number} mm" if dimension.tolerance_class is None else f"{number} mm ({dimension.tolerance_class})"
    if isinstance(dimension, ThreadSize):
        return dimension.designation
    if isinstance(dimension, str):
        return dimension
    return ", ".join(f"{name} {rating.value} {rating.unit}" for name, rating in dimension.items())


_TELLING = (
    "outer_diameter shoulder_diameter small_end_diameter bore thread internal_thread"
    " screw_size shaft_size hole_diameter groove_diameter cross_section wire_diameter"
    " teeth pitch lead belt_width pitch_length slot_width"
    " width height thickness length size_class rating"
).split()
"""Dimensions that tell two readings apart for a supplier, the most telling first."""


def describe(reading: Reading, other: Sequence[Reading] = ()) -> str:
    """Return a reading in words: its family and the dimensions in which it differs from the others."""
    shown: list[str] = []
    for key in _TELLING:
        dimension = reading.dimensions.get(key)
        if dimension is None or (other and all(item.dimensions.get(key) == dimension for item in other)):
            continue
        shown.append(f"{key.replace('_', ' ')} {_value(dimension)}")
    return reading.family + (f" ({', '.join(shown[:3])})" if shown else "")


LINE = "\ue005"
"""Stands in a question where the line is to be quoted: a question is made once for all lines that differ in a count."""


def quoted(question: str | None, line: str) -> str | None:
    """Return the question with the line in its place."""
    return None if question is None else question.replace(LINE, line.strip())


def ask(readings: Sequence[Reading], doubts: Sequence[str], asks: Sequence[str]) -> str | None:
    """Return the question about a line, ``LINE`` in its place, or None where nothing is open."""
    unique = list(dict.fromkeys(doubts))
    if len(readings) > 1:
        options = []
        for k, reading in enumerate(readings[:4]):
            others = [item for j, item in enumerate(readings) if j != k]
            options.append(describe(reading, others))
        options = list(dict.fromkeys(options))
        text = "; or ".join(f"{'abcd'[k]}) {option}" for k, option in enumerate(options))
        own = unique[0] + " " if unique else ""
        return f"{own}Your line '{LINE}' can mean {text}. Which do you send?"
    if unique:
        return f"Your line '{LINE}': {' '.join(unique[:2])}"
    if asks:
        return f"Your line '{LINE}' is read with {', '.join(dict.fromkeys(asks))}. Is that what you send?"
    return None
