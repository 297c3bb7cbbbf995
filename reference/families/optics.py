"""Small lenses and the rings and adapters of their mounts. Each mount has a thread of its own: an M12 lens has M12x0.5.

Sources: ISO 10935 (C mount is 1-32 UN), common practice (M12x0.5, M42x1).
"""

import re
from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.quantities import ThreadSize

_MOUNT_THREADS = {
    "c": ThreadSize("1-32 UN", Decimal("25.4"), Decimal("0.79375"), "unified"),
    "cs": ThreadSize("1-32 UN", Decimal("25.4"), Decimal("0.79375"), "unified"),
    "s": ThreadSize("M12x0.5", Decimal(12), Decimal("0.5")),
    "t": ThreadSize("M42x0.75", Decimal(42), Decimal("0.75")),
}
_LENS_PITCHES = {Decimal(12): Decimal("0.5"), Decimal(16): Decimal("0.5"), Decimal(7): Decimal("0.35")}
_MOUNT = re.compile(r"\b(c|cs|s|t)[- ]?(?:2[- ])?mount|\b1-32\b")
_STATED = re.compile(r"\bm(\d{1,2}) ?[x*×] ?(\d(?:[.,]\d{1,2})?)(?![.,]?\d)")
_APERTURE = re.compile(r"\bf ?/? ?(\d{1,2}(?:[.,]\d{1,2})?)(?![\d.,]* ?mm)")


