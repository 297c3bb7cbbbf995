"""A line read from a stencil is read exactly as from scratch."""

from hypothesis import given, settings
from hypothesis import strategies as st

from service.reading import read, stencil
from service.reading.reader import from_scratch

FORMS = (
    "{d}x{l} dowel pin",
    "Parallel pin ISO 8734 - {d} x {l} - A - St",
    "M{d}x{l} SHCS 8.8",
    "Senkkopf DIN 7991 M{d} x {l} A2",
    "{n} pcs M{d}x16 socket cap screw",
    "dowel pin {d} m6 x {l}mm, hardened",
    "vis H M{d}x{l} 8.8 ({n})",
    "M{d} x {l} dowel pin",
    "setscrew M{d}x{l}",
    "dowel {l} x {d}",
)


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from(FORMS),
    st.sampled_from([3, 4, 5, 6, 8, 10, 16, 20]),
    st.lists(st.integers(1, 2500), min_size=4, max_size=6),
    st.integers(1, 900),
)
def test_stencil_equals_reading_from_scratch(form: str, d: int, lengths: list[int], n: int) -> None:
    """Whatever length or count comes after the ones that made the stencil, the answer is the same."""
    stencil.clear()
    for length in lengths:
        line = form.format(d=d, l=length, n=n)
        assert read(line) == from_scratch(line)
        count = form.format(d=d, l=20, n=length)
        assert read(count) == from_scratch(count)


def test_stencils_are_made_for_plain_lines() -> None:
    """The third line of a kind is read from a stencil, so the comparison above compares something."""
    stencil.clear()
    for length in (20, 25, 30):
        read(f"9x{length} dowel pin")
    for line, fits in (("9x35 dowel pin", True), ("9x8 dowel pin", False)):
        cut = stencil.cut_out(line)
        assert cut is not None
        assert (stencil.apply(line, cut) is not None) == fits
