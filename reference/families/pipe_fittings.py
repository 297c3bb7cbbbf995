"""Pipe and push-in fittings, and plugs for threaded holes.

The number of a pipe thread is no diameter (G 1/8 is 9.728 mm outside), and without a letter it may be G, R or NPT.
Codes
of push-in fittings name the tube first and the thread second: PC8-02 is tube 8 with R 1/4, PC4-M6 tube 4 with M6.

Sources: ISO 228-1, ISO 7-1, ASME B1.20.1 (threads); codes: common practice.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference import threads
from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Standard, phrases, words
from reference.families.facts import Draft, Facts, Number, ThreadMention
from reference.quantities import Dimension, Limits, ThreadSize
from reference.sizes import size_table

_FEMALE = (
    "female",
    "innengewinde",
    "ig",
    "femelle",
    "taraude",
    "taraudee",
    "hembra",
    "femmina",
    "internal",
    "interior",
)
_MALE = ("male", "aussengewinde", "ag", "ml", "macho", "maschio", "external")
_HALVES = re.compile(r"[0-9]/[0-9]")


def _coded_thread(end: str) -> ThreadSize | None:
    """Return the thread behind a code: ``02`` is R 1/4, ``g01`` G 1/8, ``m5`` M5, ``m10`` M10 of an open pitch."""
    rows = size_table("pipe_fitting", "thread").rows
    row = next((row for row in rows if row.size.lower() == end.lower()), None)
    thread = row.dimensions["thread"] if row else None
    if isinstance(thread, ThreadSize):
        return thread
    if end.startswith("m"):
        return ThreadSize(end.upper(), Decimal(end[1:]), None)
    return threads.pipe(f"{'G' if end.startswith('g') else 'R'} {end.lstrip('gr')}")


def _push_in(groups: Mapping[str, str]) -> Draft | None:
    """Return tube and thread of a code."""
    thread = _coded_thread(groups["end"])
    if thread is None:
        return None
    tube = Decimal(groups["tube"])
    dimensions: dict[str, Dimension] = {"tube_diameter": Limits(tube), "thread": thread}
    return Draft("pipe fitting", "tube outer diameter", "stated", dimensions)


def _thread_first(groups: Mapping[str, str]) -> Draft | None:
    draft = _push_in(groups)
    if draft is not None:
        draft.size_names = "external thread"
    return draft


def _union(groups: Mapping[str, str]) -> Draft | None:
    """Return the tubes of a code without a thread: ``PU6``, ``PG8-6``."""
    dimensions: dict[str, Dimension] = {"tube_diameter": Limits(Decimal(groups["tube"]))}
    if "tube_other" in groups:
        dimensions["tube_diameter_2"] = Limits(Decimal(groups["tube_other"]))
    return Draft("pipe fitting", "tube outer diameter", "stated", dimensions)


def _fitting(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Place a second thread, tell what the line names first, and open an inch size that has no letter."""
    out: list[Draft] = []
    for draft in drafts:
        second = next((part for part in draft.rest if isinstance(part, ThreadMention)), None)
        if second is not None and "thread" in draft.dimensions:
            draft.dimensions["thread_2"] = second.thread
            draft.drop(second)
        coded = "series" in draft.attributes
        bare = next((part for part in _numbers(draft, facts) if part.unit == "in" and _HALVES.search(part.text)), None)
        if bare is not None and "thread" not in draft.dimensions and not coded:
            out += _without_letter(draft, bare)
            continue
        thread = draft.dimensions.get("thread")
        if coded:
            if isinstance(thread, ThreadSize) and thread.pitch is None:
                draft.asks.append(f"{thread.designation} of the maker's own pitch")
            draft.order_text = "Push-in fitting {series}"
            said = {draft.nominal("tube_diameter")}
            named = thread.designation if isinstance(thread, ThreadSize) else ""
            draft.drop(*(n for n in draft.rest if isinstance(n, Number) and (n.value in said or n.text in named)))
        elif isinstance(thread, ThreadSize):
            _gender(draft, facts, thread, second is None)
        tube = draft.dimensions.get("tube_diameter")
        if isinstance(tube, Limits) and tube.upper is not None and tube.upper < tube.nominal:
            draft.dimensions |= {"tube_diameter": Limits(tube.nominal), "tube_diameter_2": Limits(tube.upper)}
        out.append(draft)
    return out


