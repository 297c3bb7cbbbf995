"""Nuts that sit in something: T-slot nuts, rivet nuts, cross dowels, tee nuts and sleeve nuts.

A T-slot nut has a slot and a thread, free of each other in aluminium profiles: one number alone (``T-nut M8``) may be
either, or a tee nut for wood, or the nut of a Tr8 screw. A rivet nut is named by its thread; the hole is larger.

Sources: DIN 508 (table), nuts for aluminium profiles and rivet nuts as sold (tables: common practice).
"""

import re
from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.families.rules import NO_ROW, rows_with, shown, size_in, thread_in
from reference.quantities import Limits, ThreadSize
from reference.threads import metric
from reference.words import PROFILES

_PROFILE_WIDTHS = frozenset(map(Decimal, (15, 20, 25, 30, 40, 45, 50, 60)))
_SLOT_MOST = Decimal(54)


def _is_profile(value: Decimal) -> bool:
    return value in _PROFILE_WIDTHS or shown(value) in PROFILES


def _profile_of(facts: Facts) -> str | None:
    """Return the profile that the line names: ``2020``, ``20 series``, ``Profil 40``."""
    found = re.search(r"(?<!\d)(\d{4})(?!\d)", facts.line)
    if found and found[1] in PROFILES:
        return found[1][:2]
    named = re.search(
        r"(?:profil\w*|serie|series|baureihe|extrusion)\s?(\d\d)(?!\d)|(?<!\d)(\d\d)[ "
        r"-]?(?:series|serie|er)(?!\w)",
        facts.line.lower(),
    )
    return (named[1] or named[2]) if named else None


def _slots(thread: ThreadSize) -> list[str]:
    """Return the slot widths of profiles for which nuts with this thread are sold."""
    rows = rows_with(T_SLOT_NUT, internal_thread=thread.designation)
    sizes = [size_in(row, "slot_width") for row in rows if row.standard == "practice"]
    return [shown(width) for width in sorted({size.nominal for size in sizes if size is not None})]


