"""Disc springs: outside x inside x thickness, the outside first.

Source: DIN 2093 (table).
"""

from decimal import Decimal

from reference.families.base import Example, Family, Layout, Standard, phrases

FAMILY = Family(
    name="disc spring",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "disc spring, disk spring, belleville, belleville washer, belleville spring, cup spring, conical disc"
            " spring,"
            " disc spring washer, disk spring washer, belleville spring washer, coned disc spring"
        ),
        "de": phrases("Tellerfeder, Teller Feder, Tellerfedern"),
        "fr": phrases("rondelle belleville, ressort belleville, rondelle ressort belleville, ressort à disque"),
        "es": phrases("muelle de disco, arandela belleville, resorte de disco, muelle de platillo, muelle belleville"),
        "it": phrases("molla a tazza, molle a tazza, molla a disco, rondella belleville, molla belleville"),
    },
    standards=(
        Standard("DIN 2093"),
        Standard("ISO 19690", rows="DIN 2093"),
        Standard("DIN 16983", rows="DIN 2093"),
    ),
    table="disc_spring",
    layouts=(
        Layout(
            ("outer_diameter", "bore", "thickness", "height"),
            when=lambda v: v["outer_diameter"] > v["bore"] > v["thickness"] <= v["height"],
        ),
        Layout(
            ("outer_diameter", "bore", "thickness"),
            when=lambda v: v["outer_diameter"] > v["bore"] > v["thickness"],
            says="outside, inside, thickness",
        ),
        Layout(
            ("bore", "outer_diameter", "thickness"),
            when=lambda v: v["outer_diameter"] > v["bore"] > v["thickness"],
            says="the larger diameter is the outside",
            size_names="bore",
        ),
        Layout(("outer_diameter", "bore"), when=lambda v: v["outer_diameter"] > v["bore"] * Decimal("1.3")),
        Layout(("bore", "outer_diameter"), when=lambda v: v["outer_diameter"] > v["bore"], size_names="bore"),
        Layout(("outer_diameter",)),
    ),
    labels={"hole": "bore", "shaft": "bore", "length": "height"},
    needs=("outer_diameter", "bore", "thickness"),
    identity=("outer_diameter", "bore"),
    order="Disc spring DIN 2093 - {outer_diameter} x {bore} x {thickness}",
    question="Which outside diameter, inside diameter and thickness has the disc spring?",
    listed_sizes=False,
    examples=(
        Example(
            "Disc spring DIN 2093 - 16 x 8.2 x 0.9",
            dimensions={"outer_diameter": "16", "bore": "8.2", "thickness": "0.9", "height": "1.25"},
            size_names="outer diameter",
        ),
        Example("Tellerfedern 20x10,2x1,1", dimensions={"outer_diameter": "20", "thickness": "1.1"}),
        Example("molla a tazza 12,5 x 6,2 x 0,7", dimensions={"outer_diameter": "12.5", "bore": "6.2"}),
        Example("Belleville 5.2 x 10 x 0.5", dimensions={"bore": "5.2", "outer_diameter": "10"}, size_names="bore"),
        Example("Belleville washer M8", state="ambiguous"),
    ),
    source="DIN 2093",
)
