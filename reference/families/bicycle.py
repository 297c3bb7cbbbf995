"""Bicycle parts with sizes of their own kind: seat post (outside), spoke (wire), bottom bracket (shell and axle).

They stand in the lists of builders as cheap precise tubes and axles, and must not be taken for other parts.

Source: common practice of the bicycle trade.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Limits


@dataclass(frozen=True, slots=True)
class _Kind:
    """One kind of part: its words, what its two numbers are, and which first numbers are possible [mm]."""

    name: str
    marks: frozenset[str]
    first: str
    second: str
    least: Decimal
    most: Decimal


_KINDS = (
    _Kind("Seat post", words("post seatpost sattelstutze tija reggisella selle"), "outer_diameter", "length",
          Decimal(22), Decimal(35)),
    _Kind("Spoke", words("spoke spokes speiche speichen rayon rayons radio radios raggio raggi"), "wire_diameter",
          "length", Decimal("1.5"), Decimal(3)),
    _Kind("Bottom bracket", words("bottom tretlager innenlager pedalier movimento"), "shell_width", "axle_length",
          Decimal(60), Decimal(120)),
)  # fmt: skip


def _part(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Give the two numbers their meaning in this kind of part."""
    kind = next((item for item in _KINDS if facts.says(*item.marks)), None)
    for draft in drafts:
        one, two = draft.dimensions.pop("one", None), draft.dimensions.pop("two", None)
        if kind is None or not isinstance(one, Limits) or not kind.least <= one.nominal <= kind.most:
            draft.doubts.append(family.question)
            continue
        draft.size_names = kind.first.replace("_", " ")
        draft.dimensions = {kind.first: one, **draft.dimensions}
        if isinstance(two, Limits):
            draft.dimensions[kind.second] = two
        draft.attributes["kind"] = kind.name.lower()
        draft.because.append((kind.name, f"{kind.first} x {kind.second}".replace("_", " "), COMMON_PRACTICE))
        numbers = [format(size.nominal.normalize(), "f") for size in (one, two) if isinstance(size, Limits)]
        draft.order_text = f"{kind.name} {' x '.join(numbers)} mm"
    return drafts


def _larger_second(values: Mapping[str, Decimal]) -> bool:
    return values["one"] < values["two"]


BICYCLE = Family(
    name="bicycle",
    size_names="outer diameter",
    key="catalogue_number",
    nouns={
        "en": phrases("seat post, seatpost, spoke, spokes, bottom bracket, bicycle spoke, bike seat post"),
        "de": phrases("Sattelstütze, Speiche, Speichen, Tretlager, Innenlager"),
        "fr": phrases("tige de selle, rayon de vélo, rayon vélo, boîtier de pédalier"),
        "es": phrases("tija de sillín, tija sillín, radio bicicleta, eje de pedalier, caja de pedalier"),
        "it": phrases("reggisella, raggio bici, movimento centrale"),
    },
    layouts=(
        Layout(("one", "two"), when=_larger_second),
        Layout(("two", "one"), when=_larger_second),
        Layout(("one",)),
    ),
    labels={"diameter": "one", "length": "two", "wire": "one", "width": "one", "od": "one"},
    needs=(),
    order="Bicycle part",
    question="Which bicycle part, and what do its sizes name?",
    refine=_part,
    examples=(
        Example(
            "seat post 27.2 x 350", dimensions={"outer_diameter": "27.2", "length": "350"}, size_names="outer diameter"
        ),
        Example("bottom bracket BSA 68 x 113", dimensions={"shell_width": "68", "axle_length": "113"}),
        Example("Speiche 2,0 x 260", dimensions={"wire_diameter": "2", "length": "260"}, size_names="wire diameter"),
        Example("spoke 260", state="ambiguous"),
    ),
)

FAMILIES = (BICYCLE,)
