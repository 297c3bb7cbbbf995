"""Shoulder screws and hexagon fit bolts: the size is the ground shoulder, the thread is smaller.

ISO 7379 lists shoulders of 6.5, 8, 10, 13, 16, 20, 25 mm (h8); stock of 4, 5, 6, 12, 24 mm (f9) is sold under the same
number. European lines put the shoulder first (``8 x 20 M6``), Chinese ones the thread (``M4 x Ø5 x 12``); an M number
alone may be the thread or, carelessly, the shoulder. The length is that of the shoulder.

Sources: ISO 7379 and stock sizes (table); DIN 609 (fit bolts, shank 1 mm over the thread: from memory).
"""

from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import Example, Family, Layout, Mates, Standard, phrases
from reference.families.facts import Draft, Facts, ThreadMention
from reference.families.rules import rows_with, shown, size_in, thread_in
from reference.quantities import Limits, ThreadSize
from reference.sizes import Size

_ISO, _STOCK = "ISO 7379", "practice"
_ISO_ORDER = "Hexagon socket head shoulder screw ISO 7379 - {shoulder_diameter} x {length} - {thread}"
_STOCK_ORDER = "Hexagon socket head shoulder screw, shoulder {shoulder_diameter} f9 x {length}, thread {thread}"
_ISO_NAMES = frozenset({"ISO 7379", "GB/T 5281"})


def _as(draft: Draft, row: Size, text: str, says: str, evidence: str) -> Draft:
    """Return the draft with the shoulder and the thread of a row."""
    others = {key: value for key, value in draft.dimensions.items() if key not in {"shoulder_diameter", "thread"}}
    shoulder = size_in(row, "shoulder_diameter")
    held = {"shoulder_diameter": Limits(shoulder.nominal)} if shoulder is not None else {}
    return draft.copy(
        evidence=evidence,
        dimensions={**held, "thread": row.dimensions["thread"], **others},
        because=[*draft.because, (text, says, row.source)],
        table_standard=row.standard,
        order_text=_ISO_ORDER if row.standard == _ISO else _STOCK_ORDER,
    )


def _by_thread(family: Family, draft: Draft, thread: ThreadSize, iso: bool) -> list[Draft]:
    """``M5 x 20``: the shoulders that carry this thread; without a standard also the shoulder of that number."""
    sizes: dict[Decimal, Size] = {}
    for row in rows_with(family, thread=thread.designation):
        shoulder = size_in(row, "shoulder_diameter")
        if shoulder is not None and (row.standard == _ISO or not iso):
            sizes.setdefault(shoulder.nominal, row)
    evidence = "stated" if iso else "implied"
    out = [
        _as(draft, row, thread.designation, f"the thread of a {shown(size)} mm shoulder", evidence)
        for size, row in sizes.items()
    ]
    for row in () if iso else rows_with(family, shoulder_diameter=thread.diameter)[:1]:
        out.append(_as(draft, row, thread.designation, "sellers also write M before the shoulder", "assumed"))
        out[-1].size_names = "shoulder diameter"
    return out


def _series(family: Family, draft: Draft, facts: Facts) -> None:
    """Choose between ISO 7379 and stock sizes; where both have it and none is named, allow for both."""
    shoulder = draft.nominal("shoulder_diameter")
    if shoulder is None:
        return
    rows = {row.standard: row for row in rows_with(family, shoulder_diameter=shoulder)}
    iso, stock = rows.get(_ISO), rows.get(_STOCK)
    named = bool(_ISO_NAMES & set(draft.standards))
    if iso is None and stock is not None:
        draft.table_standard, draft.order_text = _STOCK, _STOCK_ORDER
        if named:
            _not_iso(draft, shoulder, stock)
    elif iso is not None and stock is not None and not named and all(item.name[0] in "mM" for item in facts.classes):
        low, high = size_in(stock, "shoulder_diameter"), size_in(iso, "shoulder_diameter")
        if low is not None and high is not None:
            draft.dimensions["shoulder_diameter"] = high._replace(lower=low.lower, tolerance_class=None)
            says = "shoulder h8 in ISO 7379, f9 in stock sizes; the limits hold for both"
            draft.notes.append(("standards-differ", says, iso.source))
            draft.asks.append("shoulder h8 or f9")
    _compare_thread(draft, shoulder, iso or stock)


def _not_iso(draft: Draft, shoulder: Decimal, stock: Size) -> None:
    """Flag a shoulder that ISO 7379 does not list though the line names it: 6 for 6.5, 12 for 13, 24 for 25."""
    nearest = _NEAREST.get(shown(shoulder))
    but = f", but {nearest} mm" if nearest else ""
    says = f"{_ISO} lists no {shown(shoulder)} mm shoulder{but}; it is a stock size sold under that number"
    draft.standards = ()
    draft.notes.append(("not-in-standard", says, stock.source))
    draft.asks.append(f"a measured shoulder of {shown(shoulder)} mm" + (f", not {nearest} mm" if nearest else ""))


