"""Lines that order low, pan, cheese and flanged screws, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    (
        "Low profile socket cap screw M5 x 16 stainless",
        "low head cap screw: size=external thread, thread=M5, length=16",
    ),
    (
        "Zylinderschraube mit niedrigem Kopf DIN 7984 M6x20 8.8 verzinkt",
        "low head cap screw: size=external thread, thread=M6, length=20, across_flats=4, property_class=8.8",
    ),
    ("tornillo allen cabeza baja M4x10", "low head cap screw: size=external thread, thread=M4, length=10"),
    ("vis CHC tête basse M5x12", "low head cap screw: size=external thread, thread=M5, length=12"),
    (
        "M3x8 ultra low head hex socket screw 20pcs",
        "low head cap screw: size=external thread, thread=M3, length=8, across_flats=2, quantity=20",
    ),
    ("DIN6912 M8x25 A2", "low head cap screw: size=external thread, thread=M8, length=25, across_flats=6"),
    (
        "M6x30 allen low head 8.8 zinc",
        "low head cap screw: size=external thread, thread=M6, length=30, property_class=8.8",
    ),
    ("Inbus flacher Kopf M5x10", "low head cap screw: size=external thread, thread=M5, length=10"),
    ("vite TCEI ribassata M6x16", "low head cap screw: size=external thread, thread=M6, length=16"),
    (
        "M3 x 6 pan head cross screw 304",
        "pan head screw: size=external thread, thread=M3, length=6, drive=cross recess",
    ),
    ("PH M2x6 pan head phillips", "pan head screw: size=external thread, thread=M2, length=6, drive=cross recess"),
    ("pan head PH2 M4x12", "pan head screw: size=external thread, thread=M4, length=12, drive=cross recess"),
    (
        "M5x16 pan head 4.8 (100)",
        "pan head screw: size=external thread, thread=M5, length=16, property_class=4.8, quantity=100",
    ),
    (
        "Linsenkopfschraube ISO 7045 M4x12 Kreuzschlitz A2",
        "pan head screw: size=external thread, thread=M4, length=12, drive=cross recess",
    ),
    ("Linsenschraube M3x6 Torx", "pan head screw: size=external thread, thread=M3, length=6, drive=hexalobular"),
    ("Linsenkopf M5x16 TX25 A2", "pan head screw: size=external thread, thread=M5, length=16, drive=hexalobular"),
    (
        "vis tête cylindrique bombée M3x10 cruciforme",
        "pan head screw: size=external thread, thread=M3, length=10, drive=cross recess",
    ),
    (
        "vite testa cilindrica croce M3x8",
        "pan head screw: size=external thread, thread=M3, length=8, drive=cross recess",
    ),
    (
        "tornillo alomado phillips M3x10",
        "pan head screw: size=external thread, thread=M3, length=10, drive=cross recess",
    ),
    ("M4x10 slotted pan head ISO1580", "pan head screw: size=external thread, thread=M4, length=10, drive=slotted"),
    (
        "pan head torx screw M2.5x6 ISO 14583",
        "pan head screw: size=external thread, thread=M2.5, length=6, drive=hexalobular",
    ),
    ("cheese head slotted M2x4", "cheese head screw: size=external thread, thread=M2, length=4"),
    (
        "cheese head screw DIN 84 M6x30 4.8",
        "cheese head screw: size=external thread, thread=M6, length=30, property_class=4.8",
    ),
    ("tornillo cabeza cilíndrica ranurada M3x8 DIN 84", "cheese head screw: size=external thread, thread=M3, length=8"),
    ("vite testa cilindrica con taglio M3x12", "cheese head screw: size=external thread, thread=M3, length=12"),
    ("M3 x 12 slotted cylinder head", "cheese head screw: size=external thread, thread=M3, length=12"),
    ("hex flange bolt M8x25 10.9", "hex flange screw: size=external thread, thread=M8, length=25, property_class=10.9"),
    ("Bundschraube M6x16", "hex flange screw: size=external thread, thread=M6, length=16"),
    ("Sechskant-Flanschschraube M8 x 30 verz.", "hex flange screw: size=external thread, thread=M8, length=30"),
    ("vite flangiata M6x20 8.8", "hex flange screw: size=external thread, thread=M6, length=20, property_class=8.8"),
    ("tornillo hexagonal con brida M8x25", "hex flange screw: size=external thread, thread=M8, length=25"),
    (
        "EN 1665 M10x40 8.8",
        "hex flange screw: size=external thread, thread=M10, length=40, across_flats=16, property_class=8.8",
    ),
    ("flanged hex screw 1/4-20 x 3/4", "hex flange screw: size=external thread, thread=1/4-20 UNC, length=19.05"),
)
OPEN = (("Linsenkopf M4x16", "? button head screw, pan head screw"),)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_head_forms(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