def _numbers(draft: Draft, facts: Facts) -> list[Number]:
    """Return the unlabelled numbers of the line and those left over."""
    chained = [part for chain in facts.chains for part in chain if isinstance(part, Number) and part.label is None]
    return [*(part for part in draft.rest if isinstance(part, Number)), *chained]


def _gender(draft: Draft, facts: Facts, thread: ThreadSize, alone: bool) -> None:
    """Move a female thread to its key, and let what stands first in the line name the size."""
    first = next((part for chain in facts.chains for part in chain), None)
    tube_first = isinstance(first, Number) and first.label in {None, "tube", "od", "diameter"}
    draft.size_names = (
        "tube outer diameter" if tube_first and "tube_diameter" in draft.dimensions else "external thread"
    )
    if alone and facts.says(*_FEMALE) and not facts.says(*_MALE):
        draft.dimensions["internal_thread"] = draft.dimensions.pop("thread")
        draft.size_names = "internal thread"
        draft.order_text = "Pipe fitting, female thread {internal_thread}, tube {tube_diameter?none}"
    elif "thread_2" in draft.dimensions:
        draft.order_text = "Reducing fitting {thread} - {thread_2}"
    elif "tube_diameter" not in draft.dimensions:
        draft.order_text = "Pipe fitting {thread}"


def _without_letter(draft: Draft, bare: Number) -> list[Draft]:
    """An inch size alone: three pipe threads carry it, and it may be a tube."""
    size = _HALVES.search(bare.text)
    draft.drop(bare)
    others = {key: value for key, value in draft.dimensions.items() if value != Limits(bare.value)}
    out: list[Draft] = []
    for letter in ("G", "R", "NPT"):
        thread = threads.pipe(f"{letter} {size[0]}") if size else None
        if thread is not None:
            reading = draft.copy(
                evidence="assumed", size_names="external thread", dimensions={"thread": thread, **others}
            )
            reading.because.append((bare.text, f"read as {thread.designation}; the letter is missing", COMMON_PRACTICE))
            reading.order_text = "Pipe fitting {thread}"
            out.append(reading)
    if "tube_diameter" not in others:
        tube = draft.copy(evidence="assumed", dimensions={"tube_diameter": Limits(bare.value), **others})
        out.append(tube)
    if not out:
        out.append(draft.copy(dimensions=others))
    out[0].doubts.append("Which thread is it: G (BSP), R (BSPT) or NPT?")
    return out