def _t_slot(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Decide whether the numbers name slot, thread or profile; a single one that could be several is read as each."""
    out: list[Draft] = []
    for draft in drafts:
        profile = _profile_of(facts)
        spare = [part for part in draft.rest if isinstance(part, Number) and _is_profile(part.value)]
        if profile or spare:
            draft.attributes["profile"] = profile or shown(spare[0].value)[:2]
            draft.drop(*spare)
        slot, thread = draft.nominal("slot_width"), thread_in(draft, "internal_thread")
        draft.attributes.pop("series", None)
        if draft.standards:
            if slot is not None:
                draft.order_text = _DIN_508
            if slot is not None and thread is not None and not _is_din_508(thread, slot):
                draft.doubts.append(
                    f"{draft.standards[0]} has no {thread.designation} for a slot of {shown(slot)} mm. Which slot?"
                )
            out.append(draft)
            continue
        draft.table_standard = NO_ROW
        if slot is None and thread is None:
            continue
        if slot is not None and thread is not None:
            draft.order_text = _WITH_PROFILE if "profile" in draft.attributes else None
            out.append(draft)
        elif thread is not None:
            out += _thread_alone(draft, facts, thread)
        elif slot is not None:
            out += _slot_alone(draft, slot, facts)
    return out


def _is_din_508(thread: ThreadSize, slot: Decimal) -> bool:
    rows = rows_with(T_SLOT_NUT, internal_thread=thread.designation, slot_width=slot)
    return any(row.standard == "DIN 508" for row in rows)


_DIN_508 = "T-slot nut DIN 508 - {internal_thread} x {slot_width}"
_WITH_PROFILE = "T-slot nut for profile {profile}, slot {slot_width}, thread {internal_thread}"
_WHICH = "Which slot width and which thread?"


_SLOT_WORDS = words(
    "slot rainure ranura cava nutenstein nutensteine drop hammer hammerkopf hammermutter "
    "sliding roll marteau martillo"
    " martello spring profil profile extrusion hammerhead slide"
)


def _thread_alone(draft: Draft, facts: Facts, thread: ThreadSize) -> list[Draft]:
    """An M number without a slot: clear as a thread beside a word for slots or a profile, else open."""
    if "profile" in draft.attributes or facts.words & _SLOT_WORDS or thread.diameter not in {5, 6, 8, 10}:
        widths = ", ".join(_slots(thread)) or "any"
        draft.asks.append(f"its slot left open ({widths} mm are sold with {thread.designation})")
        return [draft]
    tee = draft.copy(family="tee nut", evidence="assumed")
    tee.because.append(("T-nut", "for wood: a tee nut with prongs", COMMON_PRACTICE))
    slot = {"slot_width": Limits(thread.diameter)}
    by_slot = draft.copy(evidence="assumed", size_names="slot width", dimensions=slot)
    says = "sellers also write M before the width of the slot"
    by_slot.because.append((thread.designation, says, COMMON_PRACTICE))
    draft.doubts.append(_WHICH)
    return [draft, by_slot, tee]


def _slot_alone(draft: Draft, slot: Decimal, facts: Facts) -> list[Draft]:
    """A plain number: the slot, or the thread where nothing calls it a slot."""
    draft.size_names = "slot width"
    parts = [*facts.labelled, *(part for chain in facts.chains for part in chain if isinstance(part, Number))]
    if any(part.label == "slot" for part in parts):
        draft.doubts.append("Which thread has the nut?")
        return [draft]
    draft.doubts.append(_WHICH)
    thread = metric(slot)
    if thread is None:
        return [draft]
    by_thread = draft.copy(
        evidence="assumed", size_names="internal thread", dimensions={"internal_thread": thread}, doubts=[]
    )
    tee = by_thread.copy(family="tee nut")
    tee.because.append(("T-nut", "for wood: a tee nut with prongs", COMMON_PRACTICE))
    screw = by_thread.copy(
        family="lead screw nut",
        dimensions={"outer_diameter": Limits(slot)},
        order_text=f"Lead screw nut Tr{shown(slot)}",
    )
    screw.because.append((f"T {shown(slot)}", f"the nut of a Tr{shown(slot)} lead screw", COMMON_PRACTICE))
    return [draft, by_thread, tee, screw]


T_SLOT_NUT = Family(
    name="T-slot nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": (
            *phrases(
                "T nut, T-nut, tnut, T slot nut, tslot nut, T-slot nut, slot nut, drop in nut, "
                "drop-in nut, hammer nut, hammerhead nut, hammer head nut, sliding nut, slide nut, "
                "roll in nut, spring nut profile, post install nut, extrusion nut"
            ),
            *phrases(
                "T nut",
                "drop in, hammer, sliding, slide, slot, roll in, spring, hammer head, ball spring, half round, economy",
            ),
        ),
        "de": phrases(
            "Nutenstein, Nutensteine, Hammermutter, T-Mutter, Hammerkopfmutter, T-Nutenstein, "
            "Nutstein, Gleitmutter, Nutmutter T, T-Nut Mutter, T Nutmutter, Schwenkmutter, "
            "T-Nut Stein, Federnutenstein"
        ),
        "fr": phrases(
            "écrou en T, écrou T, écrou marteau, écrou à tête marteau, écrou rainure, "
            "écrou pour rainure, écrou pour rainure en T, lardon, écrou coulissant, "
            "écrou tête marteau, écrou rainure T"
        ),
        "es": phrases(
            "tuerca en T, tuerca T, tuerca martillo, tuerca cabeza de martillo, tuerca para ranura, "
            "tuerca ranura, tuerca deslizante, tuerca ranura T, tuerca de martillo, tuerca T ranura"
        ),
        "it": phrases(
            "dado a T, dado T, dado a martello, dado per cava, dado cava, dado scorrevole, "
            "dado martello, dado per cave a T, tassello a T, dado cava T, inserto cava"
        ),
    },
    standards=(
        Standard("DIN 508", order=_DIN_508),
        Standard("ISO 299", rows="DIN 508", order="T-slot nut ISO 299 - {internal_thread} x {slot_width}"),
    ),
    table="t_slot_nut",
    thread="internal_thread",
    layouts=(
        Layout(
            ("slot_width",),
            when=lambda v: (
                v["slot_width"] <= _SLOT_MOST and not (_is_profile(v["slot_width"]) and v["slot_width"] >= 20)
            ),
        ),
        Layout(
            ("slot_width", "@profile"), when=lambda v: v["slot_width"] < v["@profile"] and _is_profile(v["@profile"])
        ),
        Layout(
            ("@profile", "slot_width"), when=lambda v: v["slot_width"] < v["@profile"] and _is_profile(v["@profile"])
        ),
    ),
    labels={
        "series": "@profile",
        "width": "slot_width",
        "slot": "slot_width",
        "length": "length",
        "groove": "slot_width",
    },
    needs=("internal_thread", "slot_width"),
    identity=("internal_thread",),
    order="T-slot nut, slot {slot_width}, thread {internal_thread}",
    question=_WHICH,
    refine=_t_slot,
    kin=("lead screw nut",),
    listed_sizes=False,
    words=words("drop in roll extrusion profile profil series"),
    unless=words("insulated electrical terminal"),
    examples=(
        Example(
            "DIN 508 M8x10",
            dimensions={"internal_thread": "M8", "slot_width": "10", "width": "15"},
            size_names="internal thread",
        ),
        Example("T-slot nut M5 slot 8", dimensions={"internal_thread": "M5", "slot_width": "8"}),
        Example("Nutenstein Nut 8 M6", dimensions={"internal_thread": "M6", "slot_width": "8"}),
        Example("hammer nut M4 slot 6 (2020)", dimensions={"internal_thread": "M4", "slot_width": "6"}),
        Example("T-nut M6", state="ambiguous"),
        Example("T nut 10", state="ambiguous"),
    ),
    source="DIN 508",
    mates=Mates(in_bore=False, on_shaft=False),
)

TEE_NUT = Family(
    name="tee nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "tee nut, teenut, pronged tee nut, four prong nut, prong nut, T nut wood, T nut prong, "
            "T nut pronged, T-nut for wood, blind tee nut, T nut furniture, wood tee nut"
        ),
        "de": phrases("Einschlagmutter, Einschlagmuttern, Krallenmutter"),
        "fr": phrases("écrou à griffes, écrou griffe, écrou à frapper, écrou à griffes bois"),
        "es": phrases("tuerca de garra, tuerca garras, tuerca de garras, tuerca de clavar, tuerca araña"),
        "it": phrases("dado a griffe, dado griffe, ragno filettato, dado a ragno"),
    },
    standards=(Standard("DIN 1624"),),
    thread="internal_thread",
    layouts=(Layout(("length",)), Layout(("outer_diameter", "length")), Layout(("length", "outer_diameter"))),
    labels={"hole": "hole_diameter", "height": "length"},
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Tee nut for wood {internal_thread}",
    question="Which thread has the tee nut?",
    inch_order="Tee nut for wood {internal_thread}",
    mates=Mates(in_bore=False, on_shaft=False),
    examples=(
        Example("tee nut M6", dimensions={"internal_thread": "M6"}, size_names="internal thread"),
        Example("Einschlagmutter M8 x 15", dimensions={"internal_thread": "M8", "length": "15"}),
        Example("écrou à griffes M5", dimensions={"internal_thread": "M5"}),
        Example("T-nut for wood M4", dimensions={"internal_thread": "M4"}),
    ),
    source="DIN 1624",
)


def _rivet_nut(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A plain number is the thread or the hole; the grip is the sheet that it clamps."""
    out: list[Draft] = []
    grip = next((number for number in facts.labelled if number.label in {"grip", "sheet"}), None)
    for draft in drafts:
        if grip is not None:
            draft.attributes.pop("grip", None)
            low, high = (shown(grip.value), shown(grip.upper)) if grip.upper is not None else ("", shown(grip.value))
            draft.attributes |= {"grip_max": high} | ({"grip_min": low} if low else {})
            draft.because.append((grip.text, "the thickness that it clamps", "the line's own words"))
        length = draft.dimensions.get("length")
        if isinstance(length, Limits) and length.upper is not None:  # hex 1.5-4 mm grip
            del draft.dimensions["length"]
            draft.attributes |= {"grip_min": shown(length.nominal), "grip_max": shown(length.upper)}
        hexagon = facts.says("hex", "sechskant", "hexagonal", "hexagonale", "esagonale")
        if hexagon:
            draft.table_standard = NO_ROW
            draft.asks.append("a hexagonal body: hole by the maker's sheet")
        plain = draft.nominal("hole_diameter")
        if "internal_thread" in draft.dimensions or draft.doubts:
            out.append(draft)
        elif plain is not None:
            out += _plain_rivet_nut(family, draft, plain, any(number.label == "hole" for number in facts.labelled))
    return out


def _plain_rivet_nut(family: Family, draft: Draft, plain: Decimal, labelled: bool) -> list[Draft]:
    out: list[Draft] = []
    thread = metric(plain)
    if thread is not None and not labelled:
        out.append(
            draft.copy(
                dimensions={key: value for key, value in draft.dimensions.items() if key != "hole_diameter"}
                | {"internal_thread": thread}
            )
        )
    for row in rows_with(family, hole_diameter=plain):
        out.append(
            draft.copy(
                size_names="hole size",
                evidence="assumed",
                dimensions={**draft.dimensions, "internal_thread": row.dimensions["internal_thread"]},
            )
        )
        out[-1].because.append((shown(plain), f"the hole of the {row.size} rivet nut", row.source))
    if not out:
        out = [draft]
    out[0].doubts.append("Is it the thread or the hole, and which grip range?")
    return out


RIVET_NUT = Family(
    name="rivet nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": (
            *phrases(
                "rivet nut, rivnut, rivetnut, blind nut, blind rivet nut, nutsert, riv nut, nut rivet, "
                "threaded rivet, rivet insert, rivet nuts, blind nut rivet, rivnuts, "
                "rivet threaded insert, blind rivet insert, nut serts, nutserts"
            ),
            *phrases(
                "rivet nut, rivnut, blind rivet nut",
                "flat head, countersunk, csk, countersunk head, knurled, hex, hexagon, reduced head",
            ),
        ),
        "de": phrases(
            "Blindnietmutter, Nietmutter, Einnietmutter, Blindnietmuttern, Nietmuttern, "
            "Blindniet Mutter, Blindnietmutter Senkkopf, Blindnietmutter Flachkopf, "
            "Nietmutter Flachkopf, Nietmutter Senkkopf"
        ),
        "fr": phrases(
            "écrou à sertir, écrou à river, écrou aveugle, écrou à sertir aveugle, insert à sertir, "
            "rivet écrou, écrou rivet, écrou à riveter, rivet taraudé, écrou serti, "
            "écrou noyé à sertir, rivkle"
        ),
        "es": phrases(
            "tuerca remachable, remache roscado, tuerca remache, remache tuerca, tuerca de remache, "
            "tuerca remachada, remache hembra, tuerca remachable ciega, inserto remachable"
        ),
        "it": phrases(
            "inserto a rivetto, rivetto filettato, inserto filettato rivetto, dado rivetto, "
            "rivetto femmina, inserto a strappo, rivetti filettati, dado a rivetto, "
            "inserto filettato a rivetto, tubetto filettato, inserti a rivetto, bussola a rivetto"
        ),
    },
    standards=(Standard("DIN 7340"),),
    table="rivet_nut",
    thread="internal_thread",
    layouts=(
        Layout(("hole_diameter",), when=lambda v: "internal_thread" not in v),
        Layout(("length",), when=lambda v: "internal_thread" in v),
        Layout(
            ("outer_diameter", "length"),
            when=lambda v: "internal_thread" in v and v["internal_thread"] < v["outer_diameter"] < v["length"],
        ),
        Layout(("hole_diameter", "length")),
    ),
    labels={
        "od": "outer_diameter",
        "diameter": "outer_diameter",
        "grip": "@grip",
        "sheet": "@grip",
        "drill": "hole_diameter",
    },
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Rivet nut {internal_thread}, hole {hole_diameter?by the maker's sheet}",
    question="Which thread has the rivet nut?",
    refine=_rivet_nut,
    inch_order="Rivet nut {internal_thread}",
    words=words("grip flat head countersunk knurled splined reduced gun"),
    unless=words("tool gun pliers zange pince alicates kit setter"),
    examples=(
        Example(
            "M5 rivet nut steel",
            dimensions={"internal_thread": "M5", "hole_diameter": "7"},
            size_names="internal thread",
        ),
        Example("Blindnietmutter M6 Alu", dimensions={"internal_thread": "M6", "hole_diameter": "9"}),
        Example("rivnut M4 grip 0.5-2.0 countersunk", dimensions={"internal_thread": "M4"}),
        Example("tuerca remachable M8", dimensions={"internal_thread": "M8", "hole_diameter": "11"}),
        Example("rivet nut 6 mm", state="ambiguous", size_names="internal thread"),
    ),
    mates=Mates(own_hole="", on_shaft=False),
)


def _cross_dowel(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """``Barrel nut`` alone may be a cross dowel or a sleeve nut."""
    out: list[Draft] = []
    cross = facts.says(
        "cross", "quermutterbolzen", "querbolzen", "furniture", "mobel", "bed", "quer", "mueble", "mobile", "meuble"
    )
    barrel = facts.says("barrel", "barril", "tonneau", "barilotto")
    for draft in drafts:
        if thread_in(draft, "internal_thread") is None and len(draft.dimensions) < 2:
            continue
        outer, length = draft.nominal("outer_diameter"), draft.nominal("length")
        if outer is not None and length is not None and length < outer:
            draft.doubts.append("Which is the diameter, which the length? A cross dowel is longer than it is thick.")
        if barrel and not cross and "outer_diameter" not in draft.dimensions:
            sleeve = draft.copy(family="sleeve nut", evidence="assumed")
            sleeve.because.append(("barrel nut", "also a flanged sleeve with a thread inside", COMMON_PRACTICE))
            draft.doubts.append(
                "Is it a cross dowel (thread across the axis) or a sleeve nut (thread along it)? Which "
                "diameter and length?"
            )
            out += [draft, sleeve]
        else:
            out.append(draft)
    return out


CROSS_DOWEL = Family(
    name="cross dowel",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "cross dowel, cross dowel nut, barrel nut, furniture barrel nut, bed bolt nut, "
            "cross dowel barrel nut, crossdowel, barrel nuts cross dowel, cross barrel nut"
        ),
        "de": phrases(
            "Quermutterbolzen, Querbolzen, Quermutter, Rundbolzenmutter, Möbelmutter, "
            "Bettbeschlag Quermutter, Querdübel Mutter"
        ),
        "fr": phrases(
            "écrou cylindrique, écrou tonneau, écrou noix, écrou barillet, noix de serrage filetée, "
            "écrou cylindrique meuble"
        ),
        "es": phrases("tuerca barril, tuerca de barril, tuerca cilíndrica, tuerca cilíndrica mueble, tuerca de tonel"),
        "it": phrases("dado cilindrico, barilotto filettato, dado a barilotto, dado a botte, barilotto"),
    },
    thread="internal_thread",
    layouts=(
        Layout(
            ("outer_diameter", "length"),
            when=lambda v: (
                v["outer_diameter"] > v.get("internal_thread", Decimal(0)) and v["outer_diameter"] <= v["length"]
            ),
        ),
        Layout(("length", "outer_diameter"), when=lambda v: v["outer_diameter"] > v.get("internal_thread", Decimal(0))),
        Layout(("length",)),
    ),
    needs=("internal_thread", "outer_diameter", "length"),
    identity=("internal_thread",),
    order="Cross dowel {internal_thread}, diameter {outer_diameter} x {length}",
    question="Which thread, diameter and length has the cross dowel?",
    refine=_cross_dowel,
    kin=("rivet nut", "coupling nut", "standoff"),
    mates=Mates(on_shaft=False),
    examples=(
        Example(
            "cross dowel M8 12x18",
            dimensions={"internal_thread": "M8", "outer_diameter": "12", "length": "18"},
            size_names="internal thread",
        ),
        Example(
            "Quermutterbolzen M6 Ø10 x 16", dimensions={"internal_thread": "M6", "outer_diameter": "10", "length": "16"}
        ),
        Example("tuerca cilíndrica M6 10x20", dimensions={"internal_thread": "M6", "outer_diameter": "10"}),
        Example("barrel nut M6 x 20", state="ambiguous", size_names="internal thread"),
    ),
)