_NEAREST = {"6": "6.5", "12": "13", "24": "25"}
"""Stock shoulder -> the one of ISO 7379 that it is taken for [mm]."""


def _compare_thread(draft: Draft, shoulder: Decimal, row: Size | None) -> None:
    thread = thread_in(draft, "thread")
    if row is None and thread is None:
        draft.doubts.append(f"No shoulder of {shown(shoulder)} mm is listed. Which shoulder, and which thread?")
    held = row.dimensions.get("thread") if row is not None else None
    if row is None or thread is None or not isinstance(held, ThreadSize) or thread.system != "metric":
        return
    if thread.diameter >= shoulder:
        draft.doubts.append(
            f"A shoulder of {shown(shoulder)} mm has a thread below it, but the line gives {thread.designation}."
            " Which shoulder and which thread?"
        )
    elif thread.designation != held.designation and draft.standards:
        draft.doubts.append(
            f"{draft.standards[0]} has {held.designation} below a {shown(shoulder)} mm shoulder, the line says"
            f" {thread.designation}. Which one?"
        )
    elif thread.designation != held.designation:
        says = f"the line gives {thread.designation}; a {shown(shoulder)} mm shoulder usually has {held.designation}"
        draft.notes.append(("differs-from-table", says, row.source))


def _thread_leads(facts: Facts, mention: ThreadMention) -> bool:
    """Tell whether the thread stands before every other size of the line."""
    at = facts.line.lower().find(mention.text.lower())
    sizes = [part.text for chain in facts.chains for part in chain if part is not mention]
    places = [facts.line.lower().find(text.lower()) for text in (*sizes, *(number.text for number in facts.labelled))]
    return all(at <= place for place in places if place >= 0)


