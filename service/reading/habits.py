"""What one supplier means by a sign: narrows the readings of its lines, and says so as evidence.

A habit is a fact that the buyer has learnt ("here M on a pin means the thread"). It decides only between readings that
a line has anyway: it never makes one, readings of other parts stay, and so does every doubt.
"""

import re
from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from typing import NamedTuple

from service.reading.counts import take
from service.reading.model import Because, LineReading, Reading
from service.reading.questions import ask, quoted
from service.reading.reader import meaning, read
from service.reading.text import normalise


class Habit(NamedTuple):
    """``sign`` before a size, in a line of the supplier on a ``part``, names the dimension ``means``.

    ``part`` is a family or a noun in its name (``pin``), ``means`` one of the words of ``Reading.size_names``.
    """

    supplier: str
    sign: str
    part: str
    means: str
    noted_on: date

    @property
    def source(self) -> str:
        """Where the evidence comes from, as it is shown."""
        return f"habit of supplier {self.supplier}, noted {self.noted_on.isoformat()}"


@lru_cache(maxsize=4096)
def read_from(line: str, habits: tuple[Habit, ...]) -> LineReading:
    """Return what a line means when it comes from a supplier with these habits.

    >>> habit = Habit("A", "M", "pin", "internal thread", date(2027, 1, 11))
    >>> found = read_from("M5 dowel pin, 20 long", (habit,))
    >>> [(reading.size_names, reading.because[-1].source) for reading in found.readings]
    [('internal thread', 'habit of supplier A, noted 2027-01-11')]
    """
    plain = read(line)
    told = [(habit, text) for habit in habits if (text := _sign(habit, line))]
    if not told or len(plain.readings) < 2:
        return plain
    found = meaning(take(normalise(line)).rest)
    drafts = found.drafts
    kept = list(zip(range(len(drafts)), found.answer.readings, strict=True))
    for habit, text in told:
        kept = _narrowed(kept, habit, text)
    if len(kept) == len(drafts):
        return plain
    # A doubt may stand with a reading that is gone and still be about the whole line.
    doubts = found.doubts
    readings = tuple([reading for _, reading in kept])
    asks = [text for place, _ in kept for text in drafts[place].asks]
    return plain._replace(
        state="ambiguous" if doubts or len(readings) > 1 else "clear",
        readings=readings,
        question=quoted(ask(readings, doubts, asks), line),
    )


def _sign(habit: Habit, line: str) -> str:
    """Return the piece of the line in which the sign stands before a size, empty where it does not."""
    found = re.search(rf"(?<!\w){re.escape(habit.sign)}\s?\d+(?:[.,]\d+)?", line)
    return found[0] if found else ""


def _concerns(habit: Habit, reading: Reading) -> bool:
    return f" {habit.part} " in f" {reading.family} "


def _narrowed(kept: Sequence[tuple[int, Reading]], habit: Habit, text: str) -> list[tuple[int, Reading]]:
    """Return the readings without those of the part that name another dimension, where one names this one."""
    of_part = [reading for _, reading in kept if _concerns(habit, reading)]
    meant = [reading for reading in of_part if reading.size_names == habit.means]
    if not meant or len(meant) == len(of_part):
        return list(kept)
    said = Because(text, f"{habit.sign} names the {habit.means} here", habit.source)
    return [
        (place, _supported(reading, said) if _concerns(habit, reading) else reading)
        for place, reading in kept
        if not _concerns(habit, reading) or reading.size_names == habit.means
    ]


def _supported(reading: Reading, said: Because) -> Reading:
    evidence = "implied" if reading.evidence == "assumed" else reading.evidence
    return reading._replace(evidence=evidence, because=(*reading.because, said))
