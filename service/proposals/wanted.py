"""Request fields to what a part is wanted for."""

from collections.abc import Mapping

from reference.families import by_name
from reference.words import fold
from service.proposals.candidates import FAMILIES
from service.proposals.model import Wanted
from service.verdict.diameters import length
from service.verdict.fields import one_line
from service.verdict.kinds import BY_FIELD
from service.verdict.mates import parse_fit, parse_mate
from service.verdict.model import CheckError, Mate

FIELDS = ("mate", *BY_FIELD, "fit", "family", "length", "material")
"""The fields of what is wanted."""

STAINLESS = frozenset(
    {"stainless", "stainless steel", "inox", "edelstahl", "rostfrei", "acier inoxydable", "inossidabile"}
)
"""Words for the stainless steel that screws and pins are usually made of, A2."""

_EXAMPLE = '{"kind": "bore", "diameter": "5 H7"}'


def parse_wanted(fields: Mapping[str, object]) -> Wanted:
    """Return what the fields of a request want a part for; an empty field counts as absent.

    Raises:
        CheckError: a field is missing, unknown, given twice or not understood.

    >>> parse_wanted({"bore": "5 H7", "fit": "location", "length": 20}).fit.window.upper
    Decimal('0.011')
    """
    mates: dict[str, object] = {}
    given: dict[str, object] = {}
    for field, value in fields.items():
        if field not in FIELDS:
            raise CheckError(field, value, f"the fields {', '.join(FIELDS)}", "mate")
        if value is not None and value != "":
            (mates if field == "mate" or field in BY_FIELD else given)[field] = value
    if len(mates) != 1:
        raise CheckError("mate", list(mates) or None, f"one of mate, {', '.join(BY_FIELD)}", _EXAMPLE)
    mate = parse_mate(*next(iter(mates.items())))
    fit, family, long, material = (given.get(name) for name in ("fit", "family", "length", "material"))
    return Wanted(
        mate,
        None if fit is None else parse_fit(fit, mate),
        None if family is None else _family(family, mate),
        None if long is None else length(long, "length"),
        None if material is None else _material(material),
    )


def _family(value: object, mate: Mate) -> str:
    tried = FAMILIES.get(type(mate), ())
    accepted = f"a part family, of which these are tried for a {mate.kind}: {', '.join(tried) or 'none'}"
    name = one_line(value, "family", accepted, tried[0] if tried else "parallel pin")
    found = next((known for known in by_name() if fold(known) == fold(name)), None)
    if found is None:
        raise CheckError("family", value, accepted, tried[0] if tried else "parallel pin")
    return found


def _material(value: object) -> str | None:
    """Return a material as designations write it; plain steel is what they mean without a word."""
    word = one_line(value, "material", "a material as designations write it", "A2")
    if fold(word) in STAINLESS:
        return "A2"
    return None if fold(word) in ("steel", "stahl", "acier", "acero", "acciaio") else word
