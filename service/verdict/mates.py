"""Request fields to a ``Check``: every mate in its short text form and as an object, and the fit wanted.

A mate is parsed once per distinct text and then shared, so that a check against a known mate costs one look-up.
What does not belong here: lengths and diameters (``diameters.py``), the line itself (``service.reading``), judging.

>>> check = parse_check({"line": "M5 dowel pin", "bore": "5 H7 depth 20 blind", "fit": "location"})
>>> check.mate.diameter.upper, check.mate.depth, check.fit.window.upper
(Decimal('5.012'), Decimal('20'), Decimal('0.011'))
"""

from collections.abc import Mapping
from decimal import Decimal
from typing import TypeVar

from reference import fits
from reference.materials import Material
from reference.units import tidy
from service.verdict.diameters import LONGEST_TEXT, signed_length, window
from service.verdict.fields import Fields, known, material, one_line, required
from service.verdict.kinds import BY_FIELD, BY_NAME, KINDS
from service.verdict.model import BoreMate, Check, CheckError, FitWanted, Mate, ShaftMate, Temperatures, Window
from service.verdict.temperature import temperatures

LONGEST_LINE = 500
"""Characters of a line."""

BESIDE = ("temperature", "part_material")
"""What a check may say beside line, mate and fit: the fit at another temperature."""

FIELDS = ("line", "fit", "mate", *BY_FIELD, *BESIDE)
"""The fields of a check."""

KNOWN_FIELDS = frozenset(FIELDS)
"""The same, to look a field up in."""

EXAMPLES: Mapping[str, str] = {kind.field: kind.example for kind in KINDS}
"""An accepted value of every short form."""

T = TypeVar("T")

# --- fits ------------------------------------------------------------------------------------------------------------

_FIT_FORMS = "a class pair (H7/m6), a window of clearance in mm (0.002..0.014), or slip, location, press"


def _fit(value: object, nominal: Decimal) -> FitWanted:
    if isinstance(value, Mapping):
        known(value, ("lower", "upper", "wanted"), "fit")
        if "wanted" in value and value["wanted"] is not None and not isinstance(value["wanted"], Mapping):
            return _fit(value["wanted"], nominal)
        lower, upper = (signed_length(required(value, key, "fit", "0.002"), f"fit.{key}") for key in ("lower", "upper"))
        return _fit_window(f"{lower}..{upper}", lower, upper)
    text = one_line(value, "fit", _FIT_FORMS, "location")
    if ends := window(text, "fit"):
        return _fit_window(text, *ends)
    try:
        named = fits.window(text, nominal)
    except fits.UndefinedClass as error:
        raise CheckError("fit", value, f"{_FIT_FORMS} ({error})", "location") from None
    return FitWanted(text, Window(named.lower, named.upper), named.text, named.loosest_upper)


def _fit_window(wanted: str, lower: Decimal, upper: Decimal) -> FitWanted:
    if lower > upper:
        raise CheckError("fit", wanted, "a window with its lower end first", "-0.010..0")
    return FitWanted(wanted, Window(tidy(lower), tidy(upper)), "as given")


# --- the check -------------------------------------------------------------------------------------------------------


class _Memory(dict[str, T]):
    """Values by text, forgotten all at once when there are too many: bounded, and a hit costs one look-up."""

    def keep(self, key: str, value: T) -> T:
        """Remember the value and return it."""
        if len(self) >= 512:
            self.clear()
        self[key] = value
        return value


_mates: _Memory[Mate] = _Memory()
_fits: _Memory[FitWanted] = _Memory()


def parse_mate(field: str, value: object) -> Mate:
    """Return the mate that a field gives: ``bore`` and the like as text, ``mate`` as an object.

    Raises:
        CheckError: names the field, the value, what is accepted and an example.
    """
    key = f"{field}={value!r}"
    remembered = _mates.get(key)
    if remembered is not None:
        return remembered
    if field != "mate":
        kind = BY_FIELD[field]
        text = one_line(value, field, f"a {kind.mate.kind} in words, up to {LONGEST_TEXT} characters", kind.example)
        return _mates.keep(key, kind.verbs.from_text(text, field))
    if not isinstance(value, Mapping):
        raise CheckError("mate", value, "an object with a kind", '{"kind": "bore", "diameter": "5 H7"}')
    name = value.get("kind")
    if not isinstance(name, str) or name not in BY_NAME:
        raise CheckError("mate.kind", name, f"one of {', '.join(BY_NAME)}", "bore")
    return _mates.keep(key, BY_NAME[name].verbs.from_fields(value, "mate"))


def parse_fit(value: object, mate: Mate) -> FitWanted:
    """Return the fit wanted, with its window of clearance at the mate's nominal size.

    Raises:
        CheckError: the value is no fit, or the mate has no diameter that a fit could apply to.
    """
    limits = getattr(mate, "diameter", None)
    if limits is None:
        raise CheckError("fit", value, f"no fit with a {mate.kind}: only bores, shafts and pockets have one", "")
    key = f"{value!r}@{limits.nominal}"
    return _fits.get(key) or _fits.keep(key, _fit(value, limits.nominal))


def parse_check(fields: Fields) -> Check:
    """Return the check that the fields of a request ask for: ``line``, one mate, and ``fit`` where one is wanted.

    A field that is empty counts as absent, as spreadsheets send it.

    Raises:
        CheckError: a field is missing, unknown, given twice or not understood.
    """
    line = fit = mate_field = mate_value = None
    beside: dict[str, object] = {}
    for field, value in fields.items():
        if field not in KNOWN_FIELDS:
            raise CheckError(field, value, f"the fields {', '.join(FIELDS)}", "line")
        if value is None or value == "":
            continue
        if field == "line":
            line = value
        elif field == "fit":
            fit = value
        elif field in BESIDE:
            beside[field] = value
        elif mate_field is None:
            mate_field, mate_value = field, value
        else:
            raise CheckError(field, value, f"one mate; {mate_field} is given already", f"{field} without {mate_field}")
    if not isinstance(line, str) or not line.strip() or len(line) > LONGEST_LINE:
        raise CheckError("line", line, f"one purchase line of 1 to {LONGEST_LINE} characters", "M5 dowel pin")
    if mate_field is None:
        raise CheckError("mate", None, f"one of {', '.join(('mate', *BY_FIELD))}", "bore=5 H7")
    mate = parse_mate(mate_field, mate_value)
    wanted = None if fit is None else parse_fit(fit, mate)
    return Check(line, mate, wanted, *_beside(beside, mate)) if beside else Check(line, mate, wanted)


def _beside(given: Fields, mate: Mate) -> tuple[Temperatures | None, Material | None]:
    """Return the temperature at which the fit is to hold, and what the part is made of.

    Raises:
        CheckError: one is not understood, or means nothing with this mate.
    """
    if not isinstance(mate, BoreMate | ShaftMate):
        field, value = next(iter(given.items()))
        raise CheckError(field, value, f"no {field} with a {mate.kind}: only bores and shafts are judged by it", "")
    asked, made_of = given.get("temperature"), given.get("part_material")
    if asked is None:
        raise CheckError("part_material", made_of, "part_material beside a temperature", "temperature=60")
    return temperatures(asked, "temperature"), None if made_of is None else material(made_of, "part_material")
