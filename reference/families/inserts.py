"""Threaded inserts: heat-set, press-in (self-clinching), wire thread inserts, wood inserts.

Each is named by its internal thread; the hole is another number. Sellers of heat-set inserts write outside diameter and
length in either order (``M3x5x4``), so two bare numbers stay open unless only one order gives an insert that exists.
The second number of a wire thread insert is its length: 1, 1.5, 2, 2.5 or 3 times the thread.

Sources: makers' series of heat-set inserts, DIN 8140, self-clinching nuts of type S (tables).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts, Number, ThreadMention
from reference.families.rules import NO_ROW, rows_with, shown, thread_in
from reference.quantities import Limits, ThreadSize
from reference.threads import metric

_LEAST, _ABOVE = Decimal("1.25"), Decimal("0.6")
"""Least outside diameter of an insert over its thread, and how far above the listed ones it may lie [mm]: practice."""
_HEAT = words(
    "heat hot melt melting brass knurled ultrasonic thermal warm messing laiton laton ottone "
    "chaud caliente caldo plastic print printed"
    " printing 3d kunststoff plastique plastico plastica hotmelt einschmelzen einschmelz "
    "einschmelzgewinde warmeinbetten heatset termico injection"
)
_SIZES_OPEN = "Which outside diameter over the knurl, which length, and which hole is the insert made for?"
_KIND_OPEN = "Is it a heat-set, a wire thread or a screw-in insert?"


def _is_heat(facts: Facts) -> bool:
    """Tell whether the words name an insert that is melted in, not any threaded insert."""
    return bool(facts.words & _HEAT) or any(
        word.startswith(("einschmelz", "hotmelt", "heatset")) for word in facts.words
    )


def _could_be_outside(thread: ThreadSize, value: Decimal) -> bool:
    """Tell whether inserts with this thread have about such an outside diameter."""
    listed = [
        size.nominal
        for row in rows_with(HEAT_SET, internal_thread=thread.designation)
        if isinstance(size := row.dimensions.get("outer_diameter"), Limits)
    ]
    greatest = max(listed) + _ABOVE if listed else thread.diameter * 2
    return thread.diameter * _LEAST <= value <= greatest


def _without_m(draft: Draft, facts: Facts) -> list[Draft]:
    """``4x3x5``: read as the thread each number that leaves the outside diameter of an insert that exists."""
    numbers = [
        part.value for chain in facts.chains for part in chain if isinstance(part, Number) and part.label is None
    ]
    out: list[Draft] = []
    for k, value in enumerate(numbers):
        thread, others = metric(value), numbers[:k] + numbers[k + 1 :]
        if thread is None or len(others) != 2:
            continue
        for outer, length in (others, others[::-1]):
            if outer > value and _could_be_outside(thread, outer):
                dimensions = {"internal_thread": thread, "outer_diameter": Limits(outer), "length": Limits(length)}
                out.append(
                    draft.copy(
                        evidence="assumed",
                        dimensions=dimensions,
                        rest=[],
                        table_standard=NO_ROW,
                        because=[
                            *draft.because,
                            (
                                shown(value),
                                "the only number that leaves the outside diameter of an insert",
                                COMMON_PRACTICE,
                            ),
                        ],
                    )
                )
    if out:
        out[0].doubts.append("Which number is the thread, which the outside diameter, which the length?")
    return out


def _different(drafts: Sequence[Draft]) -> list[Draft]:
    """Return the drafts without those that say the same: ``M3x5x5`` has one meaning in either order."""
    return [
        draft for k, draft in enumerate(drafts) if not any(draft.dimensions == other.dimensions for other in drafts[:k])
    ]


def _heat_set(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Drop the orders of the numbers that no insert has; ask where two remain or nothing but the thread is said."""
    thread = thread_in(drafts[0], "internal_thread")
    if thread is None:
        found = _without_m(drafts[0], facts)
        if found or not _is_heat(facts) or not (facts.chains or facts.labelled):
            return found
        return drafts[:1]
    numbers_open = len(drafts) > 1 or bool(drafts[0].dimensions.keys() & {"outer_diameter", "length"})
    fitting = []
    for draft in drafts:
        outer = draft.nominal("outer_diameter")
        draft.table_standard = NO_ROW
        for extra in [part for part in draft.rest if isinstance(part, ThreadMention) and part.thread == thread]:
            draft.drop(extra)
        if outer is None or not numbers_open or _could_be_outside(thread, outer):
            fitting.append(draft)
    fitting = _different(fitting or drafts)
    definite = _is_heat(facts)
    for draft in fitting:
        outer, length, hole = (draft.nominal(key) for key in ("outer_diameter", "length", "hole_diameter"))
        _hole_of(family, draft, thread, outer)
        most = re.search(r"max\.?\s*([\d.,]+)", facts.line.lower())
        if most and length is not None and most[1].rstrip(".,").replace(",", ".") == shown(length):
            draft.attributes["length_max"] = shown(length)
        if outer is None and length is None and hole is None:
            draft.doubts.append(_SIZES_OPEN)
        elif outer is None and hole is None and not definite:
            draft.doubts.append(_KIND_OPEN)
        elif "hole_diameter" not in draft.dimensions:
            draft.asks.append(
                "outside diameter and hole by the maker's sheet" if outer is None else "the hole by the maker's sheet"
            )
    if len(fitting) > 1:
        fitting[0].doubts.append(_SIZES_OPEN)
    return fitting


