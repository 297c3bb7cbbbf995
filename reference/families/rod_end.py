"""Rod ends. The size is the bore; the thread is usually the same number, male or female, right or left hand.

The letters of a designation decide: POS and SA male, PHS and SI female, an L left hand. For pneumatic cylinders the
thread is finer (10 mm: M10x1.25), so a number alone leaves the thread open.

Sources: DIN ISO 12240-4 and rod ends for pneumatic cylinders (table).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import Code, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.families.rules import NO_ROW, shown, thread_in
from reference.quantities import Limits
from reference.sizes import Size, dimension_value, size_table

_FEMALE = words(
    "female femelle femmina hembra ig innengewinde internal inner innen internally taraude taraudee interno interna"
)
_MALE = words("male maschio macho ag aussengewinde external outer aussen externally mâle esterno esterna")
_OPEN = "Is the thread male or female, right or left hand, and which pitch has it?"
_TWO_PITCHES = frozenset(map(Decimal, (10, 12, 16)))


def _row(bore: Decimal, form: str) -> Size | None:
    rows = size_table("rod_end", "bore").rows
    return next(
        (
            row
            for row in rows
            if row.dimensions["bore"] == Limits(bore)
            and row.dimensions.get("form") == form
            and row.standard != "practice"
        ),
        None,
    )


def _code(groups: Mapping[str, str]) -> Draft | None:
    letters, size = groups["letters"], Decimal(groups["size"])
    form = "male" if letters.startswith(("po", "sa", "ga")) else "female"
    row = _row(size, form)
    if row is None:
        return None
    hand = "left" if letters.endswith("l") or letters.startswith(("sal", "sil")) else "right"
    key = "thread" if form == "male" else "internal_thread"
    draft = Draft(
        "rod end",
        "bore",
        "stated",
        {"bore": row.dimensions["bore"], key: row.dimensions[key]},
        {"thread_gender": _GENDER[form], "hand": hand},
    )
    draft.because.append((groups["all"].upper(), f"{form} thread, {hand} hand, bore {shown(size)} mm", row.source))
    return draft


_GENDER = {"male": "external", "female": "internal"}


def _bare(groups: Mapping[str, str]) -> Draft | None:
    return _code(groups)


def _rod_end(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Put the thread where the gender says, add what the size implies, ask for what stays open."""
    out: list[Draft] = []
    for draft in drafts:
        draft.table_standard = NO_ROW
        if "thread_gender" in draft.attributes:
            mentioned = thread_in(draft, "thread")
            if draft.attributes["thread_gender"] == "internal" and mentioned is not None:
                draft.dimensions["internal_thread"] = draft.dimensions.pop("thread")
            out.append(_finished(draft))
            continue
        thread, bore = thread_in(draft, "thread"), draft.nominal("bore")
        if thread is None and bore is None:
            continue
        if thread is not None and thread.hand == "left":
            draft.attributes["hand"] = "left"
        form = (
            "female"
            if facts.words & _FEMALE or re.search(r"\(f\)|/f\b", facts.line.lower())
            else "male"
            if facts.words & _MALE
            else None
        )
        if thread is not None and form != "female":
            draft.size_names = "external thread"
        if form is not None:
            draft.attributes["thread_gender"] = _GENDER[form]
        if form == "female" and thread is not None:
            draft.dimensions["internal_thread"] = draft.dimensions.pop("thread")
            draft.size_names = "internal thread"
        _implied(draft, form, thread is not None)
        if form is None or (thread is None and bore in _TWO_PITCHES):
            draft.doubts.append(_OPEN)
        out.append(_finished(draft))
    return out


def _implied(draft: Draft, form: str | None, threaded: bool) -> None:
    """Add bore or thread from the usual series."""
    bore = draft.nominal("bore")
    key = "internal_thread" if form == "female" else "thread"
    if bore is not None and form is not None and not threaded and bore not in _TWO_PITCHES:
        row = _row(bore, form)
        if row is not None:
            draft.dimensions[key] = row.dimensions[key]
            draft.because.append((shown(bore), f"the thread of a {shown(bore)} mm rod end", row.source))
    thread = thread_in(draft, key)
    if bore is None and thread is not None:
        for row in size_table("rod_end", "bore").rows:
            if row.standard != "practice" and dimension_value(row.dimensions.get(key)) == thread.designation:
                draft.dimensions["bore"] = row.dimensions["bore"]
                says = "the bore of a rod end with this thread"
                draft.because.append((thread.designation, says, row.source))
                return


