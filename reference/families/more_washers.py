"""Large, spring and toothed lock washers. The size names the screw; DIN 6797 and DIN 6798 are also named by their hole.

Sources: ISO 7093-1, ISO 7094, DIN 9021, DIN 127, DIN 128, DIN 7980, DIN 6797, DIN 6798 (tables).
"""

from collections.abc import Sequence

from reference.families.base import Example, Family, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.families.rules import NO_ROW, row_of_stated, rows_with, size_in
from reference.families.washers import WASHER_LAYOUTS, read_washer
from reference.quantities import ThreadSize

_LABELS = {
    "diameter": "outer_diameter",
    "height": "thickness",
    "hole": "bore",
    "width": "outer_diameter",
    "thread": "-",
}


def _keep_outside(family: Family, draft: Draft) -> None:
    """Give a washer whose outside diameter no standard lists the hole of its screw, but no thickness."""
    screw, outer = draft.dimensions.get("screw_size"), draft.nominal("outer_diameter")
    if outer is None or draft.standards or not isinstance(screw, ThreadSize):
        return
    rows = rows_with(family, screw_size=screw.designation)
    if rows and not any((size := size_in(row, "outer_diameter")) and size.nominal == outer for row in rows):
        draft.dimensions.setdefault("bore", rows[0].dimensions["bore"])
        draft.table_standard = NO_ROW
        draft.order_text = "Large washer for {screw_size}, {bore} x {outer_diameter} x {thickness}"