def _hole_of(family: Family, draft: Draft, thread: ThreadSize, outer: Decimal | None) -> None:
    """Add the hole where all makers' inserts of this thread and outside diameter take the same."""
    if outer is None or "hole_diameter" in draft.dimensions:
        return
    rows = rows_with(family, internal_thread=thread.designation, outer_diameter=outer)
    holes = {hole.nominal: row for row in rows if isinstance(hole := row.dimensions.get("hole_diameter"), Limits)}
    if len(holes) == 1:
        value, row = holes.popitem()
        says = f"inserts of this size take a hole of {shown(value)} mm"
        draft.give("hole_diameter", value, shown(outer), says, row.source)


_INSERT = Layout(("length",))

HEAT_SET = Family(
    name="heat-set insert",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "heat set insert, heat-set insert, warm press insert, hot press insert, heat set, "
            "heat insert, heat-set, heatset, "
            "heat set nut, hot melt insert, hot melt nut, brass insert, brass insert nut,"
            " threaded insert, screw insert, insert, insert nut, knurled insert, "
            "brass threaded insert, heat staking insert, melt-in insert, thread insert, "
            "insertion nut,"
            " knurled brass insert, knurled brass nut insert, brass heat insert, heat nut, "
            "injection nut, injection brass nut, embedment nut, embedded nut, ultrasonic insert,"
            " brass knurled nut insert, brass insert heat set, heat press insert, heat-press insert, "
            "hot insert, brass hot melt inset nut, inset nut, hot melt inset nut, knurled insert nut, "
            "brass embedment nut"
        ),
        "de": phrases(
            "Einschmelzgewinde, Gewindeeinsatz Einschmelzen, Einschmelzmutter, Gewindeeinsatz, "
            "Einschmelzbuchse, Gewindeeinsatz Kunststoff, Einpressmutter Kunststoff Einschmelzen,"
            " Gewindebuchse, Einschmelz Gewindeeinsatz, Gewindeeinsätze, Gewindeinsert, "
            "Einschmelzgewindebuchse, Gewindebuchse Einschmelzen, Warmeinbetten Gewindeeinsatz, "
            "Messing Gewindeeinsatz, Einschmelzeinsatz"
        ),
        "fr": phrases(
            "insert à chaud, insert laiton, insert fileté, insert à fondre, insert thermique, "
            "insert taraudé, insert fileté à chaud, insert laiton à chaud, insert plastique, insert"
        ),
        "es": phrases(
            "inserto térmico, inserto latón, inserto roscado, inserto en caliente, inserto de latón, "
            "inserto roscado caliente, inserto, tuerca inserto latón, inserto calor, "
            "inserto roscado latón"
        ),
        "it": phrases(
            "inserto a caldo, inserto ottone, inserto filettato, inserto termico, inserto in ottone, "
            "inserto, inserto filettato ottone, inserto filettato a caldo, inserto a caldo ottone, "
            "boccola filettata a caldo"
        ),
        "zh": phrases("re rong luomu, rerong luomu, tong luomu"),
    },
    table="heat_set_insert",
    thread="internal_thread",
    layouts=(
        Layout(("outer_diameter", "length")),
        Layout(("length", "outer_diameter"), competes=True),
        Layout(("outer_diameter",)),
        Layout(("length",), competes=True),
    ),
    labels={
        "diameter": "outer_diameter",
        "od": "outer_diameter",
        "height": "length",
        "thickness": "length",
        "width": "outer_diameter",
        "bore": "hole_diameter",
    },
    needs=("internal_thread", "outer_diameter|hole_diameter", "length"),
    identity=("internal_thread",),
    order="Heat-set insert {internal_thread} x D{outer_diameter} x L{length}, "
    "hole {hole_diameter?by the maker's sheet}",
    question="Which thread has the insert, which outside diameter and length, and which hole is it made for?",
    refine=_heat_set,
    kin=("wire thread insert", "press-in insert", "wood insert", "rivet nut"),
    listed_sizes=False,
    unless=words(
        "carbide turning milling cnmg apmt dcmt tcmt ccmt rpmt foam shoe drawer valve seat lathe "
        "tip tips boring iron soldering ear bearing cava profile"
    ),
    words=_HEAT,
    examples=(
        Example(
            "M4 x D6.0 x L8.0 heat set insert",
            dimensions={"internal_thread": "M4", "outer_diameter": "6", "length": "8"},
            size_names="internal thread",
        ),
        Example(
            "heat insert M3, OD 4.6, 4 mm long",
            dimensions={"internal_thread": "M3", "outer_diameter": "4.6", "length": "4"},
        ),
        Example("Einschmelzgewinde M5 x 9,5", dimensions={"internal_thread": "M5", "length": "9.5"}),
        Example(
            "insert laiton à chaud M3 Ø5 L4", dimensions={"internal_thread": "M3", "outer_diameter": "5", "length": "4"}
        ),
        Example("M4x6x5 heat-set insert", state="ambiguous", size_names="internal thread"),
    ),
    mates=Mates(own_hole="", on_shaft=False),
)


