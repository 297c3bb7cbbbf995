"""Retaining rings for shafts and for bores, E-rings, and lines that leave open which.

A ring for shafts (DIN 471) is named by its shaft, a ring for bores (DIN 472) by its bore; in trade A marks a shaft, J a
bore. An E-ring (DIN 6799) is named by the GROOVE: size 5 sits on shafts of 6 to 8 mm. Inch E-rings are named by the
shaft.

Sources: DIN 471, DIN 472, DIN 6799 (tables); letters A and J: DIN 471, DIN 472; inch E-rings: common practice.
"""

import re
from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Mates, Standard, phrases
from reference.families.facts import Draft, Facts
from reference.quantities import Limits

_RINGS = {
    "en": "circlip, retaining ring, snap ring, seeger, seeger ring, C clip, C ring, retainer ring, circlip ring",
    "de": "Seegerring, Sicherungsring, Sprengring, Seeger Ring, Seegersicherung, Seeger, Circlip",
    "fr": "circlip, circlips, anneau élastique, anneau d'arrêt, segment d'arrêt, anneau de retenue, seeger",
    "es": "anillo elástico, anillo seeger, anillo de retención, circlip, anillo de seguridad, seeger, seguro seeger",
    "it": "anello elastico, anello seeger, seeger, anello di arresto, anello di sicurezza, anello di ritegno, circlip",
}
_ON_SHAFTS = {
    "en": "external, shaft, outer, outside, ext, shafts",
    "de": "Welle, Wellen, außen, Außensicherung, Achse",
    "fr": "extérieur, arbre, arbres, extérieure, ext",
    "es": "eje, exterior, ejes, externo",
    "it": "albero, esterno, alberi, esterni, per esterni",
}
_IN_BORES = {
    "en": "internal, bore, inner, inside, housing, hole, int, bores",
    "de": "Bohrung, Bohrungen, innen, Innensicherung, Gehäuse",
    "fr": "intérieur, alésage, alésages, intérieure, int",
    "es": "agujero, interior, agujeros, interno, alojamiento, taladro",
    "it": "foro, interno, fori, interni, per interni, sede",
}
_LETTER = re.compile(
    r"(?<![A-Za-z0-9])(?P<before>[AJIE](?=[ -]?[0-9])|[aj](?=[0-9]))[ -]?[0-9]+(?:[.,][0-9]+)?(?![0-9a-zA-Z]|[.,][0-9])"
    r"|(?<![A-Za-z])[0-9]+ ?(?P<behind>[AJIE])(?![A-Za-z0-9])"
)
_LETTERS = {"a": "external", "j": "internal"}
_ITALIAN_LETTERS = {**_LETTERS, "e": "external", "i": "internal"}

_EXTERNAL, _INTERNAL, _E_RING = "external retaining ring", "internal retaining ring", "E-ring"


def _nouns(sides: dict[str, str]) -> dict[str, tuple[str, ...]]:
    """Return every ring word with every word for the side it sits on."""
    return {language: phrases(rings, sides[language]) for language, rings in _RINGS.items()}


