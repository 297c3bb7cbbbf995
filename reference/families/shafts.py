"""Round shafts, the collars on them and the couplings between them.

The size of a shaft is its diameter; precision shafts for linear bearings are h6. A collar's size is the shaft that it
clamps. A coupling has two bores: two small numbers are the bores (5x8), two large ones are outside and length (25x30),
and then the bores are missing.

Sources: ISO 13012 (precision shafts), DIN 705 (set collars), common practice (couplings).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference import fits
from reference.families.base import Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Limits

_PRECISION = words(
    "linear precision prazisionswelle linearwelle hardened induction gehartet chrome chromed verchromt trempe guide"
    " guidage lineal precisione precision lineare cromata cromado cf53 rectifie rettificato rettificata rectificado"
    " geschliffen ground fuhrungswelle"
)
_PLAIN_WORDS = words("smooth round bar rod rund rundstahl rundstab varilla barra barre tige lisse lisa tonda stange")
_LARGEST_BORE = Decimal(15)
"""Two plain numbers above it are outside and length of a coupling, not bores [mm]."""

_THICKEST = Decimal(100)
"""No precision shaft is thicker: a larger number is a length [mm]."""

_D_SHAFT = re.compile(r"(?<![^\W_])d[- ](?:shaft|welle|arbre|eje|albero)|d[- ]?(?:cut|form)|abgeflacht|meplat")


def _shaft(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A precision shaft without a class is taken as h6, to be confirmed; any other rod has no known class."""
    for draft in drafts:
        outer = draft.dimensions.get("outer_diameter")
        if not draft.standards:
            draft.table_standard = ""
        if _D_SHAFT.search(facts.line.lower()):
            draft.attributes["form"] = "D"
        if not isinstance(outer, Limits) or facts.classes:
            continue
        if (
            outer.nominal <= _THICKEST
            and facts.says(*_PRECISION)
            and facts.attributes.get("material") not in {"aluminium", "brass", "plastic"}
        ):
            draft.dimensions["outer_diameter"] = fits.limits(outer.nominal, "h6")
            draft.attributes["tolerance_class"] = "h6"
            draft.asks.append("class h6")
        else:
            says = "a rod without a class may have any tolerance; precision shafts are h6"
            draft.notes.append(("class-not-stated", says, "ISO 13012"))
            draft.order_text = "Round rod {outer_diameter} x {length}"
    return drafts