def _large(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    out = list(read_washer(family, facts, drafts))
    for draft in out:
        _keep_outside(family, draft)
        row_of_stated(
            family,
            draft,
            ("outer_diameter", "thickness"),
            {"ISO 7094": "Washer ISO 7094 - {screw_size_number} - {hardness?100 HV}"},
        )
        if not draft.standards and draft.table_standard is None:
            draft.table_standard = "ISO 7093-1"
    return out


LARGE_WASHER = Family(
    name="large washer",
    size_names="screw size",
    key="screw_size",
    nouns={
        "en": phrases(
            "fender washer, large washer, penny washer, repair washer, mudguard washer, wide washer, "
            "large flat washer, extra large washer, form G washer, large OD washer, oversize washer, "
            "large diameter washer, big washer, fender washers, large plain washer"
        ),
        "de": phrases(
            "Kotflügelscheibe, Karosseriescheibe, große Scheibe, Unterlegscheibe groß, "
            "breite Scheibe, Scheibe groß, Kotflügel Scheibe, Scheibe extra groß, "
            "Kotflügelunterlegscheibe, U-Scheibe groß, Unterlegscheibe große, Unterlegscheibe breit, "
            "Großflächenscheibe"
        ),
        "fr": phrases(
            "rondelle large, rondelle extra large, rondelle LL, rondelle L, rondelle carrosserie, "
            "rondelle de carrosserie, rondelle très large, rondelle plate large, rondelle carrossier, "
            "rondelle série large, rondelle grande largeur"
        ),
        "es": phrases(
            "arandela ala ancha, arandela ancha, arandela grande, arandela carrocera, "
            "arandela de ala ancha, arandela carrocería, arandela plana ancha"
        ),
        "it": phrases(
            "rondella larga, rosetta larga, rondella grembialina, rosetta grembialina, "
            "rondella fascia larga, rondella a fascia larga, rosetta fascia larga, grembialina, "
            "rondella parafango, rondella grande"
        ),
    },
    standards=(
        Standard("ISO 7093-1", order="Washer ISO 7093-1 - {screw_size_number} - {hardness?200 HV}"),
        Standard("ISO 7093", rows="ISO 7093-1", order="Washer ISO 7093-1 - {screw_size_number} - {hardness?200 HV}"),
        Standard("DIN 9021", order="Washer DIN 9021 - {bore} - {hardness?140 HV}"),
        Standard("ISO 7094", order="Washer ISO 7094 - {screw_size_number} - {hardness?100 HV}"),
        Standard("DIN 440", rows="ISO 7094", order="Washer DIN 440 - R {bore}"),
        Standard("UNI 6593", rows="DIN 9021", order="Washer UNI 6593 - {bore}"),
        Standard("GB/T 96", rows="ISO 7093-1", order="Washer GB/T 96 - {screw_size_number}"),
    ),
    table="large_washer",
    thread="screw_size",
    layouts=WASHER_LAYOUTS,
    labels=_LABELS,
    needs=("screw_size|bore",),
    identity=("screw_size|bore",),
    order="Washer ISO 7093-1 - {screw_size_number} - {hardness?200 HV}",
    question="For which screw is the washer?",
    refine=_large,
    inch_order="Fender washer for {screw_size}",
    words=words("id od ll"),
    examples=(
        Example(
            "ISO 7093-1 - 6 - 200 HV",
            dimensions={"screw_size": "M6", "bore": "6.4", "outer_diameter": "18"},
            size_names="screw size",
        ),
        Example("fender washer DIN 9021 M4", dimensions={"screw_size": "M4", "outer_diameter": "12"}),
        Example("Karosseriescheibe M8", dimensions={"screw_size": "M8", "outer_diameter": "24"}),
        Example("rondelle LL M5 inox", dimensions={"screw_size": "M5"}),
        Example("Scheibe DIN 9021 5,3", dimensions={"bore": "5.3", "outer_diameter": "15"}, size_names="bore"),
    ),
    source="ISO 7093-1, DIN 9021",
    mates=Mates(in_bore=False, on_shaft=False),
)


def _spring(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """``Lock washer`` alone: the split kind by trade habit, to be confirmed."""
    out = list(read_washer(family, facts, drafts))
    for draft in out:
        if not draft.standards and facts.says("lock") and not facts.says("split", "spring", "helical"):
            draft.asks.append("a split spring washer, not a toothed one")
        if not draft.standards and draft.table_standard is None:
            draft.table_standard = (
                "DIN 128"
                if facts.says("curved", "waved", "wave", "gewolbt", "gewellt", "ondulee", "ondulada", "ondulata")
                else "DIN 127"
            )
    return out


SPRING_WASHER = Family(
    name="spring washer",
    size_names="screw size",
    key="screw_size",
    nouns={
        "en": phrases(
            "spring washer, lock washer, split washer, split lock washer, spring lock washer, "
            "helical spring washer, helical washer, lockwasher, split ring washer, "
            "square section spring washer, wave washer, curved spring washer, "
            "helical spring lock washer, split spring washer, spring split washer, lock washers"
        ),
        "de": phrases("Federring, Federringe, Federscheibe, Federring gewölbt, Federring gewellt"),
        "fr": phrases(
            "rondelle grower, rondelle ressort, rondelle élastique, rondelle frein grower, "
            "rondelles grower, rondelle à ressort, rondelle fendue, rondelle élastique fendue"
        ),
        "es": phrases(
            "arandela grower, arandela muelle, arandela elástica, arandela de muelle, "
            "arandela de presión, arandela glower, arandela resorte"
        ),
        "it": phrases(
            "rondella grower, rosetta elastica, rondella elastica, rosetta grower, rondella spaccata, "
            "rondelle grower, rosetta elastica spaccata"
        ),
    },
    standards=(
        Standard("DIN 127", order="Spring washer DIN 127 - B {screw_size_number}"),
        Standard("DIN 128", order="Spring washer DIN 128 - A {screw_size_number}"),
        Standard("DIN 7980", order="Spring washer DIN 7980 - {screw_size_number}"),
        Standard("DIN 137", order="Spring washer DIN 137 - {screw_size_number}"),
        Standard("UNI 1751", rows="DIN 127", order="Spring washer UNI 1751 - {screw_size_number}"),
        Standard("GB/T 93", rows="DIN 127", order="Spring washer GB/T 93 - {screw_size_number}"),
    ),
    table="spring_washer",
    thread="screw_size",
    layouts=WASHER_LAYOUTS,
    labels=_LABELS,
    needs=("screw_size|bore",),
    identity=("screw_size|bore",),
    order="Spring washer DIN 127 - B {screw_size_number}",
    question="For which screw is the washer?",
    refine=_spring,
    unless=words("pliers zange"),
    kin=("toothed lock washer", "disc spring"),
    inch_order="Split lock washer ASME B18.21.1 for {screw_size}",
    examples=(
        Example("DIN 127 B M4", dimensions={"screw_size": "M4", "bore": "4.1"}, size_names="screw size"),
        Example("Federring M6 A2", dimensions={"screw_size": "M6", "bore": "6.1"}),
        Example("rondelle grower M8", dimensions={"screw_size": "M8"}),
        Example("split lock washer M5", dimensions={"screw_size": "M5"}),
        Example("Spring washer DIN 7980 - 8", dimensions={"screw_size": "M8"}),
    ),
    source="DIN 127, DIN 128, DIN 7980",
    mates=Mates(in_bore=False, on_shaft=False),
)


def _toothed(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Teeth inside (J) or outside (A) by the words; serrated is DIN 6798."""
    out = list(read_washer(family, facts, drafts))
    for draft in out:
        internal = facts.says("internal", "int", "innen", "innengezahnt", "interieure", "interna", "interior")
        external = facts.says("external", "ext", "aussen", "aussengezahnt", "exterieure", "esterna", "exterior")
        if internal != external:
            draft.attributes["form"] = "J" if internal else "A"
        serrated = facts.says("serrated", "facherscheibe", "eventail", "ventaglio", "abanico")
        if not draft.standards and draft.table_standard is None:
            draft.table_standard = "DIN 6798" if serrated else "DIN 6797"
            draft.order_text = _SERRATED if serrated else None
    return out


_SERRATED = "Serrated lock washer DIN 6798 - {form?A} {bore}"

TOOTHED_WASHER = Family(
    name="toothed lock washer",
    size_names="screw size",
    key="screw_size",
    nouns={
        "en": (
            *phrases(
                "tooth lock washer, toothed lock washer, tooth washer, toothed washer, star washer, "
                "shakeproof washer, star lock washer, serrated washer, serrated lock washer, "
                "shake proof washer"
            ),
            *phrases(
                "internal, external, int, ext",
                "tooth washer, star washer, tooth lock washer, teeth washer, star lock washer, "
                "tooth lockwasher, teeth lock washer",
            ),
        ),
        "de": phrases(
            "Zahnscheibe, Fächerscheibe, Zahnscheiben, Fächerscheiben, Zahnscheibe außengezahnt, "
            "Zahnscheibe innengezahnt"
        ),
        "fr": phrases(
            "rondelle éventail, rondelle à dents, rondelle dentée, rondelle dentelée, "
            "rondelle à denture, rondelle crantée, rondelle éventail à denture"
        ),
        "es": phrases(
            "arandela dentada, arandela estrella, arandela de estrella, arandela de abanico, "
            "arandela dentado, arandela dientes"
        ),
        "it": phrases(
            "rondella dentata, rosetta dentata, rondella dentellata, rosetta dentellata, "
            "rondella zigrinata, rondella a ventaglio, rosetta a ventaglio"
        ),
    },
    standards=(
        Standard("DIN 6797", order="Toothed lock washer DIN 6797 - {form?A} {bore}"),
        Standard("DIN 6798", order=_SERRATED),
        Standard("UNI 8841", rows="DIN 6797", order="Toothed lock washer UNI 8841 - {bore}"),
    ),
    table="toothed_lock_washer",
    thread="screw_size",
    layouts=WASHER_LAYOUTS,
    labels=_LABELS,
    needs=("screw_size|bore",),
    identity=("screw_size|bore",),
    order="Toothed lock washer DIN 6797 - {form?A} {bore}",
    question="For which screw is the washer?",
    refine=_toothed,
    inch_order="Tooth lock washer ASME B18.21.1 for {screw_size}",
    words=words("teeth tooth"),
    examples=(
        Example("DIN 6797 A 5,3", dimensions={"screw_size": "M5", "bore": "5.3"}, size_names="bore"),
        Example("tooth lock washer M4 external", dimensions={"screw_size": "M4"}, size_names="screw size"),
        Example("Fächerscheibe M6 DIN 6798", dimensions={"screw_size": "M6", "bore": "6.4"}),
        Example("rondelle éventail M3", dimensions={"screw_size": "M3"}),
    ),
    source="DIN 6797, DIN 6798",
    mates=Mates(in_bore=False, on_shaft=False),
)

FAMILIES = (LARGE_WASHER, SPRING_WASHER, TOOTHED_WASHER)