def _read(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Give the shoulder to every thread and the thread to every shoulder that stands alone."""
    out: list[Draft] = []
    for draft in drafts:
        thread = thread_in(draft, "thread")
        mention = next(iter(facts.threads()), None)
        iso = bool(_ISO_NAMES & set(draft.standards))
        if "shoulder_diameter" not in draft.dimensions and thread is not None:
            found = _by_thread(family, draft, thread, iso)
            for item in found:
                item.standards = draft.standards
            if len(found) > 1:
                found[0].doubts.append("Which shoulder diameter and which thread, and how long is the shoulder?")
            out += found or [draft]
            continue
        if mention is not None and thread is not None and _thread_leads(facts, mention):
            draft.size_names = "external thread"
        if facts.inches:
            draft.order_text = "Shoulder screw ASME B18.3 - {shoulder_diameter} x {length} in, thread {thread}"
            draft.standards = draft.standards or ("ASME B18.3",)
            draft.table_standard = "ASME B18.3"
        else:
            _series(family, draft, facts)
        out.append(draft)
    return out


_SHOULDER_LENGTH = "shoulder diameter before shoulder length"

SHOULDER = Family(
    name="shoulder screw",
    size_names="shoulder diameter",
    key="shoulder_diameter",
    nouns={
        "en": phrases(
            "shoulder screw, shoulder bolt, stripper bolt, stripper screw, shouldered screw, "
            "shouldered bolt, hex socket shoulder bolt,"
            " socket shoulder screw, socket head shoulder screw, hexagon socket head shoulder screw, "
            "hex socket shoulder screw,"
            " allen shoulder bolt, allen shoulder screw, plug screw shoulder, step screw, step bolt"
        ),
        "de": phrases(
            "Passschraube, Paßschraube, Schulterschraube, Passschulterschraube, Schulterpassschraube, "
            "Zylinderkopf Passschraube,"
            " Passschraube Innensechskant, Schulterbolzen, Passschraube ISK, Zylinderschraube Passschaft"
        ),
        "fr": phrases(
            "vis épaulée, vis à épaulement, vis épaulée CHC, vis CHC épaulée, vis à épaulement six pans creux"
        ),
        "es": phrases(
            "tornillo de hombro, tornillo con hombro, tornillo hombro, tornillo de tope allen, "
            "tornillo guía hombro, perno de hombro, tornillo allen hombro"
        ),
        "it": phrases(
            "vite con spallamento, vite a spallamento, vite calibrata, vite TCEI calibrata, "
            "vite spallata, vite TCEI spallamento"
        ),
        "zh": phrases("saida luosi, zhoujian luosi"),
    },
    standards=(
        Standard("ISO 7379", order=_ISO_ORDER),
        Standard("DIN 9841", rows=_STOCK, order=_STOCK_ORDER),
        Standard("ASME B18.3", order="Shoulder screw ASME B18.3 - {shoulder_diameter} x {length} in, thread {thread}"),
        Standard("GB/T 5281", rows=_ISO, order=_ISO_ORDER),
    ),
    table="shoulder_screw",
    thread="thread",
    layouts=(
        Layout(("length",), when=lambda v: "thread" in v, says="the shoulder's length"),
        Layout(("shoulder_diameter",)),
        Layout(("shoulder_diameter", "length"), when=lambda v: v["shoulder_diameter"] <= 30, says=_SHOULDER_LENGTH),
        Layout(("length", "shoulder_diameter"), says="the larger number is the length"),
        Layout(("shoulder_diameter", "length", "thread_length"), says=_SHOULDER_LENGTH),
    ),
    labels={
        "diameter": "shoulder_diameter",
        "od": "shoulder_diameter",
        "shaft": "shoulder_diameter",
        "body": "shoulder_diameter",
        "head": "head_diameter",
    },
    needs=("shoulder_diameter", "thread", "length"),
    identity=("shoulder_diameter",),
    order=_ISO_ORDER,
    question="Which shoulder diameter, which thread, and how long is the shoulder?",
    length_says="the length is that of the shoulder",
    refine=_read,
    listed_lengths=False,
    examples=(
        Example(
            "ISO 7379 8 x 40 M6",
            dimensions={"shoulder_diameter": "8", "thread": "M6", "length": "40"},
            size_names="shoulder diameter",
        ),
        Example("stripper bolt 12x30", dimensions={"shoulder_diameter": "12", "thread": "M10", "length": "30"}),
        Example(
            "shoulder screw M4 x Ø5 x 12",
            dimensions={"shoulder_diameter": "5", "thread": "M4", "length": "12"},
            size_names="external thread",
        ),
        Example("vis épaulée 10 x 20 M8", dimensions={"shoulder_diameter": "10", "thread": "M8"}),
        Example("shoulder screw M6 x 25", state="ambiguous"),
        Example("Passschraube M8x40", state="ambiguous"),
    ),
    source="ISO 7379",
    mates=Mates(bore_key="shoulder_diameter"),
)


def _fit_bolt(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A fit bolt is named by its thread; two plain numbers without a thread name a shoulder screw."""
    return [
        draft
        for draft in drafts
        if draft.standards or ("thread" in draft.dimensions and "shoulder_diameter" not in draft.dimensions)
    ]


FIT_BOLT = Family(
    name="hex fit bolt",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases("fit bolt, fitted bolt, hex fit bolt, hexagon fit bolt, close tolerance bolt"),
        "de": phrases(
            "Passschraube, Paßschraube, Sechskant Passschraube, Sechskantpassschraube, Sechskantschraube Passschaft"
        ),
        "fr": phrases("vis ajustée, vis H ajustée, boulon ajusté, boulon calibré"),
        "es": phrases("tornillo calibrado, tornillo hexagonal calibrado, perno calibrado, tornillo de ajuste"),
        "it": phrases("vite TE calibrata, bullone calibrato, vite esagonale calibrata"),
    },
    standards=(
        Standard("DIN 609"),
        Standard(
            "DIN 610", rows="DIN 609", order="Hexagon fit bolt DIN 610 - {thread} x {length} - {property_class?8.8}"
        ),
    ),
    table="hex_fit_bolt",
    thread="thread",
    layouts=(Layout(("length",)),),
    labels={"shoulder": "shoulder_diameter", "diameter": "shoulder_diameter"},
    needs=("thread", "length"),
    identity=("thread",),
    order="Hexagon fit bolt DIN 609 - {thread} x {length} - {property_class?8.8}",
    question="Which thread has the fit bolt?",
    length_says="the length is measured under the head, with the thread",
    refine=_fit_bolt,
    mates=Mates(through=True, headed=True, bore_key="body_diameter"),
    examples=(
        Example("Passschraube DIN 609 M10x60 8.8", dimensions={"thread": "M10", "length": "60", "body_diameter": "11"}),
        Example("hex fit bolt M12 x 70", dimensions={"thread": "M12", "length": "70", "body_diameter": "13"}),
        Example("vis ajustée M8x40", dimensions={"thread": "M8", "body_diameter": "9"}),
        Example("bullone calibrato M16 x 80", dimensions={"thread": "M16"}),
    ),
    source="DIN 609",
)

FAMILIES = (SHOULDER, FIT_BOLT)
