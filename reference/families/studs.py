"""Studs, threaded rods, hanger bolts and dowel screws: threaded at both ends or all along, without a head.

The length of a stud by DIN 938, 939, 940, 835 is without its screwed-in end, which is 1, 1.25, 2.5, 2 times the thread.
A plain diameter on a threaded rod (``tige filetée Ø8``) is its thread.

Sources: DIN 938, DIN 939, DIN 940, DIN 835, DIN 976-1, DIN 975 (tables); hanger bolts: common practice.
"""

import re
from collections.abc import Sequence

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.families.rules import NO_ROW, thread_in
from reference.families.screws import LENGTH
from reference.quantities import Limits

_WHOLE = words("total overall gesamt gesamtlange totale complessiva tout oa oal")


def _stud(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Without a standard the length may count the screwed-in end or not."""
    out: list[Draft] = []
    for draft in drafts:
        if thread_in(draft, "thread") is None and not draft.standards:
            continue
        if draft.standards:
            if "length" in draft.dimensions:
                draft.because.append(("length", "is measured without the screwed-in end", draft.standards[0]))
        elif facts.words & _WHOLE:
            draft.table_standard = NO_ROW
            draft.order_text = "Stud {thread} x {length} overall"
        else:
            draft.doubts.append(
                "Is the length with or without the screwed-in end, "
                "and how long is that end (DIN 938: 1 d, 939: 1.25 d, 940: 2.5 d)?"
            )
            draft.table_standard = NO_ROW
        out.append(draft)
    return out


STUD = Family(
    name="stud",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "stud, stud screw, screw-in stud, double end stud, double ended stud, engine stud, "
            "stud bolt, stud bolts, studbolt, double-ended stud"
        ),
        "de": phrases("Stiftschraube, Stehbolzen, Stift Schraube, Stiftschrauben"),
        "fr": phrases("goujon, goujon fileté, goujon d'implantation, goujon à implanter"),
        "es": phrases("espárrago, espárrago roscado, espárragos"),
        "it": phrases("prigioniero, vite prigioniera, prigionieri, viti prigioniere, colonnetta prigioniera"),
    },
    standards=(
        *(
            Standard(name, order=f"Stud {name} - {{thread}} x {{length}} - {{property_class?5.8}}")
            for name in ("DIN 938", "DIN 939", "DIN 940", "DIN 835")
        ),
        Standard("UNI 5911", rows="DIN 938", order="Stud UNI 5911 - {thread} x {length} - {property_class?8.8}"),
    ),
    table="stud",
    thread="thread",
    layouts=(Layout(("length",)), Layout(("screwed_in_length", "length"))),
    needs=("thread", "length"),
    identity=("thread",),
    order="Stud DIN 938 - {thread} x {length} - {property_class?5.8}",
    question="Which thread has the stud?",
    length_says="the length is without the screwed-in end",
    refine=_stud,
    unless=words("wall finder ear earring lumber timber 2x4 metal wheel drywall earrings poker farm joist"),
    kin=("threaded rod", "set screw"),
    listed_lengths=False,
    words=_WHOLE,
    examples=(
        Example(
            "stud DIN 939 M8 x 30",
            dimensions={"thread": "M8", "length": "30", "screwed_in_length": "10"},
            size_names="external thread",
        ),
        Example(
            "Stiftschraube DIN 938 M10x40 8.8", dimensions={"thread": "M10", "length": "40", "screwed_in_length": "10"}
        ),
        Example("goujon M6x50 DIN 940", dimensions={"thread": "M6", "length": "50"}),
        Example("stud M8x40", state="ambiguous"),
    ),
    source="DIN 938, DIN 939, DIN 940",
    mates=Mates(through=True, over_all=True),
)


def _rod(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A T8 or trapezoidal threaded rod is a lead screw; ``1M`` in capitals is a metre."""
    low = facts.line.lower()
    if re.search(r"(?<![a-z])tr?\s?\d|trapez|acme|lead|husillo|spindel", low):
        return []
    for draft in drafts:
        length = draft.nominal("length")
        if length is not None and length <= 6 and re.search(rf"(?<![\d.,]){length.normalize():f}\s?m\b", low):
            draft.dimensions["length"] = Limits(length * 1000)
    return drafts


THREADED_ROD = Family(
    name="threaded rod",
    size_names="external thread",
    key="thread",
    nouns={
        "en": (
            *phrases(
                "threaded rod, thr rod, all thread, allthread, all-thread, threaded bar, studding, "
                "screwed rod, thread rod, thread bar, threaded stick, thrd rod"
            ),
            *phrases("fully threaded, full thread, all thread, headless fully threaded", "stud, bar, rod, stud bolt"),
            *phrases("threaded stud bar, stud rod, stud bar"),
        ),
        "de": phrases("Gewindestange, Gewindestab, Gewindebolzen, Gewinde Stange, Gewindestangen, Stange Gewinde"),
        "fr": phrases("tige filetée, barre filetée, tige fileté, tiges filetées, tirant fileté"),
        "es": phrases(
            "varilla roscada, barra roscada, esparrago barra roscada, vástago roscado, varilla rosca, "
            "espárrago rosca total"
        ),
        "it": phrases(
            "barra filettata, asta filettata, barre filettate, tirante filettato, barra filetto, barra roscata"
        ),
        "zh": phrases("si gan, luogan, ya tiao"),
    },
    standards=(
        Standard("DIN 976-1", order="Threaded rod DIN 976-1 - {thread} x {length} - A - {property_class?4.8}"),
        Standard(
            "DIN 976", rows="DIN 976-1", order="Threaded rod DIN 976-1 - {thread} x {length} - A - {property_class?4.8}"
        ),
        Standard("DIN 975", order="Threaded rod DIN 975 - {thread} x {length} - {property_class?4.8}"),
    ),
    table="threaded_rod",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order="Threaded rod DIN 976-1 - {thread} x {length} - A - {property_class?4.8}",
    question="Which thread has the rod?",
    refine=_rod,
    kin=("rod end",),
    listed_lengths=False,
    uniform_length=True,
    inch_order="Threaded rod {thread} x {length} in",
    unless=words("lead leadscrew trapezoidal ball nut tap die"),
    words=words("cut"),
    examples=(
        Example(
            "Gewindestange DIN 976 M6 x 1000 4.8",
            dimensions={"thread": "M6", "length": "1000"},
            size_names="external thread",
        ),
        Example("threaded rod M8 x 1 m", dimensions={"thread": "M8", "length": "1000"}),
        Example("varilla roscada Ø6 x 500", dimensions={"thread": "M6", "length": "500"}),
        Example("tige filetée M10x1 longueur 300", dimensions={"thread": "M10x1", "length": "300"}),
    ),
    source="DIN 976-1",
    mates=Mates(through=True, over_all=True),
)

_HANGER = "hanger bolt, hanger screw"


def _hanger(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    return [draft for draft in drafts if "thread" in draft.dimensions]


def _dowel_screw(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """``Dowel screw``: a wood thread at both ends, or one end metric (a hanger bolt)."""
    out: list[Draft] = []
    for draft in drafts:
        thread, length = thread_in(draft, "thread"), draft.nominal("length")
        if thread is None and "outer_diameter" not in draft.dimensions:
            continue
        size = thread.diameter if thread else draft.nominal("outer_diameter")
        both = draft.copy(evidence="assumed")
        if thread is not None:
            del both.dimensions["thread"]
        both.dimensions["outer_diameter"] = Limits(size)  # type: ignore[arg-type]
        both.because.append(("dowel screw", "a wood thread at both ends", COMMON_PRACTICE))
        if thread is not None:
            dimensions = {"thread": thread} | ({"length": Limits(length)} if length is not None else {})
            out.append(draft.copy(family="hanger bolt", size_names="external thread", dimensions=dimensions))
            out[0].because.append(
                (
                    "dowel screw",
                    "sellers also call a hanger bolt so: one end metric, one end wood thread",
                    COMMON_PRACTICE,
                )
            )
        out.append(both)
        both.doubts.append("Which thread has each end?")
    return out


HANGER_BOLT = Family(
    name="hanger bolt",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(_HANGER),
        "de": phrases("Stockschraube, Stock Schraube, Stockschrauben"),
        "fr": phrases("patte à vis, vis à double filetage, goujon à bois métaux, tire-fond double filetage"),
        "es": phrases("tornillo doble rosca, tornillo de doble rosca, espárrago madera metal"),
        "it": phrases("vite doppia filettatura, vite a doppia filettatura, vite doppio filetto, vite mordente"),
    },
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order="Hanger bolt {thread} x {length}",
    question="Which metric thread has the hanger bolt, and how long is it?",
    length_says="the length is measured over all",
    refine=_hanger,
    uniform_length=True,
    mates=Mates(through=True, over_all=True),
    examples=(
        Example("hanger bolt M8 x 60", dimensions={"thread": "M8", "length": "60"}, size_names="external thread"),
        Example("Stockschraube M6x80", dimensions={"thread": "M6", "length": "80"}),
        Example("vis à double filetage M8x50", dimensions={"thread": "M8", "length": "50"}),
        Example("tornillo doble rosca M10x100", dimensions={"thread": "M10"}),
    ),
)

DOWEL_SCREW = Family(
    name="dowel screw",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases("dowel screw, double ended wood screw, double end wood screw, dowel bolt"),
        "de": phrases("Doppelgewindeschraube, Holzdübelschraube, Dübelschraube"),
        "fr": phrases("vis double, goujon double filetage bois"),
        "es": phrases("tornillo doble madera"),
        "it": phrases("vite doppia legno"),
    },
    thread="thread",
    layouts=(
        Layout(("length",), when=lambda v: "thread" in v),
        Layout(("outer_diameter", "length")),
        Layout(("outer_diameter",)),
    ),
    needs=("outer_diameter", "length"),
    identity=("outer_diameter",),
    order="Dowel screw, wood thread at both ends, {outer_diameter} x {length}",
    question="Which thread has each end, and how long is the screw?",
    refine=_dowel_screw,
    mates=Mates(in_bore=False, on_shaft=False),
    examples=(Example("dowel screw M6 x 40", state="ambiguous"), Example("dowel screw 8 x 50", state="ambiguous")),
)

FAMILIES = (STUD, THREADED_ROD, HANGER_BOLT, DOWEL_SCREW)
