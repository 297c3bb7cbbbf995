"""Blind rivets and adhesive bumpers.

A blind rivet is named by its outside diameter and length; the hole is about 0.1 mm larger. A bumper is named by its
outside diameter and height.

Sources: ISO 15977 (rivet sizes and holes: table); the rest common practice.
"""

from collections.abc import Sequence

from reference.families.base import Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts

_BLIND = words(
    "blind pop blindniet blindniete blindnieten popniet popniete popnieten aveugle ciego pop strappo remache cieco"
)
_SIZES = (
    Layout(
        ("outer_diameter", "length"), when=lambda v: v["outer_diameter"] < v["length"], says="diameter before length"
    ),
    Layout(("length", "outer_diameter"), says="the larger number is the length"),
    Layout(("outer_diameter",)),
)


def _rivet(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """``Rivet`` alone may be a solid one."""
    out: list[Draft] = []
    for draft in drafts:
        if not draft.dimensions and not draft.standards:
            continue
        if not facts.words & _BLIND and not draft.standards:
            draft.doubts.append("Is it a blind rivet or a solid one?")
        out.append(draft)
    return out


BLIND_RIVET = Family(
    name="blind rivet",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "blind rivet, pop rivet, rivet, blind rivets, pull rivet, open end blind rivet, "
            "dome head blind rivet, countersunk blind rivet, countersunk rivet"
        ),
        "de": phrases("Blindniet, Blindniete, Popniete, Popniet, Niet, Niete, Blindnieten, Nieten, Blindniet Senkkopf"),
        "fr": phrases("rivet aveugle, rivet pop, rivet, rivets aveugles, rivet à tige, rivet aveugle tête fraisée"),
        "es": phrases("remache ciego, remache pop, remache, remaches ciegos, remaches, remache ciego avellanado"),
        "it": phrases(
            "rivetto, rivetto a strappo, rivetti, ribattino, rivetto cieco, rivetto strappo, rivetto testa svasata"
        ),
    },
    standards=(
        Standard("ISO 15977", order="Blind rivet ISO 15977 - {outer_diameter} x {length}"),
        Standard("DIN 7337", rows="ISO 15977", order="Blind rivet DIN 7337 - {outer_diameter} x {length}"),
        Standard("ISO 15978", rows="ISO 15977", order="Blind rivet ISO 15978 - {outer_diameter} x {length}"),
        Standard("ISO 15979", rows="ISO 15977", order="Blind rivet ISO 15979 - {outer_diameter} x {length}"),
        Standard("ISO 15983", rows="ISO 15977", order="Blind rivet ISO 15983 - {outer_diameter} x {length}"),
    ),
    table="blind_rivet",
    layouts=_SIZES,
    labels={"diameter": "outer_diameter", "grip": "@grip", "sheet": "@grip"},
    needs=("outer_diameter", "length"),
    identity=("outer_diameter",),
    order="Blind rivet {outer_diameter} x {length}",
    question="Which diameter and length has the rivet?",
    length_says="the length is that of the sleeve under the head",
    refine=_rivet,
    kin=("rivet nut",),
    listed_sizes=False,
    unless=words("gun tool zange pince pistolet alicates rivettatrice nut jeans leather book remachadora"),
    words=_BLIND | words("dome open"),
    mates=Mates(own_hole="", on_shaft=False),
    examples=(
        Example(
            "blind rivet 4.8x12 alu/steel",
            dimensions={"outer_diameter": "4.8", "length": "12", "hole_diameter": "4.9"},
            size_names="outer diameter",
        ),
        Example("Blindniet 3,2 x 10", dimensions={"outer_diameter": "3.2", "length": "10", "hole_diameter": "3.3"}),
        Example("rivet aveugle 4x8 inox", dimensions={"outer_diameter": "4", "length": "8"}),
        Example("rivetto a strappo 3 x 6", dimensions={"outer_diameter": "3", "length": "6"}),
        Example("rivet 4 x 10", state="ambiguous"),
    ),
    source="ISO 15977",
)


def _bumper(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    return [draft for draft in drafts if draft.dimensions]


BUMPER = Family(
    name="bumper",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "adhesive bumper, rubber bumper, adhesive rubber bumper, bumper feet, "
            "rubber feet adhesive, adhesive feet, self adhesive feet, adhesive rubber feet, "
            "stick on feet, rubber foot adhesive, silicone bumper, self-adhesive bumper, bumper pad, "
            "bump stop adhesive, adhesive foot, rubber feet, rubber foot"
        ),
        "de": phrases(
            "Gummifuß selbstklebend, Klebefuß, Gummipuffer selbstklebend, Gerätefuß selbstklebend, "
            "Elastikpuffer, Klebepuffer, Gummifüße selbstklebend, Gerätefuß Gummi, Gummifuß, "
            "Klebefüße, Gummifüße, Silikonpuffer selbstklebend"
        ),
        "fr": phrases(
            "pied adhésif, patin adhésif, butée adhésive, pied caoutchouc adhésif, "
            "patin caoutchouc adhésif, butée caoutchouc adhésive, pied caoutchouc, pieds adhésifs, "
            "patins adhésifs, plot adhésif"
        ),
        "es": phrases(
            "tope adhesivo, pie de goma adhesivo, tope de goma adhesivo, pata adhesiva, "
            "taco de goma adhesivo, topes adhesivos, pie adhesivo, pies de goma, tope de goma, "
            "tope silicona adhesivo"
        ),
        "it": phrases(
            "piedino adesivo, gommino adesivo, piedino in gomma adesivo, paracolpo adesivo, "
            "gommini adesivi, piedini adesivi, piedino gomma, paracolpi adesivi"
        ),
    },
    layouts=(
        Layout(
            ("outer_diameter", "height"),
            when=lambda v: v["outer_diameter"] >= v["height"],
            says="outside diameter before height",
        ),
        Layout(("height", "outer_diameter"), says="the larger number is the diameter"),
        Layout(("outer_diameter",)),
    ),
    labels={"diameter": "outer_diameter", "thickness": "height", "width": "outer_diameter"},
    needs=("outer_diameter", "height"),
    identity=("outer_diameter",),
    order="Adhesive rubber bumper {outer_diameter} x {height}",
    question="Which diameter and height has the bumper?",
    refine=_bumper,
    unless=words("car front rear guard sticker phone golf vw"),
    mates=Mates(in_bore=False, on_shaft=False),
    examples=(
        Example(
            "adhesive bumper 10 x 3", dimensions={"outer_diameter": "10", "height": "3"}, size_names="outer diameter"
        ),
        Example("Gummifuß selbstklebend Ø12 x 4", dimensions={"outer_diameter": "12", "height": "4"}),
        Example("pied adhésif caoutchouc 8x2,5", dimensions={"outer_diameter": "8", "height": "2.5"}),
        Example("piedino adesivo 20 x 7,5 mm", dimensions={"outer_diameter": "20", "height": "7.5"}),
    ),
)

FAMILIES = (BLIND_RIVET, BUMPER)
