"""Readings and checks made by hand, so that judging is tested without the reader."""

from collections.abc import Callable
from decimal import Decimal

import pytest

from reference import fits, threads
from reference.quantities import Dimension, Limits
from service.reading.model import LineReading, Reading
from service.verdict.judge import judge_line
from service.verdict.mates import parse_check
from service.verdict.model import Verdict

MakeReading = Callable[..., Reading]
MakeVerdict = Callable[..., Verdict]


@pytest.fixture
def reading() -> MakeReading:
    """Make a reading: sizes as ``"5 m6"``, ``"20"`` or limits ``"5.4..5.6"``, threads as ``thread="M4"``."""

    def make(family: str, missing: tuple[str, ...] = (), order_text: str = "", **sizes: str) -> Reading:
        attributes = {key: sizes.pop(key) for key in ("property_class", "grade") if key in sizes}
        dimensions: dict[str, Dimension] = {}
        for key, text in sizes.items():
            size, _, rest = text.partition(" ")
            thread = threads.parse(text) if key in ("thread", "internal_thread") else None
            if thread is not None:
                dimensions[key] = thread
            elif ".." in text:
                lower, upper = map(Decimal, text.split(".."))
                dimensions[key] = Limits((lower + upper) / 2, lower, upper)
            else:
                dimensions[key] = fits.limits(Decimal(size), rest) if rest else Limits(Decimal(size))
        return Reading(family, (), "", "stated", dimensions, missing, order_text=order_text, attributes=attributes)

    return make


@pytest.fixture
def verdict() -> MakeVerdict:
    """Judge readings made by hand against a mate in its short form."""

    def judge(*readings: Reading, question: str | None = None, **check: str) -> Verdict:
        state = "unread" if not readings else "clear" if len(readings) == 1 else "ambiguous"
        line = LineReading("by hand", state, readings, question)
        return judge_line(line, parse_check({"line": "by hand", **check}))

    return judge
