"""Parallel pins: plain, with internal thread, with external thread - and the lines that leave open which one is meant.

In every standard the size is the outside diameter; none writes an M before it. Buyers and sellers do, for a plain
diameter as well as for the thread inside, so an M on a pin without more gives every reading that the tables allow.

Source: ISO 2338, ISO 8734, ISO 8733, ISO 8735 (tables); the two meanings of M: common practice.
"""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Mates, Standard
from reference.families.facts import Draft, Facts, Number, ThreadMention
from reference.quantities import Limits, ThreadSize
from reference.sizes import SizeTable

_PLAIN, _INTERNAL, _EXTERNAL = (
    "parallel pin",
    "parallel pin with internal thread",
    "parallel pin with external thread",
)
_STAINLESS = frozenset({"stainless steel", "A1", "A2", "A4", "304", "316"})


def _sizes(name: str) -> SizeTable:
    return next(family for family in FAMILIES if family.name == name).sizes  # type: ignore[return-value]


def _pins_with(thread: ThreadSize) -> list[tuple[Decimal, tuple[str, ...], str]]:
    """Return the outside diameters of pins that carry this internal thread, with standards and source."""
    found: dict[Decimal, list[str]] = {}
    sources: dict[Decimal, str] = {}
    for row in _sizes(_INTERNAL).rows:
        held, outer = row.dimensions.get("internal_thread"), row.dimensions.get("outer_diameter")
        if isinstance(held, ThreadSize) and isinstance(outer, Limits) and held.designation == thread.designation:
            found.setdefault(outer.nominal, [])
            sources.setdefault(outer.nominal, row.source)
            if row.standard not in found[outer.nominal]:
                found[outer.nominal].append(row.standard)
    return [(outer, tuple(standards), sources[outer]) for outer, standards in sorted(found.items())]


def _as_plain(draft: Draft, mention: ThreadMention, says: str, evidence: str) -> Draft:
    """Return the draft with the M number as its outside diameter."""
    dimensions = {"outer_diameter": Limits(mention.thread.diameter), **draft.dimensions}
    dimensions.pop("internal_thread", None)
    because = [*draft.because, (mention.text, says, COMMON_PRACTICE)] if says else list(draft.because)
    return replace(
        draft,
        family=_PLAIN,
        size_names="outer diameter",
        evidence=evidence,
        dimensions=dimensions,
        because=because,
        rest=[part for part in draft.rest if part is not mention],
        attributes=dict(draft.attributes),
        notes=list(draft.notes),
        doubts=list(draft.doubts),
        asks=list(draft.asks),
    )


def _as_internal(draft: Draft, mention: ThreadMention) -> list[Draft]:
    """Return one draft for each pin diameter that carries the thread."""
    drafts: list[Draft] = []
    for outer, standards, source in _pins_with(mention.thread):
        listed = tuple(name for name in standards if name.startswith("ISO")) or tuple(
            name for name in standards if name != "practice"
        )
        notes = list(draft.notes)
        if not listed:
            notes.append(
                (
                    "not-in-standard",
                    f"a {outer} mm pin with {mention.thread.designation} is sold, but no standard lists it",
                    source,
                )
            )
        drafts.append(
            replace(
                draft,
                family=_INTERNAL,
                size_names="internal thread",
                evidence="implied",
                dimensions={
                    "outer_diameter": Limits(outer),
                    "internal_thread": mention.thread,
                    **{
                        key: value
                        for key, value in draft.dimensions.items()
                        if key not in {"outer_diameter", "internal_thread"}
                    },
                },
                because=[
                    *draft.because,
                    (mention.text, "M marks an ISO metric thread", "ISO 965-1"),
                    (
                        mention.text,
                        f"pins of {outer} mm carry an {mention.thread.designation} internal thread",
                        source,
                    ),
                ],
                standards=listed,
                table_standard=listed[0] if listed else standards[0],
                rest=[part for part in draft.rest if part is not mention],
                attributes=dict(draft.attributes),
                notes=notes,
                doubts=list(draft.doubts),
                asks=list(draft.asks),
                order_text=_internal_order(listed),
            )
        )
    return drafts