def _optic(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read the mount's thread, the aperture (f/2) and, for a lens, the focal length."""
    line = facts.line.lower()
    mount, aperture = _MOUNT.search(line), _APERTURE.search(line)
    for draft in drafts:
        if aperture:
            draft.attributes["aperture"] = aperture[1].replace(",", ".")
        thread = draft.dimensions.get("thread")
        if isinstance(thread, ThreadSize):
            _own_pitch(draft, thread, facts, family.name == "lens")
        elif mount:
            name = mount[1] or "c"
            held = _MOUNT_THREADS[name]
            draft.dimensions["thread"] = held
            draft.because.append((mount[0], f"the {name.upper()} mount has the thread {held.designation}", "ISO 10935"))
            draft.rest = [part for part in draft.rest if not (isinstance(part, Number) and part.text == "1-32")]
            draft.order_text = f"{name.upper()} mount {'lens' if family.name == 'lens' else 'extension ring'}"
            key = "focal_length" if family.name == "lens" else "length"
            draft.order_text += f", {key.replace('_', ' ')} {{{key}}} mm"
        else:
            draft.doubts.append(family.question)
        _numbers(draft, facts, aperture[1] if aperture else "", "focal_length" if family.name == "lens" else "length")
        if family.name == "lens mount" and "length" in draft.dimensions and draft.order_text is None:
            draft.order_text = "Lens mount, extension ring {thread}, length {length} mm"
    return drafts


def _own_pitch(draft: Draft, thread: ThreadSize, facts: Facts, lens: bool) -> None:
    """M12 on a lens is M12x0.5, not the coarse thread of a bolt; a ring of M42 must state its pitch."""
    stated = _STATED.search(facts.line.lower())
    if any(mention.pitch_stated for mention in facts.threads()):
        return
    if stated is not None and Decimal(stated[1]) == thread.diameter:
        pitch = Decimal(stated[2].replace(",", "."))
        draft.dimensions["thread"] = ThreadSize(f"M{stated[1]}x{pitch}", thread.diameter, pitch)
        draft.rest = [part for part in draft.rest if not (isinstance(part, Number) and part.value == pitch)]
        return
    usual = _LENS_PITCHES.get(thread.diameter)
    if usual is not None:
        name = f"M{thread.diameter.normalize():f}x{usual}"
        draft.dimensions["thread"] = ThreadSize(name, thread.diameter, usual)
        draft.because.append((thread.designation, f"a lens thread: {name}", COMMON_PRACTICE))
        draft.asks.append(f"the thread {name}")
    elif not lens:
        draft.doubts.append(f"Which pitch has the {thread.designation} thread: 0.75 or 1 mm?")


def _numbers(draft: Draft, facts: Facts, aperture: str, key: str) -> None:
    numbers = [part for part in draft.rest if isinstance(part, Number)]
    stop = next((number for number in numbers if number.unit == "" and number.text == aperture), None)
    if stop is not None:
        draft.drop(stop)
        numbers = [number for number in numbers if number is not stop]
    if len(numbers) == 1 and key not in draft.dimensions:
        draft.give(key, numbers[0].value, numbers[0].text, key.replace("_", " "), COMMON_PRACTICE)
        draft.drop(numbers[0])


LENS = Family(
    name="lens",
    size_names="external thread",
    key="catalogue_number",
    nouns={
        "en": phrases(
            "m, c, cs, c mount, cs mount, s mount, board, camera, wide angle, fisheye, board camera", "lens, lenses"
        ),
        "de": phrases("Objektiv, M Objektiv, Kameraobjektiv, C Mount Objektiv"),
        "fr": phrases("objectif m, objectif monture, objectif caméra, objectif c mount, objectif"),
        "es": phrases("objetivo m, lente m, objetivo montura, lente cámara, lente montura"),
        "it": phrases("obiettivo m, lente m, obiettivo attacco, obiettivo"),
    },
    thread="thread",
    labels={"length": "focal_length", "section": "-", "tube": "-"},
    needs=("thread", "focal_length"),
    order="Lens {thread}, focal length {focal_length} mm",
    question="Which thread or mount, and which focal length?",
    refine=_optic,
    kin=("lens mount",),
    unless=words("cleaning cleaner contact glasses sunglasses cap pen tissue cloth magnifier hood"),
    examples=(
        Example(
            "M12 lens 6 mm f/2",
            dimensions={"thread": "M12x0.5", "focal_length": "6"},
            size_names="external thread",
        ),
        Example("CS-mount lens 16mm", dimensions={"thread": "1-32 UN", "focal_length": "16"}),
        Example("Objektiv M12x0,5 8 mm", dimensions={"thread": "M12x0.5", "focal_length": "8"}),
        Example("camera lens 25 mm", state="ambiguous"),
    ),
    source="ISO 10935; common practice",
)

LENS_MOUNT = Family(
    name="lens mount",
    size_names="external thread",
    key="catalogue_number",
    nouns={
        "en": phrases(
            "extension ring, extension tube, macro ring, lens mount, lens adapter, lens holder, lens adapter ring"
        )
        + phrases("c, cs, s, t", "mount ring, mount adapter, mount extension, mount spacer, mount holder"),
        "de": phrases("Zwischenring, Objektivring, Objektivadapter, C Mount Ring, C Mount Adapter, Objektivhalter"),
        "fr": phrases("bague allonge, bague d'extension, bague monture C, tube allonge, porte-objectif"),
        "es": phrases("anillo de extensión, anillo montura C, tubo de extensión, adaptador de objetivo, anillo macro"),
        "it": phrases("anello di prolunga, anello attacco C, tubo di prolunga, adattatore obiettivo"),
    },
    thread="thread",
    labels={
        "section": "-",
        "tube": "-",
        "height": "length",
        "thickness": "length",
        "width": "length",
        "depth": "length",
    },
    needs=("thread",),
    order="Lens mount, extension ring {thread}",
    question="Which thread or mount?",
    refine=_optic,
    unless=words("hair cable hose ladder bar socket wall"),
    examples=(
        Example("M42x1 extension ring", dimensions={"thread": "M42x1"}, size_names="external thread"),
        Example("C-mount ring 5mm", dimensions={"thread": "1-32 UN", "length": "5"}),
        Example("Zwischenring M42x1 10 mm", dimensions={"thread": "M42x1", "length": "10"}),
        Example("extension ring 10 mm", state="ambiguous"),
    ),
    source="ISO 10935; common practice",
)

FAMILIES = (LENS, LENS_MOUNT)
