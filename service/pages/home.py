"""The first page: one line or many to be proofed, and examples of the river sampler."""

import csv
from collections.abc import Mapping, Sequence
from importlib.resources import files
from typing import Any, NamedTuple

from service.pages.problems import facts
from service.pages.site import page

FIELDS = ("line", "kind", "mate", "fit", "lines")
"""The fields of the forms of the first page."""


class Example(NamedTuple):
    """A check of the river sampler: the line, the mate and the fit wanted, what it is for, its verdict and address."""

    line: str
    mate: str
    what: str
    verdict: str
    address: str


def example_rows() -> list[dict[str, str]]:
    """Return the checks that the first page shows."""
    text = files("service.pages").joinpath("sampler/examples.csv").read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))


def first_page(
    kinds: Sequence[tuple[str, str, str]],
    examples: Sequence[Example],
    given: Mapping[str, str],
    problem: Mapping[str, Any] | None = None,
) -> str:
    """Return the first page, its forms filled with what was given, and with what is wrong with it.

    ``kinds`` are the kinds of mates: field, meaning and example.
    """
    names = {name for name, *_ in kinds}
    at = "" if problem is None else "mate" if problem["field"].split(".")[0] in names else problem["field"]
    return page(
        "home.html",
        title="Error: one line" if problem else "One line",
        here="/",
        kinds=kinds,
        examples=examples,
        given={name: given.get(name, "") for name in FIELDS},
        problem=problem and {**problem, "facts": facts(problem), "at": at},
    )
