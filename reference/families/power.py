"""Power supplies and batteries: rated items, ordered by voltage, current and power, or by a cell code.

Voltage times current must give the power that a line states; where it does not, one of the figures is wrong.

Sources: P = U I; IEC 60086-2, IEC 61960 (table of cells); the rest common practice.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Mates, phrases, words
from reference.families.facts import Draft, Facts
from reference.families.rules import shown
from reference.quantities import Rating
from reference.sizes import size_table

_TOLERANCE = Decimal("0.05")
"""Makers round power: 24 V x 14.6 A is sold as 350 W. Source: common practice."""
_MAINS = Decimal(85)
_MILLIAMPERES = re.compile(r"[0-9] ?mA\b")


def _output(draft: Draft, facts: Facts) -> None:
    """Of a mains input and a low output voltage, the output is what the supply gives."""
    volts = [(rating, text) for name, rating, text in facts.ratings if name == "voltage"]
    low = [(rating, text) for rating, text in volts if rating.value < _MAINS]
    if len(volts) > 1 and len(low) == 1:
        rating, text = low[0]
        draft.rate("voltage", rating, text, "output voltage beside a mains input", COMMON_PRACTICE)


def _supply(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Check voltage x current against the power; a bare adapter without a rating is no power supply."""
    out: list[Draft] = []
    for draft in drafts:
        _output(draft, facts)
        volts, amps, watts = (draft.rated(name) for name in ("voltage", "current", "power"))
        if volts is None and amps is None and watts is None and facts.says("adapter", "adaptor", "adaptador"):
            continue
        parts = [name for name in ("voltage", "current", "power") if draft.rated(name) is not None]
        plug = ", plug {outer_diameter} x {bore}" if draft.dimensions.keys() >= {"outer_diameter", "bore"} else ""
        draft.order_text = "Power supply " + " ".join(f"{{{name}}}" for name in parts) + plug
        out.append(draft)
        if volts is None or amps is None:
            continue
        product = Decimal(shown(volts * amps))
        if watts is None:
            draft.rate("power", Rating(product, "W"), "V x A", "voltage x current", "P = U I")
        elif abs(product - watts) > _TOLERANCE * watts:
            by_power = draft.copy()
            current = (watts / volts).quantize(Decimal("0.1"))
            by_power.rate("current", Rating(current, "A"), "W / V", "what the stated power allows", "P = U I")
            draft.rate("power", Rating(product, "W"), "V x A", "voltage x current", "P = U I")
            draft.doubts.append(
                f"{shown(volts)} V x {shown(amps)} A is {shown(product)} W, not {shown(watts)} W."
                " Which rated current and power has the supply?"
            )
            out.append(by_power)
    return out


_NAMED = {
    "aaa": ("AAA", "R03"),
    "micro": ("AAA", "R03"),
    "aa": ("AA", "R6"),
    "mignon": ("AA", "R6"),
    "mignonzelle": ("AA", "R6"),
    "baby": ("C", "R14"),
    "mono": ("D", "R20"),
}
_LITHIUM_CELL, _LITHIUM = Decimal("3.7"), ("lipo", "li", "lithium", "liion")


def _cell(groups: Mapping[str, str]) -> Draft | None:
    """Return the cell of a code: CR2032 is R2032, LR44 is R44, 18650 stands for itself."""
    digits = groups["digits"]
    rows = size_table("battery", "outer_diameter").rows
    row = next((row for row in rows if row.size in {digits, f"R{digits}", f"R{digits.zfill(2)}"}), None)
    if row is None or (row.size.startswith("R") and "letters" not in groups):
        return None
    series = (groups.get("letters", "") + digits).upper()
    return Draft("battery", "body size", "stated", dict(row.dimensions), {"series": series}, (row.standard,))


