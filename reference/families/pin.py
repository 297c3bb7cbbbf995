"""The bare word ``pin`` (Stift, goupille, pasador, spina): it leaves open which pin, so each meaning is read.

Source: ISO 8734, ISO 8752, ISO 2339, ISO 8740 (what the same number means in each).
"""

from collections.abc import Sequence

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, phrases, words
from reference.families.facts import Draft, Facts, ThreadMention
from reference.families.parallel_pin import PARALLEL_PIN

_MEANINGS = (
    ("parallel pin", "outer diameter", "outer_diameter"),
    ("slotted spring pin", "hole size", "hole_diameter"),
    ("taper pin", "small end diameter", "small_end_diameter"),
)
_KIND = "Is it a parallel, a spring-type or a taper pin?"


def _meanings(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read the size as that of each pin; a tolerance class decides for the parallel pin."""
    out: list[Draft] = []
    for draft in drafts:
        thread = any(isinstance(part, ThreadMention) for part in draft.rest)
        ground = any(not item.hole for item in facts.classes)
        as_parallel = draft.copy(family="parallel pin")
        if (thread or ground) and PARALLEL_PIN.refine is not None:
            read = list(PARALLEL_PIN.refine(PARALLEL_PIN, facts, [as_parallel]))
            if ground and not thread:
                for item in read:
                    item.because.append(
                        (facts.classes[0].text, "only parallel pins are ordered by class", COMMON_PRACTICE)
                    )
            else:
                read[0].doubts.append(_KIND)
            out += read
            continue
        size = draft.dimensions.get("outer_diameter")
        if size is None:
            draft.doubts.append(_KIND + " Which diameter and length?")
            out.append(draft)
            continue
        others = {key: value for key, value in draft.dimensions.items() if key != "outer_diameter"}
        for name, names, key in _MEANINGS:
            out.append(draft.copy(family=name, size_names=names, evidence="assumed", dimensions={key: size, **others}))
        out[-1].doubts.append(_KIND)
    return out


FAMILY = Family(
    name="pin",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases("pin, metal pin, steel pin, fixing pin"),
        "de": phrases("Stift, Stifte, Metallstift"),
        "fr": phrases("goupille, goupilles"),
        "es": phrases("pasador, pasadores, clavija"),
        "it": phrases("spina, spine, spinotto"),
    },
    layouts=(
        Layout(("outer_diameter", "length"), when=lambda v: v["outer_diameter"] <= v["length"]),
        Layout(("length", "outer_diameter"), when=lambda v: v["outer_diameter"] < v["length"]),
        Layout(("outer_diameter",)),
    ),
    labels={"shaft": "-"},
    order="Pin {outer_diameter} x {length}",
    refine=_meanings,
    generic=True,
    yields=True,
    kin=(
        "parallel pin",
        "parallel pin with internal thread",
        "parallel pin with external thread",
        "taper pin",
        "taper pin with internal thread",
        "taper pin with external thread",
        "slotted spring pin",
        "coiled spring pin",
        "grooved pin",
        "clevis pin",
        "split pin",
        "spring cotter",
        "quick release pin",
    ),
    unless=words(
        "header headers connector connectors plug socket vise vice code badge board bowling safety rolling drawing hair"
        " clothes firing lapel map push pogo test crank wrist jst dupont molex usb cable pcb gpio chip dip ic jumper"
        " schuko shuko corrente presa tent hat number up pad pads stecker sockel"
    ),
    examples=(
        Example("pin 5 x 20", state="ambiguous", size_names="outer diameter"),
        Example("Stift 6x30", state="ambiguous"),
        Example("goupille M5 x 20", state="ambiguous"),
    ),
    source="ISO 8734, ISO 8752, ISO 2339",
)
