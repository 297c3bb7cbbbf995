"""Grease nipples: screwed into a tapped hole of a bearing block or carriage. The size is the thread, always a fine one.

``M6`` alone means M6x1, which is the coarse pitch too; ``M8`` and ``M10`` alone mean M8x1 and M10x1, which are not.

Source: DIN 71412 (from memory).
"""

from collections.abc import Sequence

from reference import threads
from reference.families.base import COMMON_PRACTICE, Example, Family, Mates, Standard, phrases
from reference.families.facts import Draft, Facts
from reference.quantities import ThreadSize


def _fine(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the pitch that nipples have; a pitch that stands in the line is left as it is."""
    stated = {mention.thread.designation for mention in facts.threads() if mention.pitch_stated}
    for draft in drafts:
        thread = draft.dimensions.get("thread")
        if not isinstance(thread, ThreadSize) or thread.system != "metric" or thread.designation in stated:
            continue
        sizes = family.sizes.rows if family.sizes else ()
        listed = next((t for row in sizes if (t := threads.parse(row.size)) and t.diameter == thread.diameter), None)
        if listed is not None and listed.designation != thread.designation:
            draft.dimensions["thread"] = listed
            draft.because.append((thread.designation, "grease nipples have the pitch 1", "DIN 71412"))
            draft.asks.append(f"thread {listed.designation}")
    return drafts


FAMILY = Family(
    name="grease nipple",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "grease nipple, grease fitting, zerk, zerk fitting, lubrication nipple, greasing nipple, grease zerk"
        ),
        "de": phrases("Schmiernippel, Kegelschmiernippel, Fettnippel"),
        "fr": phrases("graisseur, raccord de graissage, graisseur hydraulique"),
        "es": phrases("engrasador, boquilla de engrase"),
        "it": phrases("ingrassatore, nipplo di ingrassaggio"),
    },
    standards=(Standard("DIN 71412"),),
    table="grease_nipple",
    thread="thread",
    needs=("thread",),
    identity=("thread",),
    order="Grease nipple DIN 71412 - A {thread}",
    question="Which thread has the nipple?",
    refine=_fine,
    mates=Mates(in_bore=False, on_shaft=False),
    examples=(
        Example("grease nipple M6x1", dimensions={"thread": "M6", "across_flats": "7"}, size_names="external thread"),
        Example("Schmiernippel M8", dimensions={"thread": "M8x1", "across_flats": "9"}),
        Example("graisseur G1/8", dimensions={"thread": "G 1/8"}),
        Example("DIN 71412 A M10x1", dimensions={"thread": "M10x1"}),
        Example("ingrassatore", state="ambiguous"),
    ),
    source=COMMON_PRACTICE,
)
