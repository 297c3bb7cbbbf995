"""Machine screws by inch number sizes, and the words that leave the head of a screw open: screw, bolt, flat head.

Such a word names no part: the head decides how the length counts and what it fits. The lines stay ambiguous, with the
readings that the words allow. An inch fraction with ``tripod`` or ``camera`` names a UNC thread.

Sources: ASME B18.6.3 (machine screws); ISO 1222 (tripod threads); ISO 4017, DIN 933 (widths across flats); the rest
common practice.
"""

import re
from collections.abc import Sequence

from reference.families.base import COMMON_PRACTICE, Example, Family, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.families.head_forms import CHEESE_HEAD, PAN_HEAD
from reference.families.nuts import HEX_NUT
from reference.families.rules import as_machine_screw, ask_pitch, shown, thread_in
from reference.families.screws import COUNTERSUNK, HEX_SCREW, LENGTH
from reference.quantities import Limits
from reference.sizes import size_table
from reference.words import PROPERTY_CLASSES

_HEADS = {
    "pan": ("pan", "panhead"),
    "countersunk": ("flat", "countersunk", "csk", "flathead", "avellanado", "fraisee", "senkkopf", "svasata"),
    "oval": ("oval",),
    "round": ("round", "rund", "rundkopf", "ronde", "redonda", "tonda"),
    "fillister": ("fillister",),
    "truss": ("truss", "mushroom"),
    "binding": ("binding", "binder"),
    "cheese": ("cheese",),
    "hex": ("hex", "hexagon"),
}
_TRIPOD = words(
    "tripod camera stativ stativschraube kamera kameraschraube fotoschraube photo foto "
    "tripode trepied cavalletto treppiede fotocamera"
)


def _head(facts: Facts) -> str | None:
    return next((head for head, said in _HEADS.items() if facts.says(*said)), None)


