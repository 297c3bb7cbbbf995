"""O-rings: inside diameter x cross-section, or a catalogue number that names neither.

In Europe the first number is the inside diameter; marketplace lists write the outside as often. Three numbers settle it
by arithmetic: outside - inside = 2 x cross-section. AS568 dash numbers and JIS letters stand for rows of a table.

Sources: ISO 3601-1, AS568, JIS B 2401 (table).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.quantities import Limits
from reference.sizes import Size, size_table

_STAR = re.compile(r"[0-9] ?(?:mm)? ?[*＊∗]")
_MARGIN = Decimal("0.11")
"""Lists round inch sections to one or two places: 1.78 as 1.8. Source: common practice."""


def _row(standard: str, size: str) -> Size | None:
    rows = size_table("o_ring", "bore").rows
    return next((row for row in rows if row.standard == standard and row.size == size), None)


def _listed(bore: Decimal, section: Decimal) -> Size | None:
    for row in size_table("o_ring", "bore").by_key.get(bore.normalize(), ()):
        held = row.dimensions.get("cross_section")
        if isinstance(held, Limits) and held.nominal == section:
            return row
    return None


def _as_draft(row: Size, series: str) -> Draft:
    return Draft(
        "O-ring",
        "catalogue number",
        "stated",
        {key: row.dimensions[key] for key in ("bore", "cross_section")},
        {"series": series},
        (row.standard,),
    )


def _dash_number(groups: Mapping[str, str]) -> Draft | None:
    row = _row("AS568", groups.get("dash") or groups["zero"])
    return _as_draft(row, f"AS568-{row.size}") if row else None


def _jis_number(groups: Mapping[str, str]) -> Draft | None:
    row = _row("JIS B 2401", groups["jis"].replace(" ", "").replace("-", "").upper())
    return _as_draft(row, row.size) if row else None


def _size_with_number(groups: Mapping[str, str]) -> Draft | None:
    """``21,89x2,62 (118)``: the number is the dash number of exactly that size, no count of pieces."""
    row = _row("AS568", groups["dash"])
    if row is None:
        return None
    for said, key in (("inside", "bore"), ("section", "cross_section")):
        stated, held = Decimal(groups[said].replace(",", ".")), row.dimensions[key]
        if isinstance(held, Limits) and held.nominal.quantize(stated) != stated:
            return None
    draft = _as_draft(row, f"AS568-{row.size}")
    draft.size_names = "bore"
    return draft


def _sized(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Settle which number is inside, outside and section; give the outside."""
    out = _settled(facts, drafts)
    for draft in out:
        bore, section = draft.nominal("bore"), draft.nominal("cross_section")
        if bore is not None and section is not None and "outer_diameter" not in draft.dimensions:
            draft.give("outer_diameter", bore + 2 * section, "section", "inside plus two sections", "arithmetic")
    return out


def _settled(facts: Facts, drafts: list[Draft]) -> list[Draft]:
    out: list[Draft] = []
    for draft in drafts:
        if "series" in draft.attributes:
            draft.order_text = f"O-ring {'JIS B 2401 ' if draft.standards[0] == 'JIS B 2401' else ''}{{series}}"
            stated = [draft.nominal(key) for key in ("bore", "cross_section")]
            same = [
                part
                for part in draft.rest
                if isinstance(part, Number) and any(v is not None and abs(part.value - v) <= _MARGIN for v in stated)
            ]
            draft.drop(*same)
            out.append(draft)
            continue
        bore, outer, section = (draft.nominal(key) for key in ("bore", "outer_diameter", "cross_section"))
        if bore is not None and outer is not None and section is not None:
            numbers = [part.value for chain in facts.chains for part in chain if isinstance(part, Number)]
            _three(draft, numbers[0] if numbers else outer, bore, outer, section)
        elif outer is not None and section is not None:
            draft.size_names = "outer diameter"
            draft.give("bore", outer - 2 * section, "section", "outside less two sections", "arithmetic")
        elif bore is not None and section is not None:
            out += _two(draft, facts, bore, section)
            continue
        out.append(draft)
    return out


def _three(draft: Draft, first: Decimal, *numbers: Decimal) -> None:
    section, bore, outer = sorted(numbers)
    if abs(outer - bore - 2 * section) > 2 * _MARGIN:
        draft.doubts.append(
            f"Outside {outer.normalize():f} less inside {bore.normalize():f} is not twice the section"
            f" {section.normalize():f}. Which size is right?"
        )
    draft.size_names = "outer diameter" if first == outer else "bore"
    draft.dimensions |= {"outer_diameter": Limits(outer), "bore": Limits(bore), "cross_section": Limits(section)}
    draft.because.append(("three numbers", "outside less inside is twice the section", "arithmetic"))


def _two(draft: Draft, facts: Facts, bore: Decimal, section: Decimal) -> list[Draft]:
    """The order of the line and the sign between the numbers tell how sure the inside diameter is."""
    numbers = [part for chain in facts.chains for part in chain if isinstance(part, Number)]
    section_first = len(numbers) == 2 and numbers[0].label is None and numbers[0].value == section != bore
    listed = _listed(bore, section)
    plain_diameter = any(number.label == "diameter" and "ø" not in number.text for number in facts.labelled)
    starred = _STAR.search(facts.line) is not None and all(number.label is None for number in numbers)
    labelled = any(number.label in {"id", "bore"} for number in facts.labelled)
    if draft.standards or listed is not None or not (section_first or starred or plain_diameter):
        if not (draft.standards or labelled):
            draft.asks.append(f"{bore.normalize():f} mm as the inside diameter")
        return [draft]
    outside = {key: value for key, value in draft.dimensions.items() if key != "bore"}
    outside |= {"outer_diameter": Limits(bore), "bore": Limits(bore - 2 * section)}
    other = draft.copy(dimensions=outside, size_names="outer diameter", evidence="assumed")
    other.because.append((f"{bore.normalize():f}", "marketplace lists often name the outside", COMMON_PRACTICE))
    return [draft, other] if bore > 2 * section else [draft]


