"""Lines that order shafts, collars and couplings, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("linear shaft 10mm x 400mm", "shaft: size=outer diameter, outer_diameter=10, length=400, tolerance_class=h6"),
    ("12mm smooth rod 500mm", "shaft: size=outer diameter, outer_diameter=12, length=500"),
    ("Welle 8 h6 x 250", "shaft: size=outer diameter, outer_diameter=8, length=250, tolerance_class=h6"),
    ("arbre Ø10 h6 longueur 300", "shaft: size=outer diameter, outer_diameter=10, length=300, tolerance_class=h6"),
    ("eje lineal 12mm 600mm", "shaft: size=outer diameter, outer_diameter=12, length=600, tolerance_class=h6"),
    ("albero 8 h6 x 400", "shaft: size=outer diameter, outer_diameter=8, length=400, tolerance_class=h6"),
    ("chromed rod D8 L350", "shaft: size=outer diameter, outer_diameter=8, length=350, tolerance_class=h6"),
    ("steel rod 6 x 200", "shaft: size=outer diameter, outer_diameter=6, length=200"),
    (
        "precision shaft 1/4 x 12 in",
        "shaft: size=outer diameter, outer_diameter=6.35, length=304.8, tolerance_class=h6",
    ),
    ("shaft 5mm dia 80mm long stainless", "shaft: size=outer diameter, outer_diameter=5, length=80"),
    ("shaft collar 10 mm", "shaft collar: size=shaft size, bore=10"),
    ("Stellring 12 mm", "shaft collar: size=shaft size, bore=12"),
    ("collar 8x16x8 shaft collar", "shaft collar: size=bore, bore=8, outer_diameter=16, width=8"),
    ("bague d'arrêt 6 mm", "shaft collar: size=shaft size, bore=6"),
    ("flexible coupling 5x8mm", "shaft coupling: size=bore, bore=5, bore_2=8"),
    ("Wellenkupplung 5/6,35 D19 L25", "shaft coupling: size=bore, bore=5, bore_2=6.35, outer_diameter=19, length=25"),
    ("coupler 8mm to 10mm D25 L30", "shaft coupling: size=bore, bore=8, bore_2=10, outer_diameter=25, length=30"),
    ("jaw coupling D30 L35 8x10", "shaft coupling: size=bore, bore=8, bore_2=10, outer_diameter=30, length=35"),
    ("accouplement 6.35x8 D20 L25", "shaft coupling: size=bore, bore=6.35, bore_2=8, outer_diameter=20, length=25"),
    ("giunto 5x5", "shaft coupling: size=bore, bore=5, bore_2=5"),
    ("shaft 300mm length diameter 8mm", "shaft: size=outer diameter, outer_diameter=8, length=300"),
    (
        "linear shaft diameter 8mm length 400mm",
        "shaft: size=outer diameter, outer_diameter=8, length=400, tolerance_class=h6",
    ),
    ("Welle Durchmesser 8 mm Länge 400 mm", "shaft: size=outer diameter, outer_diameter=8, length=400"),
    ("shaft 8mm diameter 400mm long", "shaft: size=outer diameter, outer_diameter=8, length=400"),
    ("eje diámetro 8 mm largo 400 mm", "shaft: size=outer diameter, outer_diameter=8, length=400"),
    ("albero diametro 8 lunghezza 400", "shaft: size=outer diameter, outer_diameter=8, length=400"),
    (
        "coupling bore 5mm and 8mm length 25mm OD 19mm",
        "shaft coupling: size=bore, bore=5, bore_2=8, outer_diameter=19, length=25",
    ),
    (
        "coupling 5mm bore 8mm bore 19mm OD 25mm long",
        "shaft coupling: size=bore, bore=5, bore_2=8, outer_diameter=19, length=25",
    ),
    (
        "flexible shaft coupling 5mm-8mm OD19mm L25mm",
        "shaft coupling: size=bore, bore=5, bore_2=8, outer_diameter=19, length=25",
    ),
    ("collar shaft bore 8mm OD 16mm width 8mm", "shaft collar: size=bore, bore=8, outer_diameter=16, width=8"),
    ("Silberstahl 6 x 330", "shaft: size=outer diameter, outer_diameter=6, length=330"),
    ("D-Welle 5 x 60", "shaft: size=outer diameter, outer_diameter=5, length=60, form=D"),
    ("round bar stainless 8 x 500", "shaft: size=outer diameter, outer_diameter=8, length=500"),
    ("aluminium rod 10 x 300", "shaft: size=outer diameter, outer_diameter=10, length=300"),
    ("brass rod 5mm x 200", "shaft: size=outer diameter, outer_diameter=5, length=200"),
    ("shaft 3/8 x 6", "shaft: size=outer diameter, outer_diameter=9.525, length=152.4"),
    ("hardened shaft 12 g6 x 400", "shaft: size=outer diameter, outer_diameter=12, length=400, tolerance_class=g6"),
    ("Klemmring 8 mm", "shaft collar: size=shaft size, bore=8"),
    ("set collar DIN 705 8", "shaft collar: size=shaft size, bore=8, outer_diameter=16, width=8"),
    ("shaft collar 1/4", "shaft collar: size=shaft size, bore=6.35"),
    ("Stellring DIN 705 A 6", "shaft collar: size=shaft size, bore=6, outer_diameter=12, width=8"),
    ("coupling 8-10 mm", "shaft coupling: size=bore, bore=8, bore_2=10"),
    ("Kupplung 5 auf 8 mm", "shaft coupling: size=bore, bore=5, bore_2=8"),
    ("acople rígido 5x8 D12 L20", "shaft coupling: size=bore, bore=5, bore_2=8, outer_diameter=12, length=20"),
    ("coupling 14x14 D30 L35", "shaft coupling: size=bore, bore=14, bore_2=14, outer_diameter=30, length=35"),
)
OPEN = (
    ("coupling 20x25", "? shaft coupling"),
    ("coupling D20 L25", "? shaft coupling"),
    ("linear shaft", "? shaft"),
    ("flexible coupling 5 mm", "? shaft coupling"),
    ("coupling 5x8x25", "? shaft coupling"),
    ("shaft collar", "? shaft collar"),
    ("coupling 20 x 8 D14 L25", "? shaft coupling"),
)
OTHER_THINGS = (
    "drive shaft of a car",
    "garden hose coupling 1/2",
    "dog collar 40cm",
    "a couple of things",
    "albero di natale 180 cm",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_shafts(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