def _internal_order(listed: tuple[str, ...]) -> str | None:
    """Return the order text for the standards that list a pin: the family's own where an ISO standard does."""
    if not listed:
        return _PRACTICE_ORDER
    if listed[0].startswith("ISO"):
        return None
    return f"Parallel pin {listed[0]} - {{outer_diameter}} x {{length}}, thread {{internal_thread}}"


_INCH_ORDER = "Dowel pin ASME B18.8.2 - {outer_diameter} x {length} in"
_PRACTICE_ORDER = (
    "Parallel pin with internal thread, outside diameter {outer_diameter} m6 x {length}, "
    "thread {internal_thread}, hardened steel"
)


def _as_external(draft: Draft, mention: ThreadMention) -> Draft:
    return replace(
        draft,
        family=_EXTERNAL,
        size_names="external thread",
        evidence="assumed",
        dimensions={"thread": mention.thread, **{k: v for k, v in draft.dimensions.items() if k == "length"}},
        because=[
            *draft.because,
            (mention.text, "M marks an ISO metric thread; the line does not say where on the pin it is", "ISO 965-1"),
        ],
        standards=(),
        rest=[part for part in draft.rest if part is not mention],
        attributes=dict(draft.attributes),
        notes=list(draft.notes),
        doubts=list(draft.doubts),
        asks=list(draft.asks),
    )


