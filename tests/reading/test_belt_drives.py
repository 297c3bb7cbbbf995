"""Lines that order timing belts, timing pulleys and idlers, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("GT2 pulley 16T bore 5 belt 6", "timing pulley: size=teeth, profile=GT2, teeth=16, bore=5, belt_width=6"),
    (
        "2GT timing pulley 20 teeth 8mm bore 10mm width",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=8, belt_width=10",
    ),
    (
        "HTD 5M pulley 18T bore 12 for 15mm belt",
        "timing pulley: size=teeth, profile=HTD 5M, teeth=18, bore=12, belt_width=15",
    ),
    (
        "Zahnscheibe T5 15 Zähne Bohrung 6 Riemen 10",
        "timing pulley: size=teeth, profile=T5, teeth=15, bore=6, belt_width=10",
    ),
    ("poulie T2.5 20 dents alésage 5", "timing pulley: size=teeth, profile=T2.5, teeth=20, bore=5"),
    ("polea HTD 3M 15 dientes agujero 6", "timing pulley: size=teeth, profile=HTD 3M, teeth=15, bore=6"),
    ("GT2 idler 16T bore 3", "idler: size=teeth, profile=GT2, teeth=16, bore=3"),
    ("smooth idler pulley 5mm bore 6mm belt", "idler: size=bore, bore=5, belt_width=6"),
    ("idler GT2 20 teeth bore 5 width 10", "idler: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=10"),
    ("GT2 belt 10mm x 2m", "timing belt: size=belt width, profile=GT2, belt_width=10, length=2000"),
    ("GT2 open belt 6mm width 3m", "timing belt: size=belt width, profile=GT2, belt_width=6, length=3000"),
    ("2GT-6mm open belt 5 m", "timing belt: size=belt width, profile=GT2, belt_width=6, length=5000"),
    (
        "GT2 closed loop 6mm 400mm",
        "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=400, teeth=200",
    ),
    (
        "HTD 3M 300mm 9mm closed",
        "timing belt: size=pitch length, profile=HTD 3M, belt_width=9, pitch_length=300, teeth=100",
    ),
    ("T5 belt 10mm 2m", "timing belt: size=belt width, profile=T5, belt_width=10, length=2000"),
    ("300-3M-9", "timing belt: size=pitch length, profile=HTD 3M, belt_width=9, pitch_length=300, teeth=100"),
    ("110XL037", "timing belt: size=pitch length, profile=XL, belt_width=9.525, pitch_length=279.4, teeth=55"),
    ("158-2GT-6", "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=158, teeth=79"),
    (
        "Zahnriemen T2,5 6mm 500mm geschlossen",
        "timing belt: size=pitch length, profile=T2.5, belt_width=6, pitch_length=500, teeth=200",
    ),
    ("courroie HTD 5M 15 mm ouverte 3 m", "timing belt: size=belt width, profile=HTD 5M, belt_width=15, length=3000"),
    (
        "pulley bore 5mm teeth 20 GT2 belt width 6mm",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6",
    ),
    (
        "pulley 20 teeth bore 8mm width 6mm GT2",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=8, belt_width=6",
    ),
    (
        "GT2 timing pulley, teeth: 20, bore: 5 mm, belt width: 6 mm",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6",
    ),
    ("GT2-6 pulley 20 teeth 5 mm bore", "timing pulley: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6"),
    (
        "idler pulley GT2 20 teeth bore 5mm belt width 6mm",
        "idler: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6",
    ),
    (
        "timing belt GT2 width 6 mm pitch length 280 mm",
        "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=280, teeth=140",
    ),
    (
        "GT2 timing belt, width: 6 mm, length: 2 m, open",
        "timing belt: size=belt width, profile=GT2, belt_width=6, length=2000",
    ),
    (
        "HTD 5M pulley 20 teeth bore 10 belt 15",
        "timing pulley: size=teeth, profile=HTD 5M, teeth=20, bore=10, belt_width=15",
    ),
    ("GT2 40T pulley bore 5", "timing pulley: size=teeth, profile=GT2, teeth=40, bore=5"),
    ("XL pulley 15T 1/4 bore 3/8 belt", "timing pulley: size=teeth, profile=XL, teeth=15, bore=6.35, belt_width=9.525"),
    ("2GT 16T pulley bore 4mm width 6mm", "timing pulley: size=teeth, profile=GT2, teeth=16, bore=4, belt_width=6"),
    ("GT3 pulley 30T bore 8", "timing pulley: size=teeth, profile=GT3, teeth=30, bore=8"),
    ("idler 3mm bore", "idler: size=bore, bore=3"),
    ("GT2 toothed idler 20T 5mm bore", "idler: size=teeth, profile=GT2, teeth=20, bore=5"),
    (
        "GT2 belt 1524 mm closed 6 mm",
        "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=1524, teeth=762",
    ),
    ("GT2 6mm belt, 3 metres", "timing belt: size=belt width, profile=GT2, belt_width=6, length=3000"),
    ("S2M 6mm belt open 2m", "timing belt: size=belt width, profile=S2M, belt_width=6, length=2000"),
    ("HTD 600-5M-15", "timing belt: size=pitch length, profile=HTD 5M, belt_width=15, pitch_length=600, teeth=120"),
    ("375-3M-9", "timing belt: size=pitch length, profile=HTD 3M, belt_width=9, pitch_length=375, teeth=125"),
    ("100XL025", "timing belt: size=pitch length, profile=XL, belt_width=6.35, pitch_length=254, teeth=50"),
    (
        "MXL belt 80 teeth 1/4 wide",
        "timing belt: size=pitch length, profile=MXL, belt_width=6.35, pitch_length=162.56, teeth=80",
    ),
    (
        "AT5 belt 10 x 500 closed",
        "timing belt: size=pitch length, profile=AT5, belt_width=10, pitch_length=500, teeth=100",
    ),
    (
        "8M belt 20mm 800mm closed",
        "timing belt: size=pitch length, profile=HTD 8M, belt_width=20, pitch_length=800, teeth=100",
    ),
    ("GT2 pulley 20T 5mm bore 6mm belt", "timing pulley: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6"),
    (
        "pulley, GT2, 36 tooth, bore 8, for 9 wide belt",
        "timing pulley: size=teeth, profile=GT2, teeth=36, bore=8, belt_width=9",
    ),
    ("2GT 60T inner bore 8 width 6", "timing pulley: size=teeth, profile=GT2, teeth=60, bore=8, belt_width=6"),
    (
        "polea GT2 20 dientes eje 5mm correa 6mm",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6",
    ),
    (
        "Zahnriemenrad HTD 3M 20 Z Bohrung 6,35 für 9 mm",
        "timing pulley: size=teeth, profile=HTD 3M, teeth=20, bore=6.35, belt_width=9",
    ),
    ("XL pulley 10 teeth 8mm bore", "timing pulley: size=teeth, profile=XL, teeth=10, bore=8"),
    ("T5 20 teeth, 8 bore, 10 belt", "timing pulley: size=teeth, profile=T5, teeth=20, bore=8, belt_width=10"),
    ("idler GT2 20T toothed 3mm bore 6mm belt", "idler: size=teeth, profile=GT2, teeth=20, bore=3, belt_width=6"),
    ("smooth idler bore 5 for 6mm belt", "idler: size=bore, bore=5, belt_width=6"),
    ("open GT2 belt, 9 wide, 1250 long", "timing belt: size=belt width, profile=GT2, belt_width=9, length=1250"),
    ("Zahnriemen GT2 6 mm Meterware 5m", "timing belt: size=belt width, profile=GT2, belt_width=6, length=5000"),
    (
        "GT2 closed belt 280 mm x 6",
        "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=280, teeth=140",
    ),
    (
        "GT2 timing belt 6x188mm loop",
        "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=188, teeth=94",
    ),
    (
        "courroie GT2 fermée 400 mm largeur 6",
        "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=400, teeth=200",
    ),
    ("HTD 430-5M-10", "timing belt: size=pitch length, profile=HTD 5M, belt_width=10, pitch_length=430, teeth=86"),
    ("90XL037", "timing belt: size=pitch length, profile=XL, belt_width=9.525, pitch_length=228.6, teeth=45"),
    ('XL belt 1/4" x 9"', "timing belt: size=belt width, profile=XL, belt_width=6.35, length=228.6"),
    ("T5 330 x 10", "timing belt: size=pitch length, profile=T5, belt_width=10, pitch_length=330, teeth=66"),
    ("GT2 belt 6mm 1m", "timing belt: size=belt width, profile=GT2, belt_width=6, length=1000"),
    ("GT2 belt 200 teeth", "timing belt: size=pitch length, profile=GT2, pitch_length=400, teeth=200"),
    ("80MXL025", "timing belt: size=pitch length, profile=MXL, belt_width=6.35, pitch_length=203.2, teeth=100"),
    ("80MXL", "timing belt: size=pitch length, profile=MXL, pitch_length=203.2, teeth=100"),
    ("B80MXL", "timing belt: size=pitch length, profile=MXL, pitch_length=162.56, teeth=80"),
    ("HTD 5M belt 15mm wide 2m open", "timing belt: size=belt width, profile=HTD 5M, belt_width=15, length=2000"),
    ("GT2-20T pulley bore 5 W6", "timing pulley: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6"),
    ("GT2 pulley 16 teeth 5mm", "timing pulley: size=teeth, profile=GT2, teeth=16, bore=5"),
    ("pulley 20-5M-15 bore 8", "timing pulley: size=teeth, profile=HTD 5M, teeth=20, bore=8, belt_width=15"),
    ("XL pulley 20XL037 bore 8", "timing pulley: size=teeth, profile=XL, teeth=20, bore=8, belt_width=9.525"),
    (
        "poulie GT2 16 dents alésage 5 courroie 6",
        "timing pulley: size=teeth, profile=GT2, teeth=16, bore=5, belt_width=6",
    ),
    (
        "puleggia GT2 20 denti foro 8 cinghia 6",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=8, belt_width=6",
    ),
    ("GT2 Riemen 6mm breit 2m", "timing belt: size=belt width, profile=GT2, belt_width=6, length=2000"),
    ("280-2GT-6", "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=280, teeth=140"),
    ("200-2GT-6 belt", "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=200, teeth=100"),
    (
        "correa GT2 cerrada 110mm 6mm",
        "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=110, teeth=55",
    ),
    ("cinghia GT2 aperta 6 mm 5 m", "timing belt: size=belt width, profile=GT2, belt_width=6, length=5000"),
    ("GT2 20T pulley 8mm bore with M4 grub screws", "timing pulley: size=teeth, profile=GT2, teeth=20, bore=8"),
    ("T2.5 belt 6mm x 500", "timing belt: size=belt width, profile=T2.5, belt_width=6, length=500"),
    ("AT5 390 x 16", "timing belt: size=pitch length, profile=AT5, belt_width=16, pitch_length=390, teeth=78"),
    (
        "S3M 225 belt 10mm wide",
        "timing belt: size=pitch length, profile=S3M, belt_width=10, pitch_length=225, teeth=75",
    ),
    ("GT2 idler 20T 5mm 6mm", "idler: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6"),
    ("2GT-20T idler bore 3", "idler: size=teeth, profile=GT2, teeth=20, bore=3"),
    (
        "3M pulley 20 teeth 8mm bore 15mm belt",
        "timing pulley: size=teeth, profile=HTD 3M, teeth=20, bore=8, belt_width=15",
    ),
    ("belt GT2 10mm 100T", "timing belt: size=pitch length, profile=GT2, belt_width=10, pitch_length=200, teeth=100"),
    (
        "HTD 3M 9mm belt 300mm closed",
        "timing belt: size=pitch length, profile=HTD 3M, belt_width=9, pitch_length=300, teeth=100",
    ),
    ("GT2 belt 6 mm", "timing belt: size=belt width, profile=GT2, belt_width=6"),
    ("5m GT2 belt 6mm", "timing belt: size=belt width, profile=GT2, belt_width=6, length=5000"),
    ("10 m GT2 6mm open belt", "timing belt: size=belt width, profile=GT2, belt_width=6, length=10000"),
    ("GT2 1000x6 open belt", "timing belt: size=belt width, profile=GT2, belt_width=6, length=1000"),
    ("GT2 belt 6x2000", "timing belt: size=belt width, profile=GT2, belt_width=6, length=2000"),
    ("GT2 pulley belt 6mm bore 5mm 20T", "timing pulley: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=6"),
    ("GT2 belt 9 wide", "timing belt: size=belt width, profile=GT2, belt_width=9"),
    (
        "Zahnriemen T5 10 mm breit 500 lang geschlossen",
        "timing belt: size=pitch length, profile=T5, belt_width=10, pitch_length=500, teeth=100",
    ),
    (
        "HTD5M belt 15mm 500mm closed",
        "timing belt: size=pitch length, profile=HTD 5M, belt_width=15, pitch_length=500, teeth=100",
    ),
    (
        "closed loop GT2 timing belt 610mm 6mm",
        "timing belt: size=pitch length, profile=GT2, belt_width=6, pitch_length=610, teeth=305",
    ),
    ("GT2 geschlossener Riemen 158mm", "timing belt: size=pitch length, profile=GT2, pitch_length=158, teeth=79"),
    ("16T GT2 3mm bore", "timing pulley: size=teeth, profile=GT2, teeth=16, bore=3"),
    ("pulley GT2 80T bore 8mm W6", "timing pulley: size=teeth, profile=GT2, teeth=80, bore=8, belt_width=6"),
    (
        "2GT pulley 20 teeth bore 8 width 10 (5pcs)",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=8, belt_width=10, quantity=5",
    ),
    (
        "GT2 timing pulley 20 teeth bore 6.35mm for 6mm belt",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=6.35, belt_width=6",
    ),
    (
        "gt2 20t pulley 5mm bore for 10 mm belt",
        "timing pulley: size=teeth, profile=GT2, teeth=20, bore=5, belt_width=10",
    ),
    ("HTD 3M timing pulley 15T 5mm bore", "timing pulley: size=teeth, profile=HTD 3M, teeth=15, bore=5"),
    ("AT5 pulley 20 bore 8", "timing pulley: size=teeth, profile=AT5, teeth=20, bore=8"),
    ("T10 pulley z=20 bore 12", "timing pulley: size=teeth, profile=T10, teeth=20, bore=12"),
    ("MXL pulley 18 teeth 1/4 bore", "timing pulley: size=teeth, profile=MXL, teeth=18, bore=6.35"),
)
OPEN = (
    ("GT2 20T pulley 6 mm", "? timing pulley"),
    ("GT2 pulley 5mm bore 6mm belt", "? timing pulley"),
    ("GT2 belt 300", "? timing belt"),
    ("belt GT2 no. 110", "? timing belt"),
    ("T5 pulley 16-T5-20 bore 8", "? timing pulley"),
    ("2GT belt no. 188", "? timing belt"),
    ("GT2 pulley 20T 6mm", "? timing pulley"),
    ("GT2 belt 200", "? timing belt"),
    ("GT2 belt 200mm", "? timing belt"),
    ("GT2 belt 281 x 6 closed", "? timing belt"),
    ("timing belt 5 mm pitch 10 wide", "? timing belt"),
    ("timing pulley 20 teeth bore 5", "? timing pulley"),
    ("GT2 timing belt 852mm", "? timing belt"),
    ("GT2 pulley 5mm bore", "? timing pulley"),
    ("timing belt", "? timing belt"),
    ("pulley", "? timing pulley"),
    ("idler", "? idler"),
    ("430-5M-10, 80 teeth", "? timing belt"),
)
OTHER_THINGS = (
    "leather belt 110 cm",
    "rope pulley 50 mm",
    "V-belt SPA 1250",
    "belt sander 75x533",
    "T5 lamp 549 mm",
    "XL t-shirt blue",
    "idle speed 20",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_belt_drives(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
