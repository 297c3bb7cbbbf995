"""The page of an error: the facts of the problem details, readable."""

from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

from service.pages.site import page

_FACTS = (("field", "field"), ("value", "given"), ("accepted", "accepted"), ("example", "example"))


def facts(problem: Mapping[str, Any]) -> list[tuple[str, str]]:
    """Return what a problem names of the request, each with what it is called."""
    return [(name, str(problem[key])) for key, name in _FACTS if problem[key]]


def problem_page(problem: Mapping[str, Any], table: str) -> str:
    """Return the page of an error from the body that programs get, and the same as a row."""
    return page(
        "problem.html",
        title=problem["title"],
        detail=problem["detail"],
        facts=[*facts(problem), ("status", str(problem["status"])), ("request", problem["request_id"])],
        also=problem["also"],
        type=problem["type"],
        table=Markup(table),  # noqa: S704 - made of escaped cells
    )