def _press_code(groups: Mapping[str, str]) -> Draft | None:
    """``S-M3-1``: self-clinching nut, thread, shank code for the least sheet."""
    thread = metric(Decimal(groups["size"].replace(",", ".")))
    if thread is None:
        return None
    draft = Draft("press-in insert", "internal thread", "stated", {"internal_thread": thread})
    sheet = _SHANKS.get(groups.get("shank", ""))
    if sheet is not None:
        draft.attributes["min_sheet"] = sheet
        draft.because.append(
            (f"-{groups['shank']}", f"shank for sheet of at least {sheet} mm, no length", COMMON_PRACTICE)
        )
    if not rows_with(PRESS_IN, internal_thread=thread.designation):
        draft.doubts.append(f"No self-clinching nut {thread.designation} is listed. Which thread?")
    draft.attributes["shank"] = groups.get("shank", "")
    draft.order_text = f"Self-clinching nut S-{thread.designation}-{groups.get('shank', '')}"
    return draft


_SHANKS = {"0": "0.8", "1": "1", "2": "1.4", "3": "2.3"}
"""Shank code of a self-clinching nut -> least sheet thickness [mm]: from memory, makers' catalogues agree on it."""


def _press(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """The table holds nuts for sheet metal; a press-in insert for plastic has other holes."""
    out = [draft for draft in drafts if "internal_thread" in draft.dimensions or draft.rest]
    for draft in out:
        clinching = (
            facts.says(
                "clinching",
                "clinch",
                "pem",
                "einpressmutter",
                "autosertissable",
                "press",
                "sheet",
                "blech",
                "autoagganciante",
                "autoclavable",
            )
            or "series" in draft.attributes
        )
        if (
            not clinching
            or facts.says("brass", "plastic", "messing", "kunststoff", "laiton", "ottone", "laton")
            or "outer_diameter" in draft.dimensions
            or "length" in draft.dimensions
        ):
            draft.table_standard = NO_ROW
    return out


PRESS_IN = Family(
    name="press-in insert",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "press-in insert, press in insert, press-in nut, press in nut, self clinching nut, "
            "self-clinching nut, clinch nut, clinching nut, press fit nut, press nut, "
            "press fit insert, pressnut, self clinch nut, PEM nut, press-fit insert, "
            "press-fit threaded insert, press in threaded insert, broaching nut"
        ),
        "de": phrases(
            "Einpressmutter, Einpressgewinde, Einpressgewindebuchse, Pressmutter, Einpressmuttern, "
            "Einpressbuchse Gewinde, Einpress Mutter, Einpressgewindeeinsatz, "
            "Gewindeeinsatz Einpressen, Gewindebuchse Einpressen, Einpresseinsatz"
        ),
        "fr": phrases(
            "écrou autosertissable, écrou à presser, insert à presser, écrou à emmancher, "
            "écrou auto-sertissable, insert press-fit, écrou pressé, écrou à enfoncer"
        ),
        "es": phrases(
            "tuerca autoclavable, tuerca a presión, tuerca de prensa, inserto a presión, "
            "tuerca de inserción a presión, tuerca prensada, tuerca autoprensable"
        ),
        "it": phrases(
            "dado autoagganciante, dado a pressione, inserto a pressione, "
            "boccola filettata a pressione, dado a pressare, inserto a pressare, dado autoaggrappante"
        ),
    },
    codes=(
        Code(
            r"(?:clss|cls|ss|sp|s)-?m(?P<size>\d{1,2}(?:[.,]\d)?)-(?P<shank>[0-3])(?:zi)?",
            identifies=True,
            decode=_press_code,
            says="a self-clinching nut: thread, then the code of the shank",
            source="makers' catalogues (common practice)",
        ),
    ),
    table="press_in_insert",
    thread="internal_thread",
    layouts=(
        Layout(("length",), when=lambda v: "internal_thread" in v),
        Layout(("outer_diameter", "length"), when=lambda v: "internal_thread" in v),
        Layout(
            ("length", "outer_diameter"),
            competes=True,
            when=lambda v: "internal_thread" in v and v["outer_diameter"] > v["internal_thread"],
        ),
    ),
    labels={"od": "outer_diameter", "diameter": "outer_diameter", "sheet": "@min_sheet", "height": "length"},
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Self-clinching nut {internal_thread}",
    question="Which thread has the press-in nut, and how thick is the sheet?",
    refine=_press,
    listed_sizes=False,
    words=words("sheet steel"),
    unless=words("tool"),
    examples=(
        Example(
            "self clinching nut S-M4-2",
            dimensions={"internal_thread": "M4", "hole_diameter": "5.4"},
            size_names="internal thread",
        ),
        Example("Einpressmutter M5", dimensions={"internal_thread": "M5"}),
        Example("press-in nut M3 for sheet", dimensions={"internal_thread": "M3", "hole_diameter": "4.25"}),
        Example("écrou autosertissable M6", dimensions={"internal_thread": "M6"}),
    ),
    mates=Mates(own_hole="", on_shaft=False),
)