def _finished(draft: Draft) -> Draft:
    if "hand" not in draft.attributes and "thread_gender" in draft.attributes:
        draft.asks.append("a right-hand thread")
    if "series" in draft.attributes:
        draft.order_text = "Rod end {series}"
    elif "internal_thread" in draft.dimensions:
        draft.order_text = "Rod end, bore {bore}, female thread {internal_thread}, {hand?right} hand"
    return draft


_SUFFIX = r"(?:[ -]?(?:t/k|tk|t|k|ec|es|e|c|-2rs))?"

ROD_END = Family(
    name="rod end",
    size_names="bore",
    key="bore",
    nouns={
        "en": phrases(
            "rod end, rod-end, rod end bearing, rose joint, heim joint, rod ends, spherical rod end, "
            "rod end ball joint, rod eye bearing, ball joint rod end, tie rod end bearing, "
            "fisheye rod end"
        ),
        "de": phrases(
            "Gelenkkopf, Gelenkköpfe, Kugelgelenkkopf, Gelenk Kopf, Gelenkstangenkopf, Stangenkopf, Gelenkauge"
        ),
        "fr": phrases(
            "rotule, embout à rotule, embout rotule, tête de bielle rotule, embout rotulé, "
            "rotule mâle, rotule femelle, embout à rotule mâle, embout à rotule femelle, rotules"
        ),
        "es": phrases(
            "rótula, cabeza de rótula, terminal de rótula, rótula macho, rótula hembra, "
            "cabezal de rótula, cabeza de articulación, rótulas"
        ),
        "it": phrases(
            "testa a snodo, snodo sferico, terminale a snodo, testa snodo, teste a snodo, "
            "terminale snodo sferico, snodo maschio, snodo femmina"
        ),
        "zh": phrases("yu yan zhoucheng, yuyan zhoucheng"),
    },
    standards=(Standard("ISO 12240-4"), Standard("DIN 648"), Standard("DIN ISO 12240-4")),
    table="rod_end",
    codes=(
        Code(
            rf"(?P<letters>posl?|phsl?)[ -]?(?P<size>\d{{1,2}}){_SUFFIX}",
            identifies=True,
            decode=_code,
            says="a rod end: thread, hand and bore",
            source="makers' catalogues (common practice)",
        ),
        Code(
            r"(?P<letters>sal?|sil?)[ -]?(?P<size>\d{1,2})[ -]?(?:t/k|tk)",
            identifies=True,
            decode=_code,
            says="a rod end: thread, hand and bore",
            source="makers' catalogues (common practice)",
        ),
        Code(
            rf"(?P<letters>sal?|sil?|gar|gir)[ -]?(?P<size>\d{{1,2}}){_SUFFIX}",
            decode=_bare,
            says="a rod end: thread, hand and bore",
            source="makers' catalogues (common practice)",
        ),
    ),
    thread="thread",
    layouts=(Layout(("bore",)),),
    labels={"diameter": "bore", "hole": "bore", "shaft": "bore", "id": "bore", "pitch": "-"},
    needs=("bore", "thread|internal_thread"),
    identity=("bore|thread|internal_thread",),
    order="Rod end, bore {bore}, male thread {thread}, {hand?right} hand",
    question="Which bore and which thread has the rod end? " + _OPEN,
    refine=_rod_end,
    listed_sizes=False,
    words=_FEMALE | _MALE | words("pas hand ball joint"),
    unless=words("car genou knee prothese auto automobile puller cap curtain"),
    mates=Mates(in_bore=False),
    examples=(
        Example("rod end SA8T/K", dimensions={"bore": "8", "thread": "M8"}, size_names="bore"),
        Example("PHS10 rod end", dimensions={"bore": "10", "internal_thread": "M10"}, size_names="bore"),
        Example(
            "rod end M6 female left hand bore 6",
            dimensions={"bore": "6", "internal_thread": "M6"},
            size_names="internal thread",
        ),
        Example(
            "testa a snodo M12 maschio foro 12",
            dimensions={"bore": "12", "thread": "M12"},
            size_names="external thread",
        ),
        Example("rod end 8", state="ambiguous"),
        Example("Gelenkkopf M10", state="ambiguous"),
    ),
    source="DIN ISO 12240-4",
)

FAMILY = ROD_END