def _battery(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take names such as AA, and the number of cells in a lithium pack."""
    out: list[Draft] = []
    for draft in drafts:
        named = next((item for word, item in _NAMED.items() if facts.says(word)), None)
        if "series" in draft.attributes:
            draft.order_text = "Battery {series}"
        elif named is not None:
            row = next(row for row in size_table("battery", "outer_diameter").rows if row.size == named[1])
            draft.dimensions |= row.dimensions
            draft.attributes["series"] = named[0]
            draft.because.append((named[0], f"the size {named[1]}", row.source))
            draft.size_names = "body size"
            draft.order_text = "Battery {series}"
        else:
            draft.size_names = "rating"
            pack = re.search(r"\b([1-9][0-9]?) ?[sS](?: ?[0-9] ?[pP])?\b", facts.line)
            if pack and facts.says(*_LITHIUM):
                cells, stated = Decimal(pack[1]), draft.rated("voltage")
                draft.attributes["cells"] = pack[1]
                if stated is None:
                    volts = Rating(cells * _LITHIUM_CELL, "V")
                    draft.rate("voltage", volts, pack[0], f"{pack[1]} cells of 3.7 V", COMMON_PRACTICE)
                elif not 3 * cells <= stated <= Decimal("4.35") * cells:
                    draft.doubts.append(f"{pack[1]} lithium cells do not give {shown(stated)} V. Which one is wrong?")
            draft.drop(*(part for part in draft.rest if pack and part.text == pack[1]))
            parts = [name for name in ("voltage", "charge") if draft.rated(name) is not None]
            draft.order_text = "Battery pack " + " ".join(f"{{{name}}}" for name in parts)
        out.append(draft)
    return out


POWER_SUPPLY = Family(
    name="power supply",
    size_names="rating",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "power supply, PSU, power adapter, AC adapter, adaptor, adapter, power adaptor, power brick, SMPS, wall"
            " adapter,"
            " switching power supply, mains adapter, power unit, power supply unit, charger adapter, wall wart"
        ),
        "de": phrases(
            "Netzteil, Schaltnetzteil, Steckernetzteil, Netzgerät, Netzadapter, Hutschienennetzteil, Stromversorgung"
        ),
        "fr": phrases("alimentation, bloc d'alimentation, alim, adaptateur secteur, alimentation à découpage, transfo"),
        "es": phrases("fuente de alimentación, fuente alimentación, fuente conmutada, adaptador de corriente, fuente"),
        "it": phrases("alimentatore, alimentatore switching, alimentatori"),
    },
    layouts=(Layout(("outer_diameter", "bore"), when=lambda v: v["bore"] < v["outer_diameter"] < 10),),
    ratings=("voltage", "current", "power"),
    needs=("voltage", "current|power"),
    identity=("voltage",),
    order="Power supply {voltage} {current} {power}",
    question="Which voltage and which current has the power supply?",
    refine=_supply,
    unless=words("bench spanner socket wrench hydraulic water pipe thread agua eau acqua d'eau"),
    examples=(
        Example("PSU 24V 10A 240W", size_names="rating"),
        Example("Netzteil 12 V 5 A", size_names="rating"),
        Example("5V 3A power adapter, plug 5.5x2.1", dimensions={"outer_diameter": "5.5", "bore": "2.1"}),
        Example("alimentation à découpage 24V 14.6A 350W", size_names="rating"),
        Example("power supply 12V 30A 300W", state="ambiguous"),
        Example("power supply", state="ambiguous"),
    ),
    source="P = U I; common practice",
    mates=Mates(in_bore=False),
)

BATTERY = Family(
    name="battery",
    size_names="body size",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "battery, cell, batteries, coin cell, button cell, lipo, li ion, lithium cell, battery pack, lipo battery"
        ),
        "de": phrases(
            "Batterie, Akku, Zelle, Knopfzelle, Rundzelle, Akkupack, Akkus, Batterien, Lithium Zelle, Mignonzelle"
        ),
        "fr": phrases("pile, batterie, accu, pile bouton, accumulateur, piles"),
        "es": phrases("pila, batería, pila botón, pilas, batería de litio"),
        "it": phrases("pila, batteria, pila a bottone, batterie, pacco batteria"),
    },
    codes=(
        Code(
            r"(?P<letters>cr|br|lr|sr|fr|icr|inr|imr|ncr|ifr|lir|ir)[ -]?(?P<digits>[0-9]{2,5})",
            identifies=True,
            decode=_cell,
            says="a code of the cell's shape and size",
            source="IEC 60086-1, IEC 61960",
        ),
        Code(
            r"(?P<letters>[lf]?r)(?P<digits>03|1|6|14|20)",
            decode=_cell,
            says="a code of the cell's shape and size",
            source="IEC 60086-1",
        ),
        Code(
            r"(?P<digits>18650|21700|26650)",
            identifies=True,
            decode=_cell,
            says="diameter and length of the cell: 18650 is 18 x 65",
            source="IEC 61960",
        ),
        Code(
            r"(?P<digits>[0-9]{5})",
            decode=_cell,
            says="diameter and length of the cell: 18650 is 18 x 65",
            source="IEC 61960",
        ),
    ),
    ratings=("voltage", "charge", "current"),
    needs=("outer_diameter|voltage",),
    identity=("outer_diameter|voltage|charge",),
    order="Battery {series}",
    question="Which size or which voltage and charge has the battery?",
    refine=_battery,
    unless=words(
        "holder halter acid charger box terminal clip case door porte portapilas phone house chicken fuel solar"
    ),
    examples=(
        Example("18650 cell 3.7V 2600mAh", dimensions={"outer_diameter": "18", "length": "65"}, size_names="body size"),
        Example("CR2032", dimensions={"outer_diameter": "20", "length": "3.2"}),
        Example("Batterie AA", dimensions={"outer_diameter": "14.5"}),
        Example("LiPo battery 3S 2200mAh", size_names="rating"),
        Example("pile LR44", dimensions={"outer_diameter": "11.6"}),
        Example("battery", state="ambiguous"),
    ),
    source="IEC 60086-2, IEC 61960",
)

FAMILIES = (POWER_SUPPLY, BATTERY)
