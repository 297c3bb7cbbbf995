"""Lines that order pipe fittings and plugs, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("PC6-M5", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=M5"),
    ("PC4-01 pneumatic", "pipe fitting: size=tube outer diameter, tube_diameter=4, thread=R 1/8"),
    ("PL6-02 elbow fitting x10", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=R 1/4, quantity=10"),
    ("PC10-03", "pipe fitting: size=tube outer diameter, tube_diameter=10, thread=R 3/8"),
    ("PC12-04", "pipe fitting: size=tube outer diameter, tube_diameter=12, thread=R 1/2"),
    ("KQ2L06-01S", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=R 1/8"),
    ("KQ2H08-02AS", "pipe fitting: size=tube outer diameter, tube_diameter=8, thread=R 1/4"),
    ("PCF6-01", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=R 1/8"),
    ("PC6-G1/8", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=G 1/8"),
    ("QS-1/8-6", "pipe fitting: size=external thread, tube_diameter=6, thread=R 1/8"),
    ("PU6 push-in union", "pipe fitting: size=tube outer diameter, tube_diameter=6"),
    ("push-in fitting 6 mm - G1/8", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=G 1/8"),
    ("push in fitting M5 for 4mm tube", "pipe fitting: size=external thread, thread=M5, tube_diameter=4"),
    ("Winkelverschraubung R1/8 Schlauch 6", "pipe fitting: size=external thread, thread=R 1/8, tube_diameter=6"),
    ("Schlauchtülle G1/4 9 mm", "pipe fitting: size=external thread, thread=G 1/4, tube_diameter=9"),
    ("raccord instantané M5 tube 4", "pipe fitting: size=external thread, thread=M5, tube_diameter=4"),
    ("raccord coudé G1/4 tuyau 8 mm", "pipe fitting: size=external thread, thread=G 1/4, tube_diameter=8"),
    ("racor codo G1/8 tubo 6 mm", "pipe fitting: size=external thread, thread=G 1/8, tube_diameter=6"),
    ("raccordo rapido G1/4 tubo 8", "pipe fitting: size=external thread, thread=G 1/4, tube_diameter=8"),
    ("raccordo a gomito 1/8 gas tubo 6", "pipe fitting: size=external thread, thread=G 1/8, tube_diameter=6"),
    ("elbow fitting 1/4 NPT 8mm tube", "pipe fitting: size=external thread, thread=1/4-18 NPT, tube_diameter=8"),
    ("hose barb G1/8 6mm hose", "pipe fitting: size=external thread, thread=G 1/8, tube_diameter=6"),
    ("reducing nipple G1/2 - G1/4", "pipe fitting: size=external thread, thread=G 1/2, thread_2=G 1/4"),
    ("Reduziernippel G1/4 auf G1/8", "pipe fitting: size=external thread, thread=G 1/4, thread_2=G 1/8"),
    ("fitting R1/8", "pipe fitting: size=external thread, thread=R 1/8"),
    ("M10x1 fitting 4mm tube", "pipe fitting: size=external thread, thread=M10x1, tube_diameter=4"),
    ("10-32 fitting for 1/8 tube", "pipe fitting: size=external thread, thread=10-32 UNF, tube_diameter=3.175"),
    ("PC4-M8", "pipe fitting: size=tube outer diameter, tube_diameter=4, thread=M8"),
    ("plug G1/2", "plug: size=external thread, thread=G 1/2"),
    ("Verschlussschraube G1/4 DIN 908", "plug: size=external thread, thread=G 1/4"),
    ("blanking plug M5", "plug: size=external thread, thread=M5"),
    ("bouchon G3/8 laiton", "plug: size=external thread, thread=G 3/8"),
    ("tapón roscado R1/4", "plug: size=external thread, thread=R 1/4"),
    ("tappo G1/8", "plug: size=external thread, thread=G 1/8"),
    ("plug 1/8 NPT", "plug: size=external thread, thread=1/8-27 NPT"),
    ("PC 6-02", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=R 1/4"),
    ("PC6-02 push in fitting 6mm 1/4", "pipe fitting: size=tube outer diameter, tube_diameter=6, thread=R 1/4"),
    (
        "pneumatic fitting PC4-M5 10pcs",
        "pipe fitting: size=tube outer diameter, tube_diameter=4, thread=M5, quantity=10",
    ),
    ("PL4-M5 elbow", "pipe fitting: size=tube outer diameter, tube_diameter=4, thread=M5"),
    ("straight fitting G1/4 x 8 mm", "pipe fitting: size=external thread, tube_diameter=8, thread=G 1/4"),
    ("Steckverschraubung 4mm M5", "pipe fitting: size=tube outer diameter, tube_diameter=4, thread=M5"),
    ('Einschraubverschraubung G 1/8" x 4 mm', "pipe fitting: size=external thread, thread=G 1/8, tube_diameter=4"),
    ("1/8 BSP push-in fitting 4mm tube", "pipe fitting: size=external thread, thread=G 1/8, tube_diameter=4"),
    (
        "1/4 NPT male to 1/4 tube compression fitting",
        "pipe fitting: size=external thread, thread=1/4-18 NPT, tube_diameter=6.35",
    ),
    ("raccord droit 6 mm G1/8", "pipe fitting: size=tube outer diameter, thread=G 1/8, tube_diameter=6"),
)
OPEN = (
    ("1/4 fitting", "? pipe fitting"),
    ('1/4" pneumatic fitting', "? pipe fitting"),
    ("pneumatic fitting", "? pipe fitting"),
    ("1/4 plug", "? plug"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_pipe_fittings(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
