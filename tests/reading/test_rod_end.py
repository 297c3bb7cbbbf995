"""Lines that order rod ends, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("SIL10T/K", "rod end: size=bore, internal_thread=M10, bore=10, hand=left, thread_gender=internal"),
    ("SI8T/K rod end", "rod end: size=bore, internal_thread=M8, bore=8, hand=right, thread_gender=internal"),
    ("SA6T/K", "rod end: size=bore, thread=M6, bore=6, hand=right, thread_gender=external"),
    ("POS8", "rod end: size=bore, thread=M8, bore=8, hand=right, thread_gender=external"),
    ("POSL10 left rod end", "rod end: size=bore, thread=M10, bore=10, hand=left, thread_gender=external"),
    ("PHS 6", "rod end: size=bore, internal_thread=M6, bore=6, hand=right, thread_gender=internal"),
    ("rod end M8 male right bore 8", "rod end: size=external thread, thread=M8, bore=8, thread_gender=external"),
    ("rod end M8x1.25 female", "rod end: size=internal thread, internal_thread=M8, bore=8, thread_gender=internal"),
    (
        "rod end female M10x1.25 bore 10",
        "rod end: size=internal thread, internal_thread=M10x1.25, bore=10, thread_gender=internal",
    ),
    (
        "rose joint M6 female left hand",
        "rod end: size=internal thread, internal_thread=M6, bore=6, hand=left, thread_gender=internal",
    ),
    (
        "Gelenkkopf M8 Außengewinde links Bohrung 8",
        "rod end: size=external thread, thread=M8, bore=8, hand=left, thread_gender=external",
    ),
    (
        "Kugelgelenkkopf 10 mm M10 IG",
        "rod end: size=internal thread, internal_thread=M10, bore=10, thread_gender=internal",
    ),
    (
        "rotule M6 femelle à droite alésage 6",
        "rod end: size=internal thread, internal_thread=M6, bore=6, thread_gender=internal",
    ),
    (
        "embout à rotule mâle M10 alésage 10 pas à gauche",
        "rod end: size=external thread, thread=M10, bore=10, hand=left, thread_gender=external",
    ),
    (
        "rótula macho M8 izquierda",
        "rod end: size=external thread, thread=M8, bore=8, hand=left, thread_gender=external",
    ),
    (
        "testa a snodo maschio M10x1,5 destra foro 10",
        "rod end: size=external thread, thread=M10, bore=10, thread_gender=external",
    ),
    ("rod end 8mm male", "rod end: size=bore, thread=M8, bore=8, thread_gender=external"),
)
OPEN = (
    ("rod end M8", "? rod end"),
    ("rod end 12", "? rod end"),
    ("rod end 10 female", "? rod end"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_rod_end(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
