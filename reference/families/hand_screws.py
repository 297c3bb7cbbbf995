"""Screws turned by hand: knurled screws, wing screws, knobs. The size is the thread.

``Thumb screw`` alone leaves the form of the head open (knurled, a wing or a moulded knob): it is read as a knob with a
stud, which is all that a mate meets.

Sources: DIN 464, DIN 653, DIN 316, DIN 318 (tables); knobs: common practice.
"""

from collections.abc import Sequence

from reference.families.base import Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.families.rules import leave_standard_open, row_of_stated, thread_in
from reference.families.screws import LENGTH, UNDER_HEAD

_HIGH = words("high tall hoch hohe hoher hohem haute alta alto")
_LOW = words("low flat niedrig niedrige niedriger flach flache basse plate baja baja bassa piatta")
_KNURLED_ORDER = "Knurled thumb screw {standard?DIN 464} - {thread} x {length}"
_LOW_ORDER = "Flat knurled thumb screw DIN 653 - {thread} x {length}"


def _knurled(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """High (DIN 464) or low (DIN 653) head by the words or the head's diameter and height."""
    for draft in drafts:
        if "length" not in draft.dimensions and "head_height" in draft.dimensions:
            draft.dimensions["length"] = draft.dimensions.pop("head_height")  # M3x6 hoch: a high head
        if draft.standards:
            continue
        if facts.words & _LOW:
            draft.table_standard, draft.order_text = "DIN 653", _LOW_ORDER
        elif facts.words & _HIGH:
            draft.table_standard = "DIN 464"
        else:
            row_of_stated(family, draft, ("head_diameter", "head_height"), {"DIN 653": _LOW_ORDER})
            leave_standard_open(family, draft, "head_height", ask=False)
    return drafts


KNURLED_SCREW = Family(
    name="knurled screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "knurled, knurled thumb, knurled head, knurled-head, knurled hand, knurl head",
            "screw, bolt, thumbscrew, thumb screw",
        ),
        "de": phrases("Rändelschraube, Rändel Schraube, Rändelkopfschraube, Rändelschrauben, Rändelkopf Schraube"),
        "fr": phrases("vis moletée, vis à tête moletée, vis tête moletée, vis à molette"),
        "es": phrases(
            "tornillo moleteado, tornillo moleteada, tornillo cabeza moleteada, tornillo de cabeza moleteada"
        ),
        "it": phrases(
            "vite zigrinata, vite a testa zigrinata, vite testa zigrinata, vite godronata, "
            "vite testa godronata, vite testa moleteata"
        ),
    },
    standards=(
        Standard("DIN 464", order="Knurled thumb screw DIN 464 - {thread} x {length}"),
        Standard("DIN 653", order=_LOW_ORDER),
        Standard("DIN 465", rows="DIN 464", order="Slotted knurled thumb screw DIN 465 - {thread} x {length}"),
    ),
    table="knurled_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    labels={"head": "head_diameter", "diameter": "head_diameter", "od": "head_diameter", "height": "head_height"},
    needs=("thread", "length"),
    identity=("thread",),
    order=_KNURLED_ORDER,
    question="Which thread has the screw?",
    length_says=UNDER_HEAD,
    refine=_knurled,
    inch_order="Knurled thumb screw {thread} x {length} in",
    uniform_length=True,
    words=_HIGH | _LOW,
    examples=(
        Example(
            "DIN 464 M4x12",
            dimensions={"thread": "M4", "length": "12", "head_diameter": "16"},
            size_names="external thread",
        ),
        Example("Rändelschraube M5 x 16 niedrig DIN 653", dimensions={"thread": "M5", "length": "16"}),
        Example("knurled thumb screw M3x10 brass", dimensions={"thread": "M3", "length": "10"}),
        Example("vis moletée M6x20", dimensions={"thread": "M6", "length": "20"}),
    ),
    source="DIN 464, DIN 653",
    mates=Mates(through=True, headed=True),
)