def _machine(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the head from the words; a tripod screw is UNC, a number size without threads per inch leaves them open."""
    out: list[Draft] = []
    for draft in drafts:
        thread, head = thread_in(draft, "thread"), _head(facts)
        if not facts.says("machine", "metaux") and facts.words & _TRIPOD:
            if thread is None or thread.system == "metric":
                continue
            draft.doubts.clear()
            draft.because.append((thread.designation, "a tripod screw has the coarse inch thread", "ISO 1222"))
            length = draft.nominal("length")
            draft.order_text = f"Tripod screw {{thread}} x {shown(length) if length is not None else '<length>'} mm"
            out.append(draft)
            continue
        number = facts.attributes.get("number size")
        if thread is None and number is not None:
            draft.doubts.append(ask_pitch(number))
        elif thread is None:
            continue
        if head is None:
            draft.doubts.append(_WHICH_HEAD)
            out.append(draft)
        elif thread is None or thread.system != "metric":
            out.append(as_machine_screw(draft, head))
        elif head == "countersunk" and _is_flat(facts) and not facts.says("countersunk", "csk"):
            out += _flat(draft)
        elif head in _BY_HEAD:
            named = _BY_HEAD[head]
            item = draft.copy(family=named.name)
            out += named.refine(named, facts, [item]) if named.refine is not None else [item]
        else:
            machine = as_machine_screw(draft, head)
            machine.standards = ()
            machine.order_text = f"Machine screw {{thread}} x {{length}}, {head} head"
            out.append(machine)
    return out


_BY_HEAD = {"pan": PAN_HEAD, "countersunk": COUNTERSUNK, "cheese": CHEESE_HEAD, "hex": HEX_SCREW}
"""Head of a metric machine screw -> the family that it is."""


_WHICH_HEAD = "Which head has the screw (socket, button, countersunk, pan, hexagon), and which drive?"

MACHINE_SCREW = Family(
    name="machine screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": (
            *phrases(
                "machine screw, machine bolt, mach screw, tripod screw, camera screw, tripod bolt, "
                "camera bolt, tripod mount screw"
            ),
            *phrases(
                "pan head, panhead, round head, flat head, countersunk, countersunk head, csk, csk head, oval head,"
                " fillister head, truss head, binding head, binder head, mushroom head, cheese head, hex head, hex,"
                " phillips pan head, slotted cheese head",
                "machine screw, machine bolt",
            ),
            *phrases(
                "round head, oval head, fillister head, fillister, truss head, binding head, mushroom head", "screw"
            ),
        ),
        "de": phrases("Stativschraube, Fotoschraube, Kameraschraube, Maschinenschraube"),
        "fr": phrases("vis à métaux, vis photo, vis trépied, vis appareil photo"),
        "es": phrases("tornillo trípode, tornillo de cámara, tornillo cámara, tornillo para metal"),
        "it": phrases("vite treppiede, vite cavalletto, vite fotocamera, vite per metallo"),
    },
    standards=(Standard("ASME B18.6.3"),),
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order="Machine screw ASME B18.6.3 - {thread} x {length} in, {head} head",
    question="Which thread has the screw?",
    refine=_machine,
    kin=(
        "pan head screw",
        "countersunk screw",
        "cheese head screw",
        "button head screw",
        "hex head screw (threaded to the head)",
        "socket head cap screw",
        "self-tapping screw",
        "thread forming screw",
    ),
    words=_TRIPOD,
    examples=(
        Example(
            '6-32 x 1/2" pan head machine screw',
            dimensions={"thread": "6-32 UNC", "length": "12.7"},
            size_names="external thread",
        ),
        Example("#10-24 x 1 round head machine screw", dimensions={"thread": "10-24 UNC", "length": "25.4"}),
        Example("1/4 tripod screw 10mm", dimensions={"thread": "1/4-20 UNC", "length": "10"}),
        Example("machine screw M4x20", state="ambiguous"),
    ),
    source="ASME B18.6.3",
    mates=Mates(through=True, headed=True),
)

_OTHER_TRADES = words(
    "driver drivers screwdriver screwdrivers bit bits extractor extractors cutter cutters eye hook hooks jack anchor"
    " anchors lightning tap taps die concrete masonry toggle molly rifle compressor banjo u carriage billes bolas sfere"
    " trapezoidal trapezia trapez mere madre husillo terminal terminals vise vice bottle"
)
"""Words beside which ``screw`` or ``bolt`` names another thing."""


def _open(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Give the readings of a screw whose head the line does not name."""
    out: list[Draft] = []
    for draft in drafts:
        if not (facts.threads() or facts.chains or "number size" in facts.attributes):
            continue
        if _is_flat(facts):
            out += _flat(draft)
            continue
        if "across_flats" in draft.dimensions and thread_in(draft, "thread") is not None:
            out += _hexagon(draft, facts)
            continue
        out += _across_flats(draft, facts)
        draft.doubts.append(_WHICH_HEAD)
        out.append(draft)
    return out


def _is_flat(facts: Facts) -> bool:
    return facts.says("flat", "flathead", "plana", "piana", "plate") or bool(re.search("平头", facts.line))


def _flat(draft: Draft) -> list[Draft]:
    """US: countersunk; marketplaces also call a thin cylindrical head flat. An inch thread is US trade."""
    thread = thread_in(draft, "thread")
    if thread is not None and thread.system == "unified":
        return [as_machine_screw(draft, "countersunk")]
    countersunk = draft.copy(family="countersunk screw", evidence="assumed")
    countersunk.because.append(
        ("flat head", "American trade: countersunk, the length counts the head", COMMON_PRACTICE)
    )
    cylindrical = draft.copy(evidence="assumed", attributes={**draft.attributes, "head": "flat-topped"})
    cylindrical.because.append(
        ("flat head", "marketplaces: a low head with a flat top, not countersunk", COMMON_PRACTICE)
    )
    cylindrical.doubts.append(
        "Is the flat head countersunk (90 degrees, length over all) or a low cylindrical one (length under the head)?"
    )
    return [countersunk, cylindrical]


def _hexagon(draft: Draft, facts: Facts) -> list[Draft]:
    """``M10 hex, spanner 17``: a hexagon head or a nut; the spanner tells DIN from ISO."""
    screw = draft.copy(family=HEX_SCREW.name)
    others = {key: value for key, value in draft.dimensions.items() if key != "thread"}
    nut = draft.copy(
        family=HEX_NUT.name,
        size_names="internal thread",
        dimensions={"internal_thread": draft.dimensions["thread"], **others},
    )
    out: list[Draft] = []
    for family, item in ((HEX_SCREW, screw), (HEX_NUT, nut)):
        if family.refine is not None and not (item is nut and "length" in others):
            out += family.refine(family, facts, [item])
    screw.doubts.append("Is it a screw or a nut, and to which standard?")
    return out


def _across_flats(draft: Draft, facts: Facts) -> list[Draft]:
    """``13 mm bolt``: workshops name the spanner; a number without M that is a width across flats may be one."""
    if facts.threads() or draft.standards:
        return []
    first = next((part for chain in facts.chains for part in chain if isinstance(part, Number)), None)
    if first is None or first.label or first.unit == "in":
        return []
    out: list[Draft] = []
    for row in size_table("hex_head_screw", "thread").rows:
        flats = row.dimensions.get("across_flats")
        if row.standard in {"ISO 4017", "DIN 933"} and isinstance(flats, Limits) and flats.nominal == first.value:
            says = f"a {shown(first.value)} mm spanner turns {row.size}"
            dimensions = {**draft.dimensions, "thread": row.dimensions["thread"], "across_flats": Limits(first.value)}
            if draft.nominal("length") == first.value:
                del dimensions["length"]
            if not any(other.dimensions["thread"] == row.dimensions["thread"] for other in out):
                out.append(
                    draft.copy(
                        family="hex head screw (threaded to the head)",
                        size_names="across flats",
                        evidence="assumed",
                        dimensions=dimensions,
                        because=[*draft.because, (first.text, says, row.source)],
                        rest=[part for part in draft.rest if part is not first],
                    )
                )
    if out:
        out[0].doubts.append(f"Is {first.text} the spanner or the thread? Please give thread and length.")
    if out and draft.nominal("length") == first.value and thread_in(draft, "thread") is None:
        del draft.dimensions["length"]  # 13 mm bolt: no length
        draft.rest.append(first)
    return out


SCREW = Family(
    name="screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "screw, bolt, scr, flat head, flathead, flat head screw, flathead screw, metric screw, "
            "fixing screw, mounting screw, hex spanner, hexagon spanner, hex SW, hex AF"
        ),
        "de": phrases("Schraube, Schrauben, Befestigungsschraube, Kreuzschlitzschraube, Schlitzschraube, Torxschraube"),
        "fr": phrases("vis, boulon, visserie, vis tête plate"),
        "es": phrases("tornillo, perno, tornillería, tornillo cabeza plana"),
        "it": phrases("vite, bullone, viti, vite testa piana"),
        "zh": phrases("luo ding, luosi, luoding"),
    },
    alone=PROPERTY_CLASSES - {"12.9"},
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order="Screw {thread} x {length}, {head} head",
    question="Which thread has the screw?",
    refine=_open,
    generic=True,
    unless=_OTHER_TRADES,
    mates=Mates(through=True, headed=True),
    source=COMMON_PRACTICE,
)


FAMILIES = (MACHINE_SCREW, SCREW)