def _plug(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """An inch size without a letter leaves the thread open."""
    out: list[Draft] = []
    for draft in drafts:
        bare = next((part for part in _numbers(draft, facts) if part.unit == "in" and _HALVES.search(part.text)), None)
        if bare is not None and "thread" not in draft.dimensions:
            held = {key: value for key, value in draft.dimensions.items() if value != Limits(bare.value)}
            read = _without_letter(draft.copy(dimensions=held), bare)
            for item in read:
                item.order_text = "Plug {thread}"
            out += [item for item in read if "thread" in item.dimensions]
        else:
            out.append(draft)
    return out


_KINDS = (
    "pcf?|plf?|pb|pd|px|ph|pll|pst|pm|spcf?|splf?|gpcf?|gplf?|bpcf?|mpc|kq2[a-z]{1,2}|kqg2[a-z]|kj[a-z]|sl|psl|jsc|nse"
)
_ENDS = r"m[0-9]{1,2}|[gn]?0[1-4]|[gr]?1/8|[gr]?1/4|[gr]?3/8|[gr]?1/2"

PIPE_FITTING = Family(
    name="pipe fitting",
    size_names="tube outer diameter",
    key="thread",
    nouns={
        "en": phrases(
            "fitting, pipe fitting, push in fitting, push fit, push fit fitting, pneumatic fitting,"
            " air fitting, push to connect,"
            " push in connector, push fit connector, pneumatic connector, air connector, tube connector, hose"
            " connector,"
            " hose barb, barb, hose tail, quick connector, quick coupling, quick coupler, one touch, flangeless nut,"
            " flangeless, bulkhead union, tube union, reducer, pipe nipple, hex nipple, reducing nipple,"
            " push in union, push in elbow union, push fit union, reducing union, pneumatic elbow, pipe adapter,"
            " thread adapter, push in elbow, straight connector, elbow connector, tee connector, barbed connector"
        ),
        "de": phrases(
            "Steckverschraubung, Steckanschluss, Einschraubverschraubung, Verschraubung, Winkelverschraubung,"
            " Reduzierstück,"
            " Winkelsteckverschraubung, Schlauchtülle, Schlauchverschraubung, Reduziernippel, Doppelnippel,"
            " Einschraubtülle,"
            " Schlauchanschluss, Pneumatikverschraubung, Rohrverschraubung, Steckfitting, Schnellkupplung,"
            " Einschraubwinkel,"
            " Schlauchverbinder, Einschraubstutzen, Schottverschraubung, Pneumatikfitting, Steckverbinder pneumatisch,"
            " Gewindereduzierung, Reduzierung, Steckverbinder Pneumatik, Fitting"
        ),
        "fr": phrases(
            "raccord, raccord instantané, raccord pneumatique, raccord droit, raccord coudé, mamelon, raccord cannelé,"
            " raccord rapide, raccord enfichable, raccord union, réduction mâle femelle, embout cannelé, raccord tuyau"
        ),
        "es": phrases(
            "racor, racor recto, racor codo, racor neumático, racor rápido, conector neumático, espiga manguera,"
            " machón,"
            " enchufe rápido, racor instantáneo, adaptador roscado, conexión neumática, racord"
        ),
        "it": phrases(
            "raccordo, raccordo rapido, raccordo dritto, raccordo a gomito, raccordo pneumatico, nipplo, portagomma,"
            " innesto rapido, raccordo automatico, riduzione maschio femmina, raccordo ad innesto"
        ),
    },
    table="pipe_fitting",
    codes=(
        Code(
            rf"(?:{_KINDS})[ -]?0?(?P<tube>[0-9]{{1,2}})(?: ?- ?|/)(?P<end>{_ENDS})(?:[as]{{1,2}})?",
            identifies=True,
            decode=_push_in,
            says="a code of push-in fittings: the tube, then the thread",
        ),
        Code(
            rf"qs[mlft]?[lt]?-(?P<end>{_ENDS})-(?P<tube>[0-9]{{1,2}})(?:-i)?",
            identifies=True,
            decode=_thread_first,
            says="a code of push-in fittings: the thread, then the tube",
        ),
        Code(
            r"(?:pu|puc|pe|peg|py|pyw|pv|pul|pza|pm|pg|pk|pgj|kq2h|kq2l|kq2t)[ -]?0?(?P<tube>[0-9]{1,2})"
            r"(?:-0?(?P<tube_other>[0-9]{1,2}))?(?:-00)?(?!-)",
            decode=_union,
            says="a code of push-in fittings between tubes",
        ),
    ),
    thread="thread",
    layouts=(
        Layout(("tube_diameter", "bore"), when=lambda v: v["bore"] < v["tube_diameter"]),
        Layout(("tube_diameter",)),
    ),
    labels={"od": "tube_diameter", "diameter": "tube_diameter", "hole": "bore", "length": "length"},
    needs=("thread|internal_thread|tube_diameter",),
    identity=("thread|internal_thread|tube_diameter",),
    order="Pipe fitting {thread}, tube {tube_diameter}",
    question="Which thread (G, R, NPT or M) and which tube has the fitting?",
    refine=_fitting,
    listed_sizes=False,
    unless=words(
        "kitchen bathroom room wardrobe rail light lamp grease spoke window door gear gearbox planetary speed noise"
    ),
    examples=(
        Example("PC6-01", dimensions={"tube_diameter": "6", "thread": "R 1/8"}, size_names="tube outer diameter"),
        Example("pneumatic connector PL6-M5", dimensions={"tube_diameter": "6", "thread": "M5"}),
        Example("QSM-M5-4", dimensions={"tube_diameter": "4", "thread": "M5"}, size_names="external thread"),
        Example("Steckverschraubung G1/8 6 mm", dimensions={"thread": "G 1/8", "tube_diameter": "6"}),
        Example("raccord droit R1/4 tube 8", dimensions={"thread": "R 1/4", "tube_diameter": "8"}),
        Example("hose barb 1/4 NPT", dimensions={"thread": "1/4-18 NPT"}),
        Example("reducer G1/2 male - G1/4 female", dimensions={"thread": "G 1/2", "thread_2": "G 1/4"}),
        Example("1/8 fitting", state="ambiguous"),
        Example("push-in fitting", state="ambiguous"),
    ),
    source="ISO 228-1, ISO 7-1; codes: common practice",
)

PLUG = Family(
    name="plug",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "plug, blanking plug, screw plug, hex plug, pipe plug, sealing plug, drain plug, threaded plug, end"
            " plug, stop plug,"
            " blind plug, socket plug, locking screw plug"
        ),
        "de": phrases(
            "Verschlussschraube, Verschlußschraube, Verschlussstopfen, Blindstopfen, Stopfen, Verschlussstopfen G"
        ),
        "fr": phrases("bouchon, bouchon fileté, bouchon mâle, bouchon de vidange, bouchons"),
        "es": phrases("tapón, tapón roscado, tapón macho, tapones, tapón ciego"),
        "it": phrases("tappo, tappo filettato, tappo a vite, tappo maschio, tappi"),
    },
    standards=(
        Standard("DIN 908", order="Screw plug DIN 908 - {thread}"),
        Standard("DIN 906", order="Screw plug DIN 906 - {thread}"),
        Standard("DIN 910", order="Screw plug DIN 910 - {thread}"),
        Standard("DIN 7604", order="Screw plug DIN 7604 - {thread}"),
    ),
    thread="thread",
    layouts=(Layout(("length",), when=lambda v: "thread" in v),),
    needs=("thread",),
    identity=("thread",),
    order="Screw plug {thread}",
    question="Which thread (G, R, NPT or M) has the plug?",
    refine=_plug,
    yields=True,
    unless=words(
        "dc usb power banana jack spark ear wall mains schuko din rca xlr audio headphone euro uk us eu electrical"
        " jst xt"
        " hole pin poles pole bath sink tooth trailer glow aviation toilette oreille bano corcho"
        " bouteille"
        " botella bottiglia sughero screen wood rawl anchor deans dupont"
    ),
    examples=(
        Example("G1/4 plug with O-ring", dimensions={"thread": "G 1/4"}, size_names="external thread"),
        Example("Verschlussschraube DIN 908 M16x1,5", dimensions={"thread": "M16x1.5"}),
        Example("bouchon fileté R1/8", dimensions={"thread": "R 1/8"}),
        Example("tappo 1/2 gas", dimensions={"thread": "G 1/2"}),
        Example("blanking plug 1/4", state="ambiguous"),
        Example("plug 8 mm", state="ambiguous"),
    ),
    source="ISO 228-1, ISO 7-1",
)

FAMILIES = (PIPE_FITTING, PLUG)