def _kinds(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A letter decides; without one the ring may be for a shaft, for a bore, or an E-ring."""
    letter = _LETTER.search(facts.line)
    out: list[Draft] = []
    for draft in drafts:
        size = draft.dimensions.pop("size", None)
        if size is None and not {"shaft_size", "hole_diameter"} & draft.dimensions.keys():
            draft.doubts.append("Is the ring for a shaft or for a bore, and for which diameter?")
            out.append(draft)
            continue
        others = {key: value for key, value in draft.dimensions.items() if key not in {"shaft_size", "hole_diameter"}}
        shaft = draft.dimensions.get("shaft_size", size)
        bore = draft.dimensions.get("hole_diameter", size)
        external = draft.copy(family=_EXTERNAL, size_names="shaft size")
        internal = draft.copy(family=_INTERNAL, size_names="hole size")
        if shaft is not None:
            external.dimensions = {"shaft_size": shaft, **others}
        if bore is not None:
            internal.dimensions = {"hole_diameter": bore, **others}
        if size is None:
            out.append(external if "shaft_size" in draft.dimensions else internal)
            continue
        letters = _ITALIAN_LETTERS if facts.says("anello", "anelli", "seeger") else _LETTERS
        side = letters.get((letter["before"] or letter["behind"]).lower()) if letter else None
        if letter and side == "external":
            external.because.append((letter[0], "A marks a ring for shafts", "DIN 471"))
            out.append(external)
        elif letter and side == "internal":
            internal.because.append((letter[0], "J marks a ring for bores", "DIN 472"))
            out.append(internal)
        else:
            external.evidence = internal.evidence = "assumed"
            out += [external, internal]
            if facts.says("retaining", "retention", "retencion", "retenue", "ritegno"):
                groove = draft.copy(family=_E_RING, size_names="groove diameter", evidence="assumed")
                groove.dimensions = {"groove_diameter": size, **others}
                out.append(groove)
    return out


def _groove(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A stated shaft needs the sizes that reach it; an inch size names the shaft; a metric one the groove."""
    for draft in drafts:
        shaft, groove = draft.nominal("shaft_size"), draft.nominal("groove_diameter")
        if facts.inches and not draft.standards and (groove is None) != (shaft is None):
            if groove is not None:
                draft.dimensions["shaft_size"] = draft.dimensions.pop("groove_diameter")
            draft.size_names = "shaft size"
            draft.because.append(
                ("inch", "inch E-rings are named by the shaft, metric ones by the groove", COMMON_PRACTICE)
            )
            draft.asks.append("the inch size as the shaft, not the groove")
            draft.order_text = "E-ring for shaft {shaft_size} in"
        elif shaft is not None and groove is None:
            fitting = [size for size, low, high in _reach(family) if low <= shaft <= high]
            draft.size_names = "shaft size"
            known = " or ".join(f"{size.normalize():f}" for size in fitting)
            draft.doubts.append(
                f"E-rings are named by the groove; on {shaft.normalize():f} mm sits size {known or '(none listed)'}."
                " Which groove diameter?"
            )
        elif groove is not None and not draft.standards:
            draft.asks.append(f"{groove.normalize():f} mm as the groove, not the shaft")
    return drafts


def _reach(family: Family) -> list[tuple[Decimal, Decimal, Decimal]]:
    """Return groove, smallest and largest shaft of every size."""
    found = []
    for row in family.sizes.rows if family.sizes else ():
        sizes = [row.dimensions.get(key) for key in ("groove_diameter", "shaft_size_lower", "shaft_size_upper")]
        found.append(tuple(size.nominal for size in sizes if isinstance(size, Limits)))
    return [(row[0], row[1], row[2]) for row in found if len(row) == 3]


EXTERNAL = Family(
    name=_EXTERNAL,
    size_names="shaft size",
    key="shaft_size",
    nouns=_nouns(_ON_SHAFTS),
    standards=(
        Standard("DIN 471"),
        Standard("GB/T 894", rows="DIN 471", order="Retaining ring GB/T 894 - {shaft_size}"),
        Standard("GB/T 894.1", rows="DIN 471", order="Retaining ring GB/T 894.1 - {shaft_size}"),
        Standard("UNI 7435", rows="DIN 471", order="Retaining ring UNI 7435 - {shaft_size} x {thickness}"),
    ),
    table="external_retaining_ring",
    layouts=(
        Layout(("shaft_size", "thickness"), when=lambda v: v["thickness"] < v["shaft_size"]),
        Layout(("thickness", "shaft_size"), when=lambda v: v["thickness"] < v["shaft_size"]),
        Layout(("shaft_size",)),
    ),
    labels={"diameter": "shaft_size", "od": "shaft_size", "slot": "groove_diameter"},
    needs=("shaft_size",),
    identity=("shaft_size",),
    order="Retaining ring DIN 471 - {shaft_size} x {thickness}",
    question="For which shaft is the ring?",
    plain_m=True,
    examples=(
        Example(
            "DIN 471 - 25 x 1,2",
            dimensions={"shaft_size": "25", "thickness": "1.2", "groove_diameter": "23.9"},
            size_names="shaft size",
        ),
        Example("external circlip 15", dimensions={"shaft_size": "15", "groove_diameter": "14.3"}),
        Example("Seegerring für 16 mm Welle", dimensions={"shaft_size": "16"}),
        Example("anneau élastique pour arbre 8", dimensions={"shaft_size": "8"}),
        Example("Sicherungsring DIN 471 20,5", state="ambiguous"),
    ),
    source="DIN 471",
    mates=Mates(for_shaft="shaft_size", in_bore=False),
)

INTERNAL = Family(
    name=_INTERNAL,
    size_names="hole size",
    key="hole_diameter",
    nouns=_nouns(_IN_BORES),
    standards=(
        Standard("DIN 472"),
        Standard("GB/T 893", rows="DIN 472", order="Retaining ring GB/T 893 - {hole_diameter}"),
        Standard("GB/T 893.1", rows="DIN 472", order="Retaining ring GB/T 893.1 - {hole_diameter}"),
        Standard("UNI 7437", rows="DIN 472", order="Retaining ring UNI 7437 - {hole_diameter} x {thickness}"),
    ),
    table="internal_retaining_ring",
    layouts=(
        Layout(("hole_diameter", "thickness"), when=lambda v: v["thickness"] < v["hole_diameter"]),
        Layout(("thickness", "hole_diameter"), when=lambda v: v["thickness"] < v["hole_diameter"]),
        Layout(("hole_diameter",)),
    ),
    labels={"diameter": "hole_diameter", "bore": "hole_diameter", "id": "hole_diameter", "slot": "groove_diameter"},
    needs=("hole_diameter",),
    identity=("hole_diameter",),
    order="Retaining ring DIN 472 - {hole_diameter} x {thickness}",
    question="For which bore is the ring?",
    plain_m=True,
    examples=(
        Example(
            "Retaining ring DIN 472 - 22 x 1",
            dimensions={"hole_diameter": "22", "thickness": "1", "groove_diameter": "23"},
            size_names="hole size",
        ),
        Example("internal circlip 16mm", dimensions={"hole_diameter": "16"}),
        Example("anillo elástico para agujero 26", dimensions={"hole_diameter": "26"}),
        Example("anello seeger per foro 19", dimensions={"hole_diameter": "19"}),
        Example("Sicherungsring DIN 472 - 16,5", state="ambiguous"),
    ),
    source="DIN 472",
    mates=Mates(for_bore="hole_diameter"),
)

E_RING = Family(
    name=_E_RING,
    size_names="groove diameter",
    key="groove_diameter",
    nouns={
        "en": phrases(
            "E clip, E ring, eclip, ering, E type circlip, E retaining ring, E circlip, retaining washer, E snap ring"
        ),
        "de": phrases(
            "Sicherungsscheibe, RS Scheibe, Wellensicherungsscheibe, Sicherungsscheibe Welle, Haltescheibe, E Ring,"
            " E Clip, E"
            " Scheibe,"
            " Benzingring, Benzingscheibe, Benzingsicherung, Radialsicherungsring"
        ),
        "fr": phrases(
            "rondelle d'arrêt, anneau E, circlip E, circlips E, rondelle d'arrêt pour arbre, clip E, anneau d'arrêt E"
        ),
        "es": phrases(
            "arandela de retención, anillo E, clip E, circlip E, arandela de seguridad E, arandela E, anillo tipo E"
        ),
        "it": phrases(
            "anello benzing, anello E, anello radiale, benzing, rondella di sicurezza, clip E, anello di sicurezza E"
        ),
    },
    standards=(
        Standard("DIN 6799"),
        Standard("GB/T 896", rows="DIN 6799", order="Retaining washer GB/T 896 - {groove_diameter}"),
        Standard("UNI 7434", rows="DIN 6799", order="Retaining washer UNI 7434 - {groove_diameter}"),
        Standard("JIS B 2804", rows="DIN 6799", order="Retaining washer JIS B 2804 - {groove_diameter}"),
    ),
    table="e_ring",
    layouts=(
        Layout(("groove_diameter", "thickness"), when=lambda v: v["thickness"] < v["groove_diameter"]),
        Layout(("groove_diameter",)),
    ),
    labels={
        "slot": "groove_diameter",
        "diameter": "groove_diameter",
        "bore": "groove_diameter",
        "id": "groove_diameter",
    },
    needs=("groove_diameter|shaft_size",),
    identity=("groove_diameter|shaft_size",),
    order="Retaining washer DIN 6799 - {groove_diameter}",
    question="Which groove diameter has the E-ring?",
    plain_m=True,
    refine=_groove,
    examples=(
        Example(
            "Retaining washer DIN 6799 - 4",
            dimensions={"groove_diameter": "4", "thickness": "0.7"},
            size_names="groove diameter",
        ),
        Example("E-clip 5", dimensions={"groove_diameter": "5"}),
        Example("Sicherungsscheibe 2,3 DIN 6799 blank", dimensions={"groove_diameter": "2.3"}),
        Example("E-clip for 5 mm shaft", state="ambiguous"),
        Example("5/16 E-clip", dimensions={"shaft_size": "7.9375"}, size_names="shaft size"),
    ),
    source="DIN 6799",
    mates=Mates(in_bore=False),
)

RETAINING_RING = Family(
    name="retaining ring",
    size_names="shaft size",
    key="shaft_size",
    nouns={language: phrases(rings) for language, rings in _RINGS.items()},
    layouts=(
        Layout(("size", "thickness"), when=lambda v: v["thickness"] < v["size"]),
        Layout(("size",)),
    ),
    labels={"diameter": "size", "bore": "hole_diameter"},
    order="Retaining ring {size}",
    refine=_kinds,
    generic=True,
    yields=True,
    plain_m=True,
    kin=(_EXTERNAL, _INTERNAL, _E_RING),
    unless=frozenset({"hair", "plier", "pliers", "zange", "bearing", "pince", "alicates", "pinza"}),
    examples=(
        Example("retaining ring 12", state="ambiguous", size_names="shaft size"),
        Example("circlip 10", state="ambiguous"),
        Example("anneau élastique 20 x 1,2", state="ambiguous"),
        Example("anello seeger", state="ambiguous"),
    ),
    source="DIN 471, DIN 472",
)

FAMILIES = (EXTERNAL, INTERNAL, E_RING, RETAINING_RING)