_TIMES = re.compile(r"(?<![\w.,])([\d.,]+)\s?(?:x\s?)?d(?![a-z])")
_RATIOS = (Decimal(1), Decimal("1.5"), Decimal(2), Decimal("2.5"), Decimal(3))


def _wire(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read ``2D`` as a length of twice the thread; doubt a length that is no usual multiple."""
    out: list[Draft] = []
    for draft in drafts:
        thread = thread_in(draft, "internal_thread")
        if thread is None:
            if draft.dimensions or draft.rest:
                out.append(draft)
            continue
        times = _TIMES.search(facts.line.lower())
        ratio = Decimal(times[1].replace(",", ".")) if times and re.fullmatch(r"\d(?:[.,]\d)?", times[1]) else None
        if times and ratio is not None and ratio in _RATIOS:
            for key in ("outer_diameter", "length"):
                if draft.nominal(key) == ratio:
                    del draft.dimensions[key]
            draft.rest = [part for part in draft.rest if not (isinstance(part, Number) and part.value == ratio)]
            says = f"length {shown(ratio)} times the thread"
            draft.give("length", ratio * thread.diameter, times[0], says, "DIN 8140")
        length = draft.nominal("length")
        if length is not None:
            share = (length / thread.diameter).quantize(Decimal("0.01"))
            if share in _RATIOS:
                draft.attributes["length_ratio"] = f"{shown(share)}d"
            elif thread.system == "metric":
                draft.doubts.append(
                    f"{shown(length)} mm is no usual length of an insert for {thread.designation} (1, 1.5, 2, "
                    "2.5 or 3 times the thread). Is it the length?"
                )
        out.append(draft)
    return out


WIRE_INSERT = Family(
    name="wire thread insert",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "wire thread insert, thread insert, thread inserts, helical insert, coil insert, "
            "thread repair insert, wire insert, "
            "helicoil, heli-coil, heli coil, helicoil insert, helical thread insert, "
            "helical coil insert, screw thread insert, thread repair coil, wire threaded insert, "
            "coil thread insert, threaded insert helical, recoil insert, helical threaded insert, "
            "thread coil"
        ),
        "de": phrases(
            "Drahtgewindeeinsatz, Gewindeeinsatz Draht, Gewindereparatureinsatz, "
            "Gewindeeinsatz DIN 8140, Gewinde Reparatur Einsatz, Gewindeeinsatz, Gewindespirale, "
            "Gewindeeinsatz Helicoil, Gewindereparatur Einsatz, Drahtgewindeeinsätze"
        ),
        "fr": phrases(
            "filet rapporté, insert hélicoïdal, filet hélicoïdal, filets rapportés, insert fil, "
            "filet rapporté hélicoïdal, filet hélicoil"
        ),
        "es": phrases(
            "inserto helicoidal, helicoide, inserto de rosca helicoidal, inserto de rosca de alambre, "
            "inserto roscado helicoidal, rosca insertada helicoidal"
        ),
        "it": phrases(
            "filetto riportato, inserto elicoidale, inserto filettato elicoidale, filetti riportati, "
            "filetto a spirale, elicoide filettato"
        ),
    },
    standards=(Standard("DIN 8140", order="Wire thread insert DIN 8140 - {internal_thread} x {length}"),),
    table="wire_thread_insert",
    thread="internal_thread",
    layouts=(_INSERT,),
    labels={"thread": "-", "wire": "length"},
    needs=("internal_thread", "length"),
    identity=("internal_thread",),
    order="Wire thread insert DIN 8140 - {internal_thread} x {length}",
    question="Which thread has the insert, and how long is it?",
    length_says="the length is given as a multiple of the thread",
    refine=_wire,
    listed_lengths=False,
    inch_order="Wire thread insert {internal_thread} x {length} in",
    unless=words("kit tap installation tool drill mandrel"),
    examples=(
        Example(
            "helical insert M4x6", dimensions={"internal_thread": "M4", "length": "6"}, size_names="internal thread"
        ),
        Example(
            "wire thread insert DIN 8140 M5 x 10",
            dimensions={"internal_thread": "M5", "length": "10", "hole_diameter": "5.2"},
        ),
        Example("filet rapporté M6 1,5D", dimensions={"internal_thread": "M6", "length": "9"}),
        Example("Drahtgewindeeinsatz M8 2xD", dimensions={"internal_thread": "M8", "length": "16"}),
        Example("thread repair insert M5 x 6", state="ambiguous", size_names="internal thread"),
    ),
    source="DIN 8140",
    mates=Mates(own_hole="", on_shaft=False),
)


def _wood_insert(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A lone number is the length; of two, either may be the outside diameter."""
    out = [draft for draft in drafts if "internal_thread" in draft.dimensions]
    fitting = []
    for draft in _different(out):
        thread, outer = thread_in(draft, "internal_thread"), draft.nominal("outer_diameter")
        if (
            outer is None
            or thread is None
            or thread.diameter * Decimal("1.3") <= outer <= thread.diameter * Decimal("2.2")
        ):
            fitting.append(draft)
    if len(fitting) > 1:
        fitting[0].doubts.append("Which is the outside diameter, which the length?")
    return fitting or out


WOOD_INSERT = Family(
    name="wood insert",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "wood insert, wood insert nut, insert nut wood, threaded insert wood, D nut wood, "
            "furniture insert, furniture insert nut, wood threaded insert, wood nut, "
            "screw-in nut wood, screw in insert wood, insert nut, insert for wood, "
            "hex drive insert nut, wood thread insert, insert nut furniture"
        ),
        "de": phrases(
            "Einschraubmutter, Eindrehmutter, Einschraubmuffe, Rampamuffe, Holzgewindeeinsatz, "
            "Einschraubmutter Holz, Gewindeeinsatz Holz, Eindrehmuffe, Holz Gewindemuffe, "
            "Gewindemuffe Holz, Gewindebuchse Holz, Einschraubmuttern"
        ),
        "fr": phrases(
            "insert bois, insert à visser, écrou à visser bois, insert fileté bois, insert pour bois, "
            "douille à visser bois, écrou insert bois, insert à visser bois"
        ),
        "es": phrases(
            "inserto para madera, inserto madera, tuerca inserto madera, inserto roscado madera, "
            "casquillo roscado madera, tuerca de inserción madera, rosca madera inserto"
        ),
        "it": phrases(
            "inserto legno, inserto per legno, boccola legno, inserto filettato legno, "
            "bussola filettata legno, boccola filettata legno, boccola per legno"
        ),
    },
    standards=(Standard("DIN 7965", order="Screw-in nut for wood DIN 7965 - {internal_thread} x {length}"),),
    thread="internal_thread",
    layouts=(
        Layout(("length",)),
        Layout(("outer_diameter", "length")),
        Layout(("length", "outer_diameter"), competes=True),
    ),
    labels={"diameter": "outer_diameter", "od": "outer_diameter", "height": "length"},
    needs=("internal_thread", "length"),
    identity=("internal_thread",),
    order="Screw-in nut for wood {internal_thread} x {length}",
    question="Which thread, outside diameter and length has the insert?",
    length_says="the length is measured over all",
    refine=_wood_insert,
    inch_order="Screw-in nut for wood {internal_thread} x {length} in",
    mates=Mates(own_hole="", on_shaft=False),
    examples=(
        Example(
            "wood insert nut M8 x 20",
            dimensions={"internal_thread": "M8", "length": "20"},
            size_names="internal thread",
        ),
        Example("Einschraubmutter M6x15", dimensions={"internal_thread": "M6", "length": "15"}),
        Example("insert bois M5 L12", dimensions={"internal_thread": "M5", "length": "12"}),
        Example("inserto per legno M4 x 10", dimensions={"internal_thread": "M4", "length": "10"}),
        Example("wood insert M6x10x10", dimensions={"internal_thread": "M6", "outer_diameter": "10", "length": "10"}),
    ),
    source="DIN 7965",
)

FAMILIES = (HEAT_SET, PRESS_IN, WIRE_INSERT, WOOD_INSERT)
