"""What the short text forms and the objects of all mates have in common: options, threads, materials, refusals.

``field`` is always where the value stands in the request: the short form's own name (``bore``), or ``mate`` for an
object, whose parts are then named by path (``mate.diameter``).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Literal

from reference import materials, threads
from reference.materials import Material
from reference.quantities import ThreadSize
from service.strength.screws import CARRIAGE, carriage_body
from service.verdict.diameters import LONGEST_TEXT, MEASURE, length
from service.verdict.model import CheckError

Fields = Mapping[str, object]
End = Literal["blind", "through"]

TAPPED_EXAMPLE = "M3 depth 6 in aluminium"
_THREAD_FORMS = "a thread by its designation (M3, M8x1, 1/4-20 UNC, G 1/8), then depth, blind or through, material"

_DEPTH = re.compile(rf"\b(?:depth|deep)\s+(?P<after>{MEASURE})(?=\s|$)|\s(?P<before>{MEASURE})\s+deep\b", re.IGNORECASE)
_END = re.compile(r"\b(blind|through|thru)\b(?:\s+hole\b)?", re.IGNORECASE)
_MATERIAL = re.compile(r"\s+in\s+(?P<material>[^\s\d].*|\d\.\d{4}|\d{4}[\w-]*)$", re.IGNORECASE)
_TOLERANCE_CLASS = re.compile(r"[A-Za-z]{1,2}\d{1,2}\b")


def at(field: str, name: str) -> str:
    """Return where a part of a mate stands: ``mate.depth`` of an object, the short form itself otherwise."""
    return f"{field}.{name}" if field.startswith("mate") else field


def one_line(value: object, field: str, accepted: str, example: str) -> str:
    """Return a text of bounded length with single blanks.

    Raises:
        CheckError: it is no text, empty or too long.
    """
    if isinstance(value, str) and 0 < len(value.strip()) <= LONGEST_TEXT:
        return " ".join(value.split())
    raise CheckError(field, value, accepted, example)


def known(given: Fields, names: Sequence[str], field: str) -> None:
    """Refuse a part of an object that nothing reads: it may be a misspelt one that matters.

    Raises:
        CheckError: names the part.
    """
    for name, value in given.items():
        if name != "kind" and name not in names:
            raise CheckError(f"{field}.{name}", value, f"the fields {', '.join(names)}", names[0] if names else "kind")


def required(given: Fields, name: str, field: str, example: str) -> object:
    """Return a part of an object that must be there.

    Raises:
        CheckError: it is absent.
    """
    value = given.get(name)
    if value is None:
        raise CheckError(at(field, name), None, f"{name}: it is required", example)
    return value


def take_options(text: str, field: str) -> tuple[str, dict[str, object]]:
    """Split a short form into what it starts with and its options: depth, end, material.

    Raises:
        CheckError: an option stands twice.

    >>> take_options("8 H7 depth 20 blind in 6061-T6", "bore")
    ('8 H7', {'material': '6061-T6', 'depth': '20', 'end': 'blind'})
    """
    options: dict[str, object] = {}
    material = _MATERIAL.search(text)
    if material and not _TOLERANCE_CLASS.match(material["material"]) and not _DEPTH.search(material["material"]):
        options["material"] = material["material"]
        text = text[: material.start()]
    for depth in _DEPTH.finditer(text):
        if "depth" in options:
            raise CheckError(field, text, "one depth", "5 H7 depth 20")
        options["depth"] = depth["after"] or depth["before"]
    text = _DEPTH.sub(" ", text)
    ends = _END.findall(text)
    if len(ends) > 1:
        raise CheckError(field, text, "blind or through, not both", "5 H7 depth 20 blind")
    if ends:
        options["end"] = ends[0]
        text = _END.sub(" ", text)
    return " ".join(text.split()), options


def depth_end_material(given: Fields, field: str) -> tuple[Decimal | None, End | None, Material | None]:
    """Return the options of a hole, each None where it is not given.

    Raises:
        CheckError: one is not understood.
    """
    depth, end, made_in = (given.get(name) for name in ("depth", "end", "material"))
    return (
        None if depth is None else length(depth, at(field, "depth")),
        None if end is None else _end(end, at(field, "end")),
        None if made_in is None else material(made_in, at(field, "material")),
    )


def _end(value: object, field: str) -> End:
    end = value.lower() if isinstance(value, str) else value
    if end == "blind":
        return "blind"
    if end in ("through", "thru"):
        return "through"
    raise CheckError(field, value, "blind or through", "blind")


def material(value: object, field: str) -> Material:
    """Return the material that a word or a grade names; ``guide carriage`` stands for that of its body.

    Raises:
        CheckError: no such material is held.
    """
    if isinstance(value, str) and value.strip().lower() in CARRIAGE:
        return carriage_body()
    try:
        return materials.material(value if isinstance(value, str) else repr(value))
    except materials.UnknownMaterial as error:
        raise CheckError(field, value, str(error), "aluminium or 6061-T6") from None


def thread(value: object, field: str) -> ThreadSize:
    """Return the thread that a designation names.

    Raises:
        CheckError: it names none.
    """
    found = threads.parse(one_line(value, field, _THREAD_FORMS, TAPPED_EXAMPLE))
    if found is None:
        raise CheckError(field, value, _THREAD_FORMS, TAPPED_EXAMPLE)
    return found
