"""Cable glands: the size is the thread, neither the cable nor the hole.

A metric gland has the fine thread M x 1.5 of EN 60423; a PG gland a thread of its own (PG7 is 12.5 mm outside, not
M16).
The cable that fits differs by maker.

Sources: EN 60423, EN 62444, DIN 40430 (table); cable ranges: common practice.
"""

from collections.abc import Mapping, Sequence

from reference import threads
from reference.families.base import Code, Example, Family, Layout, Mates, Standard, phrases
from reference.families.facts import Draft, Facts
from reference.quantities import Limits, ThreadSize


def _pg(groups: Mapping[str, str]) -> Draft | None:
    thread = threads.parse(f"PG{groups['size'].replace(',', '.')}")
    if thread is None:
        return None
    return Draft("cable gland", "trade size", "stated", {"thread": thread})


def _gland(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Give the pitch of a metric gland and name the cable range as something to confirm."""
    for draft in drafts:
        draft.attributes.pop("series", None)
        thread = draft.dimensions.get("thread")
        if not isinstance(thread, ThreadSize):
            continue
        stated = any(mention.pitch_stated for mention in facts.threads())
        if thread.system == "metric" and not stated:
            fine = threads.parse(f"M{thread.diameter.normalize():f}x1.5")
            if fine is not None and family.sizes is not None and family.sizes.find(fine.designation) is not None:
                draft.dimensions["thread"] = thread = fine
                draft.because.append((fine.designation, "metric glands have the fine thread of EN 60423", "EN 60423"))
            else:
                draft.doubts.append(f"EN 60423 has no gland {thread.designation}. Which thread and pitch has it?")
        row = family.sizes.find(thread.designation) if family.sizes else None
        low, high = (row.dimensions.get(f"cable_diameter_{end}") if row else None for end in ("lower", "upper"))
        if isinstance(low, Limits) and isinstance(high, Limits) and not facts.says("cable", "kabel"):
            draft.asks.append(f"a cable of about {low.nominal.normalize():f} to {high.nominal.normalize():f} mm")
    return drafts


FAMILY = Family(
    name="cable gland",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "cable gland, gland, cord grip, cable grip, strain relief gland, cord gland, cable connector gland"
        ),
        "de": phrases(
            "Kabelverschraubung, Kabel Verschraubung, Kabelverschraubungen, Stopfbuchsverschraubung, PG Verschraubung"
        ),
        "fr": phrases("presse-étoupe, presse étoupe, presse étoupes, passe-câble à vis, presse-câble"),
        "es": phrases("prensaestopas, prensaestopa, prensacables, prensacable, pasacables roscado, prensa estopas"),
        "it": phrases("pressacavo, pressacavi, passacavo a vite, pressa cavo, premistoppa"),
    },
    standards=(Standard("EN 62444"), Standard("DIN 40430"), Standard("EN 60423")),
    table="cable_gland",
    codes=(
        Code(
            r"pg[ -]?(?P<size>7|9|11|13[.,]5|16|21|29|36|42|48)(?![.,][0-9])",
            decode=_pg,
            says="a PG size names a conduit thread; it is no diameter",
            source="DIN 40430",
        ),
    ),
    thread="thread",
    layouts=(Layout(("cable_diameter",)),),
    labels={"diameter": "cable_diameter", "grip": "cable_diameter", "hole": "hole_diameter", "length": "thread_length"},
    needs=("thread",),
    identity=("thread",),
    order="Cable gland {thread}",
    question="Which thread has the cable gland, M or PG?",
    refine=_gland,
    listed_sizes=False,
    examples=(
        Example(
            "M20 cable gland", dimensions={"thread": "M20x1.5", "hole_diameter": "20.5"}, size_names="external thread"
        ),
        Example("Kabelverschraubung M16x1,5 grau", dimensions={"thread": "M16x1.5"}),
        Example("PG7 gland nylon", dimensions={"thread": "PG7", "outer_diameter": "12.5"}, size_names="trade size"),
        Example("presse-étoupe PG13,5", dimensions={"thread": "PG13.5"}),
        Example("pressacavo M50", dimensions={"thread": "M50x1.5"}),
        Example("cable gland 8 mm", state="ambiguous"),
    ),
    source="EN 60423, DIN 40430",
    mates=Mates(own_hole=""),
)