SLEEVE_NUT = Family(
    name="sleeve nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "sleeve nut, sex bolt, binding post, connector bolt cap, chicago screw, "
            "furniture sleeve nut, cap sleeve nut, inter screw, interscrew, barrel bolt nut"
        ),
        "de": phrases("Hülsenmutter, Buchschraube, Hülsenmuttern, Verbindungsschraube Hülse"),
        "fr": phrases("vis de reliure, écrou douille, vis de jonction, écrou relieur"),
        "es": phrases("tornillo de unión hembra, tornillo encuadernación, tuerca casquillo"),
        "it": phrases("vite sepolta, dado a manicotto mobile, viti unione"),
    },
    thread="internal_thread",
    layouts=(Layout(("length",)), Layout(("outer_diameter", "length"))),
    needs=("internal_thread", "length"),
    identity=("internal_thread",),
    order="Sleeve nut {internal_thread} x {length}",
    question="Which thread and length has the sleeve nut?",
    mates=Mates(on_shaft=False),
    examples=(
        Example(
            "sleeve nut M6 x 20", dimensions={"internal_thread": "M6", "length": "20"}, size_names="internal thread"
        ),
        Example("Hülsenmutter M6x15", dimensions={"internal_thread": "M6", "length": "15"}),
        Example("sex bolt M4 x 12", dimensions={"internal_thread": "M4", "length": "12"}),
        Example("vis de reliure M5x10", dimensions={"internal_thread": "M5", "length": "10"}),
    ),
)

FAMILIES = (T_SLOT_NUT, TEE_NUT, RIVET_NUT, CROSS_DOWEL, SLEEVE_NUT)
