"""Lines that order rolling and linear bearings, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("6203", "ball bearing: size=catalogue number, series=6203, bore=17, outer_diameter=40, width=12"),
    (
        "Kugellager 6203 2RS 17x40x12",
        "ball bearing: size=catalogue number, series=6203, bore=17, outer_diameter=40, width=12",
    ),
    ("608zz x10", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7, quantity=10"),
    (
        "20 pcs 625ZZ miniature bearing",
        "ball bearing: size=catalogue number, series=625, bore=5, outer_diameter=16, width=5, quantity=20",
    ),
    (
        "roulement à billes 6000 2RS",
        "ball bearing: size=catalogue number, series=6000, bore=10, outer_diameter=26, width=8",
    ),
    (
        "rodamiento 6201 2RS C3",
        "ball bearing: size=catalogue number, series=6201, bore=12, outer_diameter=32, width=10",
    ),
    ("cuscinetto 608 2RS", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7"),
    ("bearing 5x16x5", "ball bearing: size=bore, series=625, bore=5, outer_diameter=16, width=5"),
    ("bearing 8*22*7", "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7"),
    (
        "bearings 6x13x5 mm (4 pieces)",
        "ball bearing: size=bore, series=686, bore=6, outer_diameter=13, width=5, quantity=4",
    ),
    ("Kugellager 12x28x8", "ball bearing: size=bore, series=6001, bore=12, outer_diameter=28, width=8"),
    ("roulement 10x26x8", "ball bearing: size=bore, series=6000, bore=10, outer_diameter=26, width=8"),
    ("ball bearing 4 x 13 x 5 mm", "ball bearing: size=bore, series=624, bore=4, outer_diameter=13, width=5"),
    ("15mm x 32mm x 9mm bearing", "ball bearing: size=bore, series=6002, bore=15, outer_diameter=32, width=9"),
    (
        "6902-2RS thin section bearing",
        "ball bearing: size=catalogue number, series=6902, bore=15, outer_diameter=28, width=7",
    ),
    ("61902 2RS", "ball bearing: size=catalogue number, series=61902, bore=15, outer_diameter=28, width=7"),
    ("MR128ZZ", "ball bearing: size=catalogue number, series=MR128, bore=8, outer_diameter=12, width=3.5"),
    ("MR84-ZZ 4x8x3", "ball bearing: size=catalogue number, series=MR84, bore=4, outer_diameter=8, width=3"),
    ("R188ZZ", "ball bearing: size=catalogue number, series=R188, bore=6.35, outer_diameter=12.7, width=4.7625"),
    (
        "ball bearing 3/8 x 7/8 x 9/32",
        "ball bearing: size=bore, series=R6, bore=9.525, outer_diameter=22.225, width=7.14375",
    ),
    (
        "deep groove ball bearing 16004",
        "ball bearing: size=catalogue number, series=16004, bore=20, outer_diameter=42, width=8",
    ),
    (
        "Bearing, ball, 6200ZZ, qty 4",
        "ball bearing: size=catalogue number, series=6200, bore=10, outer_diameter=30, width=9, quantity=4",
    ),
    (
        "Rillenkugellager 6004 ZZ (2 Stück)",
        "ball bearing: size=catalogue number, series=6004, bore=20, outer_diameter=42, width=12, quantity=2",
    ),
    ("skate bearing 608", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7"),
    ("608RS ABEC-7", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7"),
    ("6804 RS 20x32x7", "ball bearing: size=catalogue number, series=6804, bore=20, outer_diameter=32, width=7"),
    ("bearing OD 16 ID 5 width 5", "ball bearing: size=bore, series=625, bore=5, outer_diameter=16, width=5"),
    ("bearing id 10mm od 30mm 9mm thick", "ball bearing: size=bore, series=6200, bore=10, outer_diameter=30, width=9"),
    ("F688ZZ", "flanged ball bearing: size=catalogue number, bore=8, outer_diameter=16, width=5, flange_diameter=18"),
    (
        "MF85ZZ 5x8x2.5",
        "flanged ball bearing: size=catalogue number, bore=5, outer_diameter=8, width=2.5, flange_diameter=9.2",
    ),
    (
        "flanged bearing F604ZZ",
        "flanged ball bearing: size=catalogue number, bore=4, outer_diameter=12, width=4, flange_diameter=13.5",
    ),
    (
        "Flanschkugellager F625ZZ",
        "flanged ball bearing: size=catalogue number, bore=5, outer_diameter=16, width=5, flange_diameter=18",
    ),
    (
        "roulement à collerette F624 2RS",
        "flanged ball bearing: size=catalogue number, bore=4, outer_diameter=13, width=5, flange_diameter=15",
    ),
    (
        "flange bearing 8x22x7",
        "flanged ball bearing: size=bore, bore=8, outer_diameter=22, width=7, flange_diameter=25",
    ),
    ("7000AC", "angular contact ball bearing: size=catalogue number, series=7000, bore=10, outer_diameter=26, width=8"),
    (
        "Schrägkugellager 7202B",
        "angular contact ball bearing: size=catalogue number, series=7202, bore=15, outer_diameter=35, width=11",
    ),
    ("51103", "thrust ball bearing: size=catalogue number, series=51103, bore=17, outer_diameter=30, height=9"),
    (
        "thrust bearing F5-10M",
        "thrust ball bearing: size=catalogue number, series=F5-10M, bore=5, outer_diameter=10, height=4",
    ),
    (
        "Axialkugellager 51102 15x28x9",
        "thrust ball bearing: size=catalogue number, series=51102, bore=15, outer_diameter=28, height=9",
    ),
    (
        "butée à billes 51104",
        "thrust ball bearing: size=catalogue number, series=51104, bore=20, outer_diameter=35, height=10",
    ),
    ("HK1212", "needle roller bearing: size=catalogue number, series=HK1212, bore=12, outer_diameter=18, width=12"),
    (
        "needle roller bearing HK 0609",
        "needle roller bearing: size=catalogue number, series=HK0609, bore=6, outer_diameter=10, width=9",
    ),
    (
        "Nadelhülse HK0808 8x12x8",
        "needle roller bearing: size=catalogue number, series=HK0808, bore=8, outer_diameter=12, width=8",
    ),
    (
        "roulement à aiguilles HK1010",
        "needle roller bearing: size=catalogue number, series=HK1010, bore=10, outer_diameter=14, width=10",
    ),
    (
        "K10x13x10 needle cage",
        "needle roller bearing: size=bore, series=K10x13x10, bore=10, outer_diameter=13, width=10",
    ),
    ("LM12UU", "linear ball bearing: size=catalogue number, series=LM12UU, bore=12, outer_diameter=21, length=30"),
    ("LM10LUU", "linear ball bearing: size=catalogue number, series=LM10LUU, bore=10, outer_diameter=19, length=55"),
    (
        "4x LM8UU",
        "linear ball bearing: size=catalogue number, series=LM8UU, bore=8, outer_diameter=15, length=24, quantity=4",
    ),
    (
        "Linearkugellager LM10UU 10x19x29",
        "linear ball bearing: size=catalogue number, series=LM10UU, bore=10, outer_diameter=19, length=29",
    ),
    (
        "LMK8UU flange linear bearing",
        "linear ball bearing: size=catalogue number, series=LMK8UU, bore=8, outer_diameter=15, length=24",
    ),
    (
        "rodamiento lineal LM6UU",
        "linear ball bearing: size=catalogue number, series=LM6UU, bore=6, outer_diameter=12, length=19",
    ),
    (
        "douille à billes LM16UU",
        "linear ball bearing: size=catalogue number, series=LM16UU, bore=16, outer_diameter=28, length=37",
    ),
    (
        "linear bush KH1026",
        "linear ball bearing: size=catalogue number, series=KH1026, bore=10, outer_diameter=17, length=26",
    ),
    ("V groove bearing 4x13x6", "track roller: size=bore, bore=4, outer_diameter=13, width=6"),
    ("U groove ball bearing 3x12x4", "track roller: size=bore, bore=3, outer_diameter=12, width=4"),
    ("bearing 22mm OD 8mm ID 7mm width", "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7"),
    ("bearing bore 8mm OD 22mm width 7mm", "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7"),
    (
        "Kugellager innen 8 mm außen 22 mm breit 7 mm",
        "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7",
    ),
    (
        "roulement diamètre intérieur 8 extérieur 22 largeur 7",
        "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7",
    ),
    (
        "rodamiento interior 8 exterior 22 ancho 7",
        "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7",
    ),
    (
        "cuscinetto interno 8 esterno 22 larghezza 7",
        "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7",
    ),
    (
        "Kugellager Bohrung 8 mm Außendurchmesser 22 mm Breite 7 mm",
        "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7",
    ),
    (
        "bearing, 8 mm inner diameter, 22 mm outer diameter, 7 mm wide",
        "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7",
    ),
    (
        "V groove bearing bore 4 OD 13 width 6",
        "track roller: size=catalogue number, bore=4, outer_diameter=13, width=6",
    ),
    (
        "flanged bearing bore 8 OD 16 width 5 flange 18",
        "flanged ball bearing: size=bore, bore=8, outer_diameter=16, width=5, flange_diameter=18",
    ),
    (
        "linear bearing ID 8 OD 15 L 24",
        "linear ball bearing: size=bore, series=LM8UU, bore=8, outer_diameter=15, length=24",
    ),
    (
        "608 hybrid ceramic bearing",
        "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7",
    ),
    (
        "695-2RS stainless x 6",
        "ball bearing: size=catalogue number, series=695, bore=5, outer_diameter=13, width=4, quantity=6",
    ),
    ("6800ZZ 10x19x5", "ball bearing: size=catalogue number, series=6800, bore=10, outer_diameter=19, width=5"),
    ("S6000-2RS", "ball bearing: size=catalogue number, series=6000, bore=10, outer_diameter=26, width=8"),
    ("6300-2RS C3", "ball bearing: size=catalogue number, series=6300, bore=10, outer_diameter=35, width=11"),
    ("roulement 6202-2RS-C3", "ball bearing: size=catalogue number, series=6202, bore=15, outer_diameter=35, width=11"),
    (
        "cuscinetti 6001 ZZ, 4 pz",
        "ball bearing: size=catalogue number, series=6001, bore=12, outer_diameter=28, width=8, quantity=4",
    ),
    (
        "rodamientos 608ZZ (10 uds)",
        "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7, quantity=10",
    ),
    ("Lager 626-2Z", "ball bearing: size=catalogue number, series=626, bore=6, outer_diameter=19, width=6"),
    (
        "Kugellager DIN 625 6202",
        "ball bearing: size=catalogue number, series=6202, bore=15, outer_diameter=35, width=11",
    ),
    ("2 x bearing 6x15x5", "ball bearing: size=bore, series=696, bore=6, outer_diameter=15, width=5, quantity=2"),
    ("bearing 30 x 42 x 7", "ball bearing: size=bore, series=6806, bore=30, outer_diameter=42, width=7"),
    ("bearing 20x32x7 mm", "ball bearing: size=bore, series=6804, bore=20, outer_diameter=32, width=7"),
    (
        "F695ZZ flanged 5x13x4",
        "flanged ball bearing: size=catalogue number, bore=5, outer_diameter=13, width=4, flange_diameter=15",
    ),
    (
        "MF148ZZ",
        "flanged ball bearing: size=catalogue number, bore=8, outer_diameter=14, width=4, flange_diameter=15.6",
    ),
    (
        "flanged bearing 3x8x3",
        "flanged ball bearing: size=bore, bore=3, outer_diameter=8, width=3, flange_diameter=9.5",
    ),
    ("51108", "thrust ball bearing: size=catalogue number, series=51108, bore=40, outer_diameter=60, height=13"),
    (
        "needle bearing HK1512 15x21x12",
        "needle roller bearing: size=catalogue number, series=HK1512, bore=15, outer_diameter=21, width=12",
    ),
    ("AXK0619", "thrust ball bearing: size=catalogue number, series=AXK0619, bore=6, outer_diameter=19, height=2"),
    ("LMF12UU", "linear ball bearing: size=catalogue number, series=LMF12UU, bore=12, outer_diameter=21, length=30"),
    (
        "LME12UU 12x22x32",
        "linear ball bearing: size=catalogue number, series=LME12UU, bore=12, outer_diameter=22, length=32",
    ),
    ("LM8SUU", "linear ball bearing: size=catalogue number, series=LM8SUU, bore=8, outer_diameter=15, length=17"),
    (
        "RJMP-01-08",
        "linear ball bearing: size=catalogue number, series=RJMP-01-08, bore=8, outer_diameter=15, length=24",
    ),
    ("linear bearing 12x21x30", "linear ball bearing: size=bore, series=LM12UU, bore=12, outer_diameter=21, length=30"),
    (
        "lager LM20UU",
        "linear ball bearing: size=catalogue number, series=LM20UU, bore=20, outer_diameter=32, length=42",
    ),
    (
        "flanged linear bearing LMF8UU",
        "linear ball bearing: size=catalogue number, series=LMF8UU, bore=8, outer_diameter=15, length=24",
    ),
    (
        "AXK0821 + 2 AS0821",
        "thrust ball bearing: size=catalogue number, series=AXK0821, bore=8, outer_diameter=21, height=2",
    ),
    ("V groove bearing 623VV 3x12x4", "track roller: size=bore, bore=3, outer_diameter=12, width=4"),
    ("608", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7"),
    ("625", "ball bearing: size=catalogue number, series=625, bore=5, outer_diameter=16, width=5"),
    ("4x 608ZZ", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7, quantity=4"),
    ("2x 6203", "ball bearing: size=catalogue number, series=6203, bore=17, outer_diameter=40, width=12, quantity=2"),
    (
        "10 pcs 608-2RS",
        "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7, quantity=10",
    ),
    (
        "6001 2RS x4",
        "ball bearing: size=catalogue number, series=6001, bore=12, outer_diameter=28, width=8, quantity=4",
    ),
    ("ABEC 7 608 bearing", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7"),
    ("bearing 6203-2RSH/C3", "ball bearing: size=catalogue number, series=6203, bore=17, outer_diameter=40, width=12"),
    ("bearing 688 shielded", "ball bearing: size=catalogue number, series=688, bore=8, outer_diameter=16, width=5"),
    ("bearing 8mm bore 22mm OD 7mm wide", "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7"),
    ("bearing od 22 id 8", "ball bearing: size=bore, series=608, bore=8, outer_diameter=22, width=7"),
    ("R4 bearing", "ball bearing: size=catalogue number, series=R4, bore=6.35, outer_diameter=15.875, width=4.9784"),
    ("R4-2RS", "ball bearing: size=catalogue number, series=R4, bore=6.35, outer_diameter=15.875, width=4.9784"),
    ("R8 ZZ", "ball bearing: size=catalogue number, series=R8, bore=12.7, outer_diameter=28.575, width=7.9375"),
    (
        "ball bearing 1/4 x 5/8 x 0.196",
        "ball bearing: size=bore, series=R4, bore=6.35, outer_diameter=15.875, width=4.9784",
    ),
    ("S608ZZ", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7"),
    ("W608-2RS", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7"),
    ("6082RS", "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7"),
    (
        "608 RS bearing 8x22x7 (10pcs)",
        "ball bearing: size=catalogue number, series=608, bore=8, outer_diameter=22, width=7, quantity=10",
    ),
    (
        "MF105ZZ",
        "flanged ball bearing: size=catalogue number, bore=5, outer_diameter=10, width=4, flange_diameter=11.6",
    ),
    (
        "F688ZZ 8x16x5",
        "flanged ball bearing: size=catalogue number, bore=8, outer_diameter=16, width=5, flange_diameter=18",
    ),
    (
        "F608 bearing",
        "flanged ball bearing: size=catalogue number, bore=8, outer_diameter=22, width=7, flange_diameter=25",
    ),
    ("Kugellager 6000 ZZ", "ball bearing: size=catalogue number, series=6000, bore=10, outer_diameter=26, width=8"),
    (
        "Rillenkugellager DIN 625 - 6205 - 2RS",
        "ball bearing: size=catalogue number, series=6205, bore=25, outer_diameter=52, width=15",
    ),
    (
        "cuscinetto a sfere 6202 2RS",
        "ball bearing: size=catalogue number, series=6202, bore=15, outer_diameter=35, width=11",
    ),
    (
        "rodamiento rígido de bolas 6004 ZZ",
        "ball bearing: size=catalogue number, series=6004, bore=20, outer_diameter=42, width=12",
    ),
    (
        "roulement 6203 ZZ lot de 4",
        "ball bearing: size=catalogue number, series=6203, bore=17, outer_diameter=40, width=12, quantity=4",
    ),
    ("bearing 22x7x8", "ball bearing: size=outer diameter, series=608, bore=8, outer_diameter=22, width=7"),
    ("bearing 22x8x7", "ball bearing: size=outer diameter, series=608, bore=8, outer_diameter=22, width=7"),
    (
        "linear bearing LM8",
        "linear ball bearing: size=catalogue number, series=LM8UU, bore=8, outer_diameter=15, length=24",
    ),
    ("linear bearing 8x15x24", "linear ball bearing: size=bore, series=LM8UU, bore=8, outer_diameter=15, length=24"),
    ("LMF10UU", "linear ball bearing: size=catalogue number, series=LMF10UU, bore=10, outer_diameter=19, length=29"),
    (
        "LMK12LUU flange",
        "linear ball bearing: size=catalogue number, series=LMK12LUU, bore=12, outer_diameter=21, length=57",
    ),
    (
        "RJ4JP-01-08",
        "linear ball bearing: size=catalogue number, series=RJ4JP-01-08, bore=8, outer_diameter=15, length=24",
    ),
    (
        "kugelbuchse kh1026",
        "linear ball bearing: size=catalogue number, series=KH1026, bore=10, outer_diameter=17, length=26",
    ),
    (
        "needle bearing HK0810 8x12x10",
        "needle roller bearing: size=catalogue number, series=HK0810, bore=8, outer_diameter=12, width=10",
    ),
    ("HK 0808", "needle roller bearing: size=catalogue number, series=HK0808, bore=8, outer_diameter=12, width=8"),
    (
        "thrust bearing 51100 10x24x9",
        "thrust ball bearing: size=catalogue number, series=51100, bore=10, outer_diameter=24, height=9",
    ),
    ("F10-18M", "thrust ball bearing: size=catalogue number, series=F10-18M, bore=10, outer_diameter=18, height=5.5"),
    ("51105", "thrust ball bearing: size=catalogue number, series=51105, bore=25, outer_diameter=42, height=11"),
    ("6203 C3", "ball bearing: size=catalogue number, series=6203, bore=17, outer_diameter=40, width=12"),
    ("6203 2RS C3 bearing", "ball bearing: size=catalogue number, series=6203, bore=17, outer_diameter=40, width=12"),
    ("bearing 5x16x5 stainless", "ball bearing: size=bore, series=625, bore=5, outer_diameter=16, width=5"),
    ("K8x11x10", "needle roller bearing: size=bore, series=K8x11x10, bore=8, outer_diameter=11, width=10"),
    ("7204B", "angular contact ball bearing: size=catalogue number, series=7204, bore=20, outer_diameter=47, width=14"),
)
OPEN = (
    ("bearing 686", "? ball bearing"),
    ("bearing 6203 17x40x14", "? ball bearing"),
    ("bearing 17x42x12", "? ball bearing"),
    ("bearing 12 mm bore", "? ball bearing, linear ball bearing"),
    ("flanged bearing 608", "? flanged ball bearing, ball bearing"),
    ("bearing 608 7x22x9", "? ball bearing"),
    ("bearing 625 5x14x5", "? ball bearing"),
    ("MR105", "? ball bearing"),
    ("MR115 5x11x5", "? ball bearing"),
    ("688", "? ball bearing"),
    ("bearing for 8mm shaft", "? ball bearing, linear ball bearing"),
    ("R188 bearing", "? ball bearing"),
    ("wheel bearing car 2004", "? ball bearing"),
    ("linear bearing 8 mm", "? linear ball bearing"),
    ("bearing 6203 17x40x13", "? ball bearing"),
    ("bearing 6203 20mm", "? ball bearing"),
    ("18307RS", "? ball bearing"),
    ("bearing 12345", "? ball bearing"),
    ("bearing 6299", "? ball bearing"),
    ("50x67x7 bearing", "? ball bearing"),
    ("bearing", "? bearing"),
    ("ball bearing", "? ball bearing"),
    ("flanged bearing", "? flanged ball bearing"),
    ("bearing 655", "? bearing"),
    ("needle bearing", "? needle roller bearing"),
    ("thrust bearing 10 mm", "? thrust ball bearing"),
    ("flanged linear bearing 8x15x24", "? linear ball bearing"),
)
OTHER_THINGS = (
    "bearing grease 400 g",
    "bearing puller 3 jaw",
    "load-bearing wall bracket",
    "LM35",
    "608 cm rope",
    "500 lb weight",
    "R3 C3",
    "MR16 LED bulb 12V",
    "7905",
    "2x4 lumber",
    "LM317 regulator",
    "lager bier 0.5 l",
    "order 6203 of 12 May",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_bearings(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