FAMILY = Family(
    name="O-ring",
    size_names="bore",
    key="bore",
    nouns={
        "en": phrases("O ring, oring, O rings, orings, O ring seal"),
        "de": phrases("O Ring, O Ringe, Rundschnurring, Nullring, Runddichtring, Rundring, O Dichtring"),
        "fr": phrases("joint torique, joints toriques, joint O ring, torique"),
        "es": phrases("junta tórica, tórica, junta O ring, retén tórico, anillo tórico"),
        "it": phrases(
            "guarnizione OR, anello OR, O ring, OR guarnizioni, guarnizione O ring, anello di tenuta OR, OR NBR, OR FKM"
        ),
    },
    standards=(
        Standard("ISO 3601", order="O-ring ISO 3601 - {bore} x {cross_section} - {material?NBR 70}"),
        Standard("ISO 3601-1", order="O-ring ISO 3601 - {bore} x {cross_section} - {material?NBR 70}"),
        Standard("DIN 3771", order="O-ring DIN 3771 - {bore} x {cross_section} - {material?NBR 70}"),
        Standard("JIS B 2401"),
        Standard("BS 1806"),
        Standard("GB/T 3452", order="O-ring GB/T 3452 - {bore} x {cross_section}"),
        Standard("GB/T 3452.1", order="O-ring GB/T 3452.1 - {bore} x {cross_section}"),
    ),
    table="o_ring",
    codes=(
        Code(
            r"(?P<inside>[0-9]+[.,][0-9]+) ?(?:mm)? ?[x*] ?(?P<section>[0-9][.,][0-9]+)(?: ?mm)?"
            r"(?: \(| - | -| |, ?)(?P<dash>[0-9]{3})\)?",
            decode=_size_with_number,
            says="its AS568 number stands beside the size",
            source="AS568",
        ),
        Code(
            r"as ?568[a-d]?[ -]*(?P<dash>[0-9]{3})",
            identifies=True,
            decode=_dash_number,
            says="a dash number stands for a row of AS568",
            source="AS568",
        ),
        Code(
            r"(?:(?:bs|as|dash|size|no\.?|nr\.?|#)[ -]*|2-|-)(?P<dash>[0-9]{3})|(?P<zero>0[0-9]{2})",
            decode=_dash_number,
            says="a dash number stands for a row of AS568",
            source="AS568",
        ),
        Code(
            r"(?P<jis>[pg][ -]?[0-9]{1,3}a?)(?! ?/)",
            decode=_jis_number,
            says="a JIS number stands for a row of its table",
            source="JIS B 2401",
        ),
    ),
    layouts=(
        Layout(("outer_diameter", "bore", "cross_section"), when=lambda v: v["bore"] < v["outer_diameter"]),
        Layout(("bore", "outer_diameter", "cross_section")),
        Layout(("bore", "cross_section"), when=lambda v: v["cross_section"] <= v["bore"], says="inside first"),
        Layout(
            ("cross_section", "bore"), when=lambda v: v["cross_section"] < v["bore"], says="the smaller is the section"
        ),
        Layout(("outer_diameter", "cross_section")),
        Layout(("bore",)),
        Layout(("cross_section",)),
    ),
    labels={
        "thickness": "cross_section",
        "width": "cross_section",
        "wire": "cross_section",
        "height": "cross_section",
        "shaft": "-",
        "hole": "-",
    },
    needs=("bore", "cross_section"),
    identity=("bore|outer_diameter", "cross_section"),
    order="O-ring ISO 3601 - {bore} x {cross_section} - {material?NBR 70}",
    question="Which inside diameter and which cross-section has the O-ring?",
    refine=_sized,
    listed_sizes=False,
    unless=words("kit box sortiment assortment set assorted surtido assortimento binder"),
    examples=(
        Example(
            "O-ring ISO 3601 - 20 x 2 - NBR 70",
            dimensions={"bore": "20", "cross_section": "2"},
            size_names="bore",
        ),
        Example("joint torique 12x1,5 NBR", dimensions={"bore": "12", "cross_section": "1.5"}),
        Example("O-ring 24x20x2", dimensions={"outer_diameter": "24", "bore": "20", "cross_section": "2"}),
        Example(
            "O-ring -112 FKM", dimensions={"bore": "12.37", "cross_section": "2.62"}, size_names="catalogue number"
        ),
        Example("O-Ring G40", dimensions={"bore": "39.4", "cross_section": "3.1"}),
        Example("junta tórica diámetro exterior 30 sección 3", dimensions={"bore": "24", "outer_diameter": "30"}),
        Example("O-ring 20*2", state="ambiguous"),
        Example("o-ring 3 x 25", state="ambiguous"),
        Example("O-ring 25x20x2", state="ambiguous"),
    ),
    source="ISO 3601-1, AS568, JIS B 2401",
    mates=Mates(in_bore=False, on_shaft=False),
)