def _winged(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Leave the wings open where no standard is named."""
    for draft in drafts:
        leave_standard_open(family, draft, "width", ask=False)
    return drafts


WING_SCREW = Family(
    name="wing screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases("wing, butterfly, winged, wing head", "screw, bolt, thumb screw"),
        "de": phrases("Flügelschraube, Flügel Schraube, Flügelkopfschraube"),
        "fr": phrases("vis papillon, vis à oreilles, vis à ailettes, vis à ailes, boulon papillon"),
        "es": phrases("tornillo mariposa, tornillo de mariposa, palomilla tornillo, tornillo de palomilla"),
        "it": phrases(
            "vite ad alette, vite a farfalla, vite alette, vite farfalla, vite a galletto, "
            "galletto vite, vite con alette"
        ),
    },
    standards=(
        Standard("DIN 316", order="Wing screw DIN 316 - {thread} x {length}"),
        Standard("DIN 318", order="Wing screw DIN 318 - {thread} x {length}"),
        Standard("UNI 5449", rows="DIN 316", order="Wing screw UNI 5449 - {thread} x {length}"),
    ),
    table="wing_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order="Wing screw DIN 316 - {thread} x {length}",
    question="Which thread has the screw?",
    refine=_winged,
    inch_order="Wing screw {thread} x {length} in",
    uniform_length=True,
    examples=(
        Example(
            "Wing screw DIN 316 - M6 x 20", dimensions={"thread": "M6", "length": "20"}, size_names="external thread"
        ),
        Example("Flügelschraube M8x30", dimensions={"thread": "M8", "length": "30"}),
        Example("vis papillon M5 x 16 inox", dimensions={"thread": "M5", "length": "16"}),
        Example("tornillo mariposa M4x10", dimensions={"thread": "M4", "length": "10"}),
    ),
    source="DIN 316, DIN 318",
    mates=Mates(through=True, headed=True),
)

_FEMALE = words(
    "female innengewinde ig tapped femelle hembra femmina nut mutter sterngriffmutter bush bushing insert "
    "taraude taraudee filettato interno dado"
)


def _knob(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A knob has a stud where a length stands beside the thread, or a tapped hole where the words say so."""
    out: list[Draft] = []
    for draft in drafts:
        thread = thread_in(draft, "thread")
        if thread is None and not draft.dimensions:
            continue
        if thread is not None and facts.words & _FEMALE and "length" not in draft.dimensions:
            del draft.dimensions["thread"]
            draft.dimensions["internal_thread"] = thread
            draft.size_names = "internal thread"
            draft.order_text = "Knob with tapped hole {internal_thread}" + _KNOB_SIZE
        elif facts.says("thumb", "thumbscrew", "thumbscrews"):
            draft.order_text = "Thumb screw {thread} x {length}"
        elif "length" not in draft.dimensions and thread is not None:
            draft.doubts.append("Has the knob a threaded stud (how long?) or a tapped hole?")
        if "outer_diameter" not in draft.dimensions and draft.order_text is None:
            draft.order_text = "Knob with threaded stud {thread} x {length}"
        elif "outer_diameter" not in draft.dimensions and "internal_thread" in draft.dimensions:
            draft.order_text = "Knob with tapped hole {internal_thread}"
        out.append(draft)
    return out


_KNOB_SIZE = ", head diameter {outer_diameter}"

KNOB = Family(
    name="knob",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "knob, star knob, clamping knob, thumb screw, thumbscrew, thumb-screw, hand knob, "
            "palm knob, lobe knob, handle knob,"
            " thumb bolt, hand screw, knob screw, tightening knob, male knob, wing knob, T knob, "
            "hand wheel knob, ball knob"
        ),
        "de": phrases(
            "Sterngriff, Sterngriffschraube, Kreuzgriff, Griffschraube, Drehknopf, Rändelknopf, "
            "Kugelknopf, Knebelschraube, Kreuzgriffschraube, Handschraube, Sterngriffmutter, "
            "Ballengriff"
        ),
        "fr": phrases(
            "bouton étoile, bouton de serrage, bouton moleté, bouton à lobes, bouton croisillon, "
            "croisillon de serrage, vis à main, vis de serrage à main, bouton étoile mâle"
        ),
        "es": phrases(
            "pomo, pomo estrella, pomo de apriete, tornillo de apriete manual, pomo lobulado, "
            "perilla, empuñadura estrella, volante estrella"
        ),
        "it": phrases(
            "pomello, pomolo, volantino, manopola a lobi, volantino a lobi, manopola di serraggio, "
            "pomello a lobi, volantino a stella, pomolo a stella, galletto a pomolo"
        ),
    },
    standards=(
        Standard("DIN 6336", order="Star grip DIN 6336 - {outer_diameter} - {thread|internal_thread} x {length}"),
    ),
    thread="thread",
    layouts=(
        Layout(("length",), when=lambda v: "thread" in v),
        Layout(("outer_diameter", "length"), when=lambda v: "thread" in v and v["outer_diameter"] > v["thread"]),
        Layout(("outer_diameter",)),
    ),
    labels={"head": "outer_diameter", "diameter": "outer_diameter", "stud": "length", "thread": "length"},
    needs=("thread|internal_thread",),
    identity=("thread|internal_thread",),
    order="Knob with threaded stud {thread} x {length}" + _KNOB_SIZE,
    question="Which thread has the knob, outside or inside, and how long is its stud?",
    refine=_knob,
    unless=words(
        "volume potentiometer encoder pot guitar door drawer cabinet gear shift cap shaft "
        "doorknob amplifier stove oven potentiometre lamp"
    ),
    words=_FEMALE,
    mates=Mates(through=True),
    examples=(
        Example("star knob M6 x 25", dimensions={"thread": "M6", "length": "25"}, size_names="external thread"),
        Example(
            "Sterngriff Ø40 M8 Innengewinde",
            dimensions={"internal_thread": "M8", "outer_diameter": "40"},
            size_names="internal thread",
        ),
        Example("thumb screw M3x10 aluminium", dimensions={"thread": "M3", "length": "10"}),
        Example("clamping knob M5", state="ambiguous"),
    ),
)

FAMILIES = (KNURLED_SCREW, WING_SCREW, KNOB)