def _coupling(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Two numbers are the bores, or outside and length; three leave the last open."""
    out: list[Draft] = []
    for draft in drafts:
        one, two = draft.dimensions.pop("one", None), draft.dimensions.pop("two", None)
        if isinstance(one, Limits) and isinstance(two, Limits):
            out += _body_or_bores(draft, one, two)
            continue
        if isinstance(one, Limits):
            draft.dimensions["bore"] = one
        _from_range(draft)
        _from_fraction(facts, draft)
        if "bore" in draft.dimensions and "bore_2" not in draft.dimensions:
            draft.doubts.append("A coupling joins two shafts. Which is the other bore?")
        elif "bore" not in draft.dimensions:
            draft.doubts.append(family.question)
        _possible(draft)
        _ends(draft, facts)
        out.append(draft)
    return out


def _from_fraction(facts: Facts, draft: Draft) -> None:
    """``5/8`` without an inch mark on a coupling is no fraction but the two bores."""
    found = re.search(r"(?<![\d/ ] )(?<![\d/])(\d{1,2})/(\d{1,2})(?![\d/\"]| ?(?:in|inch|zoll)\b)", facts.line)
    bore = draft.nominal("bore")
    if found is None or "bore_2" in draft.dimensions or bore is None:
        return
    one, two = Decimal(found[1]), Decimal(found[2])
    if bore == one / two * Decimal("25.4") and one >= 2:
        draft.dimensions |= {"bore": Limits(one), "bore_2": Limits(two)}
        facts.inches = False


def _possible(draft: Draft) -> None:
    """Doubt a body that could not hold the bores: outside and length are larger than both."""
    bores = [size for key in ("bore", "bore_2") if (size := draft.nominal(key)) is not None]
    for key in ("outer_diameter", "length"):
        size = draft.nominal(key)
        if size is not None and bores and size <= max(bores):
            shown = f"{key.replace('_', ' ')} {size.normalize():f} mm"
            draft.doubts.append(
                f"The {shown} is not larger than the bore {max(bores).normalize():f} mm. Which is which?"
            )


def _from_range(draft: Draft) -> None:
    """``8-10 mm`` on a coupling is no range but the two bores."""
    bore = draft.dimensions.get("bore")
    if isinstance(bore, Limits) and bore.upper is not None and "bore_2" not in draft.dimensions:
        draft.dimensions |= {"bore": Limits(bore.nominal), "bore_2": Limits(bore.upper)}


def _ends(draft: Draft, facts: Facts) -> None:
    """Ask for the body where only the bores are given; metric and inch bores meet in one coupling, so order in mm."""
    one, two = draft.nominal("bore"), draft.nominal("bore_2")
    if one is None or two is None:
        return
    bores = f"{one.normalize():f} and {two.normalize():f} mm"
    body = [draft.nominal(key) for key in ("outer_diameter", "length")]
    if None in body:
        draft.asks.append(f"bores {bores}, outside or length left open")
    if facts.inches or None in body:
        outside = "".join(
            f", {name} {size.normalize():f} mm" for name, size in zip(("outside", "length"), body, strict=True) if size
        )
        draft.order_text = f"Shaft coupling, bores {bores}{outside}"


def _body_or_bores(draft: Draft, one: Limits, two: Limits) -> list[Draft]:
    body = draft.copy(dimensions={**draft.dimensions, "outer_diameter": one, "length": two})
    body.size_names, body.evidence = "outer diameter", "assumed"
    bores = draft.copy(dimensions={**draft.dimensions, "bore": one, "bore_2": two}, evidence="assumed")
    shown = f"{one.nominal.normalize():f} and {two.nominal.normalize():f}"
    body.doubts.append(f"Are {shown} mm the outside and the length, or the two bores? Which bores?")
    return [body, bores]


def _collar(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """One number is the shaft; three are bore, outside and width, and then the size names the bore."""
    for draft in drafts:
        bore = draft.dimensions.get("bore")
        shaft = draft.dimensions.get("shaft_size")
        if isinstance(shaft, Limits):
            draft.dimensions["bore"] = shaft
            draft.size_names = "bore" if "outer_diameter" in draft.dimensions else "shaft size"
        elif isinstance(bore, Limits):
            draft.dimensions["shaft_size"] = bore
            draft.size_names = "bore"
        if not draft.standards:
            # Set collars of DIN 705 and clamping collars differ in outside and width.
            draft.table_standard = ""
        sizes = [size for key in ("bore", "outer_diameter", "width") if (size := draft.nominal(key)) is not None]
        shown = " x ".join(f"{size.normalize():f}" for size in sizes)
        draft.order_text = (
            f"Shaft collar {draft.standards[0]} - A {shown}" if draft.standards else f"Shaft collar {shown} mm"
        )
    return drafts


def _small(values: Mapping[str, Decimal]) -> bool:
    return max(values["bore"], values["bore_2"]) <= _LARGEST_BORE


def _joined(values: Mapping[str, Decimal]) -> bool:
    """Tell whether two numbers are bores although one is large: a body that is named apart must hold them."""
    outer = values.get("outer_diameter")
    return outer is not None and max(values["bore"], values["bore_2"]) < outer


SHAFT = Family(
    name="shaft",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "shaft, linear shaft, precision shaft, smooth rod, round bar, round rod, guide shaft,"
            " linear rod, ground rod,"
            " hardened rod, chrome rod, silver steel, linear motion shaft, linear rail shaft, optical axis, d shaft,"
            " steel rod, axle, chromed rod, precision rod, cylindrical rod, polished rod, guide rod"
        )
        + phrases("h, g", "rod, bar")
        + phrases("aluminium, aluminum, alu, brass, stainless, bronze, copper, titanium, nylon, pom", "rod, round bar"),
        "de": phrases(
            "Welle, Präzisionswelle, Linearwelle, Rundstahl, Rundstab, Silberstahl, Führungswelle,"
            " Rundstange, Rundmaterial,"
            " Stahlwelle, Rundeisen"
        ),
        "fr": phrases(
            "arbre, arbre de précision, tige lisse, barre ronde, tige ronde, arbre linéaire, axe lisse,"
            " arbre de guidage,"
            " tige acier, tige inox, barre lisse, tige rectifiée, tige chromée"
        ),
        "es": phrases(
            "eje lineal, varilla lisa, barra redonda, eje de precisión, varilla calibrada,"
            " barra calibrada, eje rectificado,"
            " varilla acero, barra acero, varilla cromada, barra lisa, eje templado, varilla redonda, eje guía, eje"
        ),
        "it": phrases(
            "albero, albero rettificato, barra tonda, albero di precisione, barra rettificata,"
            " tondo rettificato, barra liscia,"
            " asta liscia, albero lineare, barra cromata"
        ),
        "zh": phrases("guangzhou"),
    },
    standards=(Standard("ISO 13012"),),
    table="shaft",
    layouts=(
        Layout(("outer_diameter", "length"), when=lambda v: v["outer_diameter"] <= v["length"]),
        Layout(("length", "outer_diameter"), when=lambda v: v["outer_diameter"] < v["length"]),
        Layout(("outer_diameter", "length")),
        Layout(("outer_diameter",)),
    ),
    labels={"shaft": "outer_diameter", "id": "bore", "thickness": "-", "width": "-"},
    needs=("outer_diameter", "length"),
    identity=("outer_diameter",),
    listed_sizes=False,
    order="Precision shaft {outer_diameter} {tolerance_class?h6} x {length}",
    question="Which diameter and class, and which length?",
    refine=_shaft,
    yields=True,
    uniform_length=True,
    unless=words(
        "motor seal grinder encoder golf elevator drive propeller cardan prop curtain welding fishing threaded tent"
        " seal simmerring radial hoist lift flexible christmas noel natale soldering coordenadas genealogique tie"
        " piston connecting knob"
    ),
    examples=(
        Example(
            "linear shaft 8mm h6 x 300 hardened",
            dimensions={"outer_diameter": "8", "length": "300"},
            size_names="outer diameter",
        ),
        Example("Präzisionswelle Ø8 h6 L=400 Cf53", dimensions={"outer_diameter": "8", "length": "400"}),
        Example("varilla lisa 8mm 300mm", dimensions={"outer_diameter": "8", "length": "300"}),
        Example("albero rettificato 10 h6 500", dimensions={"outer_diameter": "10", "length": "500"}),
        Example("D-shaft 6 x 100", dimensions={"outer_diameter": "6", "length": "100"}),
        Example("precision shaft", state="ambiguous"),
    ),
    source="ISO 13012; common practice",
)

SHAFT_COUPLING = Family(
    name="shaft coupling",
    size_names="bore",
    key="catalogue_number",
    nouns={
        "en": phrases("coupling, coupler, couplings, couplers")
        + phrases(
            "shaft, flexible, jaw, beam, rigid, motor, plum, spider, helical, oldham, bellows", "coupling, coupler"
        ),
        "de": phrases(
            "Kupplung, Wellenkupplung, Motorkupplung, Klauenkupplung, Federkupplung, Balgkupplung, Spindelkupplung,"
            " Oldhamkupplung, Metallbalgkupplung, Schlitzkupplung"
        ),
        "fr": phrases("accouplement, accouplement flexible, coupleur, accouplement d'arbre, accouplement rigide"),
        "es": phrases("acoplador, acoplador flexible, acoplamiento, acople flexible, acoplamiento flexible, acople"),
        "it": phrases("giunto, giunto flessibile, giunto elastico, giunto rigido, accoppiatore, giunto albero"),
        "zh": phrases("lianzhouqi"),
    },
    table="shaft_coupling",
    layouts=(
        Layout(("bore", "bore_2"), when=lambda v: _small(v) or _joined(v), says="two small numbers are the two bores"),
        Layout(("one", "two")),
        Layout(
            ("bore", "bore_2", "outer_diameter", "length"),
            when=lambda v: max(v["bore"], v["bore_2"]) < v["outer_diameter"],
            says="bores, outside, length",
        ),
        Layout(
            ("outer_diameter", "length", "bore", "bore_2"),
            when=lambda v: max(v["bore"], v["bore_2"]) < v["outer_diameter"],
            says="outside, length, bores",
        ),
        Layout(("bore", "bore_2", "length"), when=lambda v: max(v["bore"], v["bore_2"]) < v["length"]),
        Layout(
            ("bore", "bore_2", "outer_diameter"),
            competes=True,
            when=lambda v: max(v["bore"], v["bore_2"]) < v["outer_diameter"],
        ),
        Layout(("one",)),
    ),
    labels={"diameter": "outer_diameter", "shaft": "bore", "hole": "bore", "id": "bore"},
    needs=("bore", "bore_2", "outer_diameter", "length"),
    order="Shaft coupling {bore} to {bore_2}, outside D{outer_diameter}, length L{length}",
    question="Which two bores, and which outside and length?",
    refine=_coupling,
    unless=words(
        "hose garden quick pneumatic air pipe fire water camlock trailer anhanger clutch nut rivet bit electrical rope"
        " storz cable conduit hydraulic train railway expansion dilatation gaskets sealing copper brass pvc tubo tube"
    ),
    examples=(
        Example(
            "coupling 5x8 D19 L25",
            dimensions={"bore": "5", "bore_2": "8", "outer_diameter": "19", "length": "25"},
            size_names="bore",
        ),
        Example("Kupplung 6,35/10 D25L30", dimensions={"bore": "6.35", "bore_2": "10", "length": "30"}),
        Example("acoplador flexible 6x8 mm", dimensions={"bore": "6", "bore_2": "8"}),
        Example("shaft coupler 4 to 6.35", dimensions={"bore": "4", "bore_2": "6.35"}),
        Example("coupling 25x30", state="ambiguous"),
        Example("flexible coupling 5 mm", state="ambiguous"),
    ),
    mates=Mates(in_bore=False),
)

SHAFT_COLLAR = Family(
    name="shaft collar",
    size_names="shaft size",
    key="bore",
    nouns={
        "en": phrases(
            "shaft collar, set collar, clamping collar, clamp collar, lock collar, locking collar, stop collar"
        )
        + phrases(
            "shaft stop, fixing ring, stop ring, shaft ring, split collar, collar set screw, locking ring, shaft lock"
        ),
        "de": phrases("Stellring, Klemmring, Wellenklemmring, Wellenstellring"),
        "fr": phrases("bague d'arrêt, bague de serrage, collier d'arbre, bague d'arbre, bague d'arrêt vis"),
        "es": phrases("collar de eje, anillo de fijación, anillo de ajuste, collarín de eje, anillo de tope, collarín"),
        "it": phrases(
            "anello di arresto albero, collare albero, anello di bloccaggio, anello di fermo, collare di bloccaggio"
        ),
    },
    standards=(Standard("DIN 705"),),
    table="shaft_collar",
    layouts=(
        Layout(("bore", "outer_diameter", "width"), when=lambda v: v["bore"] < v["outer_diameter"]),
        Layout(("outer_diameter", "bore", "width"), when=lambda v: v["bore"] < v["outer_diameter"]),
        Layout(("bore", "outer_diameter"), when=lambda v: v["bore"] < v["outer_diameter"]),
        Layout(("shaft_size",)),
    ),
    labels={
        **dict.fromkeys(("length", "height", "thickness", "depth"), "width"),
        "hole": "bore",
        "shaft": "shaft_size",
    },
    needs=("bore",),
    identity=("bore",),
    order="Shaft collar {bore} mm",
    question="For which shaft?",
    refine=_collar,
    unless=words("dog cat shirt pipe hose exhaust saddle bit"),
    examples=(
        Example("shaft collar 8mm", dimensions={"shaft_size": "8", "bore": "8"}, size_names="shaft size"),
        Example("Stellring DIN 705 A 10", dimensions={"bore": "10", "outer_diameter": "20", "width": "10"}),
        Example(
            "fixing ring 6x12x6",
            dimensions={"bore": "6", "outer_diameter": "12", "width": "6"},
            size_names="bore",
        ),
        Example("shaft collar", state="ambiguous"),
    ),
    source="DIN 705; common practice",
    mates=Mates(for_shaft="shaft_size", in_bore=False),
)

FAMILIES = (SHAFT, SHAFT_COUPLING, SHAFT_COLLAR)