def _refine_plain(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Give every reading that an M on a pin can have; a standard or an explicit diameter decides."""
    threads = facts.threads()
    classed = [item for item in facts.classes if item.thread is not None]
    out: list[Draft] = []
    for draft in drafts:
        draft = _with_thread_words(draft, facts)
        mention = next((item for item in threads if item in draft.rest), None)
        if mention is None and classed and draft.evidence != "stated":
            out += _class_or_thread(draft, classed[0].thread, classed[0].text)
            continue
        if mention is None:
            out.append(_series(_size_first(draft), facts))
            continue
        stated = "outer_diameter" in draft.dimensions and draft.evidence == "stated"
        if draft.standards:
            if "outer_diameter" in draft.dimensions:
                out.append(_odd_thread(draft, mention))
            else:
                out.append(
                    _as_plain(
                        draft,
                        mention,
                        f"{draft.standards[0]} names the outside diameter; the M is only written before it",
                        "stated",
                    )
                )
            continue
        if "outer_diameter" in draft.dimensions or stated:
            out += _diameter_and_thread(draft, mention)
            continue
        if facts.classes and not facts.classes[0].hole and facts.classes[0].name in {"h6", "h7", "h8"}:
            out.append(
                _as_plain(draft, mention, "a tolerance class of the outside diameter stands beside it", "implied")
            )
            continue
        external = [] if facts.says("without", "ohne", "plain", "glatt", "sans") else [_as_external(draft, mention)]
        out += [
            *_as_internal(draft, mention),
            _as_plain(draft, mention, "sellers also write M before a plain diameter", "assumed"),
            *external,
        ]
    return out


def _with_thread_words(draft: Draft, facts: Facts) -> Draft:
    """Move numbers that the layouts could not place beside an M number to their keys."""
    numbers = [part for part in draft.rest if isinstance(part, Number)]
    mentions = [part for part in draft.rest if isinstance(part, ThreadMention)]
    if mentions and "outer_diameter" in draft.dimensions and "length" not in draft.dimensions and not numbers:
        outer = draft.dimensions["outer_diameter"]
        order = [part for chain in facts.chains for part in chain]
        first = order[0] if order else None
        if isinstance(outer, Limits) and (first in mentions or outer.nominal > 2 * mentions[0].thread.diameter + 4):
            # M5 x 20: the M number leads, the plain number behind it is the length
            draft.dimensions = {"length": Limits(outer.nominal)} | {
                key: value for key, value in draft.dimensions.items() if key != "outer_diameter"
            }
            draft.because = [
                (text, says.replace("outer diameter", "length") if says.startswith("outer diameter") else says, source)
                for text, says, source in draft.because
            ]
    return draft


def _size_first(draft: Draft) -> Draft:
    """One number alone is the diameter where such a pin exists, else the length."""
    outer = draft.dimensions.get("outer_diameter")
    if isinstance(outer, Limits) and "length" not in draft.dimensions and outer.nominal > Decimal(50):
        draft.dimensions["length"] = outer
        del draft.dimensions["outer_diameter"]
    return draft


def _series(draft: Draft, facts: Facts) -> Draft:
    """Choose the standard to order where the line names none: by inches, tolerance class and material."""
    name = next((item.name for item in facts.classes if not item.hole), "m6")
    stainless = draft.attributes.get("material") in _STAINLESS
    if not facts.inches and not draft.standards and (name != "m6" or stainless):
        if name in {"m6", "h8"}:
            draft.order_text = "Parallel pin ISO 2338 - {outer_diameter} {tolerance_class?m6} x {length} - " + (
                "A1" if stainless else "{material?St}"
            )
        else:
            draft.order_text = "Parallel pin {outer_diameter} {tolerance_class} x {length}, {treatment?hardened}"
    if not facts.classes and not draft.standards and not facts.inches and "outer_diameter" in draft.dimensions:
        draft.attributes.setdefault("tolerance_class", "m6")
        draft.asks.append("tolerance class m6 (h8 is sold too)")
    outer = draft.dimensions.get("outer_diameter")
    sizes = PARALLEL_PIN.sizes
    open_standard = not draft.standards and draft.order_text is None and not facts.inches
    if open_standard and isinstance(outer, Limits) and sizes and sizes.find(outer.nominal.normalize()) is None:
        draft.order_text = "Parallel pin {outer_diameter} {tolerance_class} x {length}, hardened"
    if facts.inches and not draft.standards:
        draft.standards = ("ASME B18.8.2",)
        draft.table_standard = "ASME B18.8.2"
        draft.order_text = _INCH_ORDER
    if any(name.startswith("ASME") for name in draft.standards):
        draft.dimensions.setdefault("series", "oversize" if facts.says("oversize") else "standard")
    return draft


def _odd_thread(draft: Draft, mention: ThreadMention) -> Draft:
    if mention in draft.rest:
        outer = draft.dimensions.get("outer_diameter")
        if isinstance(outer, Limits) and outer.nominal == mention.thread.diameter:
            draft.rest.remove(mention)
    return draft


def _class_or_thread(draft: Draft, thread: ThreadSize | None, text: str) -> list[Draft]:
    """``10 M6 x 40`` in capitals: class m6, or thread M6 where such a pin exists."""
    outer = draft.dimensions.get("outer_diameter")
    drafts = [draft]
    if thread is not None and isinstance(outer, Limits):
        for diameter, _, _ in _pins_with(thread):
            if diameter == outer.nominal:
                drafts += [
                    item
                    for item in _as_internal(draft, ThreadMention(thread, text))
                    if item.dimensions["outer_diameter"] == Limits(diameter)
                ]
                for item in drafts[1:]:
                    item.size_names = "outer diameter"
    return drafts


def _diameter_and_thread(draft: Draft, mention: ThreadMention) -> list[Draft]:
    """A diameter and a thread both stand in the line: a pin with that thread, inside where the table has it."""
    outer = draft.dimensions["outer_diameter"]
    if not isinstance(outer, Limits):
        return [draft]
    fitting = [
        item for item in _as_internal(draft, mention) if item.dimensions["outer_diameter"] == Limits(outer.nominal)
    ]
    for item in fitting:
        item.size_names = "outer diameter"
        item.because = [
            *draft.because,
            (
                mention.text,
                "names the internal thread; pins of this diameter carry it",
                item.standards[0] if item.standards else COMMON_PRACTICE,
            ),
        ]
    if fitting:
        return fitting
    if outer.nominal == mention.thread.diameter:
        return [_as_external(draft, mention)]
    known = ", ".join(f"{diameter} mm" for diameter, _, _ in _pins_with(mention.thread))
    doubted = replace(draft, rest=[part for part in draft.rest if part is not mention], family=_INTERNAL)
    doubted.dimensions["internal_thread"] = mention.thread
    doubted.doubts.append(
        f"No pin of {outer.nominal.normalize():f} mm with {mention.thread.designation} is listed"
        + (f" ({mention.thread.designation} stands in {known})" if known else "")
        + ". Which outside diameter and which thread?"
    )
    return [doubted]


def _refine_internal(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """The words say that there is a thread inside: decide whether the M number is it, or only the diameter."""
    out: list[Draft] = []
    for draft in drafts:
        thread = draft.dimensions.get("internal_thread")
        mention = next(iter(facts.threads()), None)
        if not isinstance(thread, ThreadSize) or mention is None:
            out.append(_size_first(draft))
            continue
        outer = draft.dimensions.get("outer_diameter")
        del draft.dimensions["internal_thread"]
        draft.because = [item for item in draft.because if item[0] != mention.text]
        if draft.standards:
            if outer is None:
                out.append(
                    replace(
                        _as_plain(draft, mention, f"{draft.standards[0]} names the outside diameter", "stated"),
                        family=_INTERNAL,
                    )
                )
            else:
                draft.dimensions["internal_thread"] = thread
                out.append(_checked(draft, thread, mention))
            continue
        draft.rest.append(mention)
        draft = _with_thread_words(draft, facts)
        outer = draft.dimensions.get("outer_diameter")
        if isinstance(outer, Limits):
            out += _diameter_and_thread(draft, mention)
            continue
        out += _as_internal(draft, mention)
        diameter = mention.thread.diameter
        row = _sizes(_INTERNAL).find(diameter)
        if row is not None:
            held = row.dimensions["internal_thread"]
            item = _as_plain(draft, mention, "sellers also write M before the outside diameter", "assumed")
            item.family = _INTERNAL
            item.dimensions["internal_thread"] = held
            item.table_standard = row.standard
            item.standards = () if row.standard == "practice" else (row.standard,)
            out.append(item)
        if not out:
            draft.rest = [part for part in draft.rest if part is not mention]
            draft.dimensions["internal_thread"] = thread
            draft.doubts.append(f"No parallel pin with {thread.designation} inside is listed. Which outside diameter?")
            out.append(draft)
    return out


def _checked(draft: Draft, thread: ThreadSize, mention: ThreadMention) -> Draft:
    """Doubt a thread that the standard does not have in this pin."""
    outer = draft.dimensions.get("outer_diameter")
    if isinstance(outer, Limits):
        row = _sizes(_INTERNAL).find(outer.nominal, draft.standards[0])
        held = row.dimensions.get("internal_thread") if row else None
        if isinstance(held, ThreadSize) and held.designation != thread.designation:
            draft.doubts.append(
                f"{draft.standards[0]} has {held.designation} in the {outer.nominal.normalize():f} mm pin,"
                f" the line says {thread.designation}."
                " Which one?"
            )
    draft.because.append((mention.text, "names the internal thread", "the line's own words"))
    return draft


_M6, _H8 = {"tolerance_class": "m6"}, {"tolerance_class": "h8"}

PARALLEL_PIN = Family(
    name=_PLAIN,
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": (
            "dowel pin",
            "dowel",
            "parallel pin",
            "cylindrical pin",
            "locating pin",
            "straight pin",
            "alignment pin",
            "positioning pin",
            "ejector pin",
            "guide pin",
            "dowel locating",
            "locating dowel",
            "position pin",
        ),
        "de": ("Zylinderstift", "Passstift", "Paßstift", "Zyl Stift", "Zylinderstifte", "Fixierstift"),
        "fr": (
            "goupille cylindrique",
            "goupille pleine",
            "pige cylindrique",
            "goupille de positionnement",
            "goupille de centrage",
            "pion de centrage",
            "pion de positionnement",
        ),
        "es": (
            "pasador cilíndrico",
            "pasador paralelo",
            "clavija cilíndrica",
            "pasador de posición",
            "pasador de centrado",
            "pasador de posicionamiento",
        ),
        "it": (
            "spina cilindrica",
            "spina parallela",
            "spina di riferimento",
            "spina di centraggio",
            "spina di posizionamento",
            "perno di riferimento",
            "perno di centraggio",
        ),
        "zh": ("yuanzhuxiao", "dingweixiao"),
    },
    standards=(
        Standard("ISO 8734", fixed=_M6),
        Standard(
            "ISO 2338",
            fixed=_M6,
            order="Parallel pin ISO 2338 - {outer_diameter} {tolerance_class?m6} x {length} - {material?St}",
        ),
        Standard(
            "DIN 6325", fixed=_M6, order="Parallel pin DIN 6325 - {outer_diameter} {tolerance_class?m6} x {length}"
        ),
        Standard(
            "DIN 7",
            fixed=_M6,
            order="Parallel pin DIN 7 - {outer_diameter} {tolerance_class?m6} x {length} - {material?St}",
        ),
        Standard(
            "GB/T 119",
            rows="ISO 2338",
            order="Parallel pin GB/T 119 - {outer_diameter} {tolerance_class?m6} x {length}",
        ),
        Standard(
            "GB/T 119.1",
            rows="ISO 2338",
            order="Parallel pin GB/T 119.1 - {outer_diameter} {tolerance_class?m6} x {length}",
        ),
        Standard("GB/T 119.2", rows="ISO 8734", order="Parallel pin GB/T 119.2 - {outer_diameter} x {length}"),
        Standard("ASME B18.8.2", order="Dowel pin ASME B18.8.2 - {outer_diameter} x {length} in, alloy steel"),
        Standard("ASME B18.8.5M", order="Dowel pin ASME B18.8.5M - {outer_diameter} x {length}"),
        Standard("JIS B 1354", rows="ISO 2338", fixed=_M6),
    ),
    table="parallel_pin",
    tolerance_class="m6",
    layouts=(
        Layout(
            ("outer_diameter", "length"),
            when=lambda v: v["outer_diameter"] <= v["length"],
            says="diameter before length",
        ),
        Layout(
            ("length", "outer_diameter"),
            when=lambda v: v["outer_diameter"] * 2 <= v["length"],
            says="the larger number is the length",
        ),
        Layout(("outer_diameter", "length"), says="diameter before length"),
        Layout(("length", "outer_diameter"), competes=True, when=lambda v: v["outer_diameter"] < v["length"]),
        Layout(("outer_diameter",)),
    ),
    labels={"id": "-", "shaft": "outer_diameter", "bore": "hole_diameter"},
    needs=("outer_diameter", "length"),
    identity=("outer_diameter",),
    order="Parallel pin ISO 8734 - {outer_diameter} x {length} - A - {material?St}",
    question="Which outside diameter has the pin?",
    unless=frozenset({"wood", "wooden", "holz", "bois", "madera", "legno", "birch", "beech", "buche", "furniture"}),
    refine=_refine_plain,
    uniform_length=True,
    kin=(_INTERNAL, _EXTERNAL, "taper pin", "slotted spring pin", "grooved pin"),
    examples=(
        Example(
            "ISO 8734 - 6 x 30 - A - St",
            dimensions={"outer_diameter": "6", "length": "30"},
            size_names="outer diameter",
        ),
        Example("5x20 dowel", dimensions={"outer_diameter": "5", "length": "20"}),
        Example('10 pcs 3/16" dowel pin 1"', dimensions={"outer_diameter": "4.7625", "length": "25.4"}),
        Example("ZYL.STIFT 6 M6 X 24 ISO 8734", dimensions={"outer_diameter": "6", "length": "24"}),
        Example("M5 dowel pin", state="ambiguous", size_names="internal thread"),
        Example("dowel pin 6 H7 x 20", state="ambiguous"),
    ),
    source="ISO 2338, ISO 8734",
    mates=Mates(reamed=True),
)

INTERNAL = Family(
    name=_INTERNAL,
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": (
            "dowel pin internal thread",
            "parallel pin internal thread",
            "internal threaded dowel pin",
            "pull dowel",
            "pull dowel pin",
            "pull pin",
            "internally threaded dowel",
            "internal thread pin",
            "tapped dowel pin",
            "tapped pin",
            "extractable dowel pin",
            "dowel pin tapped hole",
            "inner thread cylindrical pin",
            "threaded dowel pin",
            "dowel pin with internal thread",
            "pull out dowel pin",
            "cylindrical pin internal thread",
            "internal threaded cylindrical pin",
            "pin internal thread",
            "dowel pin female thread",
            "removable dowel pin",
            "threaded dowel",
            "parallel pin tapped",
            "cylindrical pin female thread",
            "extraction dowel pin",
        ),
        "de": (
            "Zylinderstift Innengewinde",
            "Stift Innengewinde",
            "Passstift Innengewinde",
            "Zyl Stift Innengewinde",
            "Zylinderstift IG",
            "Zylinderstift Abziehgewinde",
        ),
        "fr": (
            "goupille taraudée",
            "goupille cylindrique taraudée",
            "goupille cylindrique à trou taraudé",
            "goupille filetage intérieur",
        ),
        "es": (
            "pasador cilíndrico rosca interior",
            "pasador con rosca interior",
            "pasador roscado",
            "pasador cilíndrico roscado",
            "pasador rosca interna",
        ),
        "it": (
            "spina cilindrica filettata",
            "spina con filetto interno",
            "spina filettata",
            "spina cilindrica filetto interno",
            "spina cilindrica foro filettato",
        ),
        "zh": ("nei luowen yuanzhuxiao",),
    },
    standards=(
        Standard("ISO 8735", fixed=_M6),
        Standard("ISO 8733", fixed=_M6, order="Parallel pin ISO 8733 - {outer_diameter} x {length} - {material?St}"),
        Standard("DIN 7979", fixed=_M6, order="Parallel pin DIN 7979 - D - {outer_diameter} x {length}"),
        Standard("GB/T 120", rows="ISO 8733", order="Parallel pin GB/T 120 - {outer_diameter} x {length}"),
        Standard("GB/T 120.1", rows="ISO 8733", order="Parallel pin GB/T 120.1 - {outer_diameter} x {length}"),
        Standard("GB/T 120.2", rows="ISO 8735", order="Parallel pin GB/T 120.2 - {outer_diameter} x {length}"),
    ),
    table="parallel_pin_with_internal_thread",
    tolerance_class="m6",
    thread="internal_thread",
    layouts=(
        Layout(
            ("outer_diameter", "length"),
            when=lambda v: v["outer_diameter"] < v["length"],
            says="diameter before length",
        ),
        Layout(
            ("length", "outer_diameter"),
            when=lambda v: v["outer_diameter"] < v["length"],
            says="the larger number is the length",
        ),
        Layout(("outer_diameter",)),
    ),
    labels={"thread": "-", "hole": "-"},
    needs=("outer_diameter", "length", "internal_thread"),
    identity=("outer_diameter",),
    order="Parallel pin ISO 8735 - {outer_diameter} x {length} - A - {material?St}",
    question="Which outside diameter has the pin, and which thread is inside?",
    uniform_length=True,
    refine=_refine_internal,
    kin=("taper pin with internal thread",),
    examples=(
        Example(
            "ISO 8735 - 8 x 30 - A - St",
            dimensions={"outer_diameter": "8", "length": "30", "internal_thread": "M5"},
            size_names="outer diameter",
        ),
        Example(
            "Pull dowel 10 x 40 with M6 tapped hole",
            dimensions={"outer_diameter": "10", "length": "40", "internal_thread": "M6"},
        ),
        Example("internal threaded dowel pin M5x30", state="ambiguous"),
    ),
    source="ISO 8733, ISO 8735",
    mates=Mates(reamed=True),
)

EXTERNAL = Family(
    name=_EXTERNAL,
    size_names="external thread",
    key="outer_diameter",
    nouns={
        "en": (
            "dowel pin external thread",
            "parallel pin external thread",
            "dowel pin threaded end",
            "dowel pin with threaded stud",
            "externally threaded dowel pin",
            "dowel pin male thread",
        ),
        "de": (
            "Zylinderstift Außengewinde",
            "Zylinderstift Gewindezapfen",
            "Passstift Außengewinde",
            "Stift Gewindezapfen",
        ),
        "fr": ("goupille cylindrique filetée", "goupille filetée"),
        "es": ("pasador cilíndrico rosca exterior", "pasador rosca exterior"),
        "it": ("spina cilindrica filetto esterno",),
    },
    thread="thread",
    uniform_length=True,
    layouts=(
        Layout(("outer_diameter", "length"), when=lambda v: v["outer_diameter"] <= v["length"]),
        Layout(("length",), when=lambda v: v["length"] > v.get("thread", Decimal(0))),
    ),
    needs=("outer_diameter", "length", "thread"),
    identity=("outer_diameter",),
    order="Parallel pin with external thread, outside diameter {outer_diameter} x {length}, thread {thread}",
    question="Which outside diameter, which thread, and how long is each part?",
    examples=(
        Example(
            "dowel pin with external thread M6 8 x 40",
            dimensions={"outer_diameter": "8", "length": "40", "thread": "M6"},
        ),
    ),
    mates=Mates(reamed=True),
)

FAMILIES = (PARALLEL_PIN, INTERNAL, EXTERNAL)
