"""A clamped stack: lengths in proportion, and a screw that bottoms stands off."""

from collections.abc import Callable

import pytest

from service.pictures.clamp import Screw, Stack, clamp, lay_out
from tests.pictures.conftest import Picture

Read = Callable[[str], Picture]

SCREW = Screw("M4", 4, 45, 7, 4)
STACK = Stack((12, 10, 20), "M4, 10 mm deep", 10)


def test_lengths_are_in_proportion(picture: Read) -> None:
    """Layers, shank, engagement and widths share one scale."""
    drawn = picture(clamp("a", SCREW, STACK))
    heights = [shape["height"] for shape in drawn.all("layer")[::2]]
    each = heights[0] / 12
    assert heights == pytest.approx([12 * each, 10 * each, 20 * each], abs=0.02)
    assert drawn.one("shank")["height"] == pytest.approx(45 * each, abs=0.05)
    assert drawn.one("shank")["width"] == pytest.approx(4 * each, abs=0.02)
    assert drawn.one("engaged")["height"] == pytest.approx(3 * each, abs=0.02)
    assert drawn.one("head")["width"] == pytest.approx(7 * each, abs=0.02)
    assert {"3 mm of thread hold", "7 mm free below", "12 mm"} <= set(drawn.words)


def test_a_screw_that_bottoms_stands_off_by_what_it_is_too_long(picture: Read) -> None:
    """60 mm through 43 mm into 10 mm of thread: 7 mm of gap under the head."""
    stack = Stack((12, 10, 20, 1), "M4, 10 mm deep", 10)
    found = lay_out(Screw("M4", 4, 60), stack)
    assert (found.lift, found.engaged, found.tip) == (7, 10, 53)
    drawn = picture(clamp("a", Screw("M4", 4, 60), stack))
    head, layer = drawn.one("head"), drawn.all("layer")[0]
    each = layer["height"] / 12
    assert layer["y"] - head["y"] - head["height"] == pytest.approx(7 * each, abs=0.05)
    assert "head 7 mm off: bottoms" in drawn.words


def test_a_screw_through_a_nut_stands_out_below(picture: Read) -> None:
    """30 mm through 17.6 mm and a nut of 6.8 mm: 5.6 mm."""
    stack = Stack((16, 1.6), "M8 nut", 6.8, open_below=True, nut=True)
    assert lay_out(Screw("M8", 8, 30), stack).left == pytest.approx(-5.6)
    assert "stands out by 5.6 mm" in picture(clamp("a", Screw("M8", 8, 30, 13, 5.3), stack)).words


def test_a_screw_that_is_too_short_says_so(picture: Read) -> None:
    """It ends within the stack and holds nothing."""
    found = lay_out(Screw("M4", 4, 40), STACK)
    assert found.engaged == 0
    drawn = picture(clamp("a", Screw("M4", 4, 40), STACK))
    assert "ends 2 mm short" in drawn.words
    assert not drawn.all("engaged")


def test_a_thread_that_does_not_go_in_lies_on_its_hole(picture: Read) -> None:
    """M4 over M3: the tip ends where the thread begins."""
    stack = Stack((12, 3), "M3", 6)
    found = lay_out(Screw("M4", 4, 20), stack, enters=False)
    assert (found.lift, found.tip, found.engaged) == (5, 15, 0)
    assert "M4 does not go in" in picture(clamp("a", Screw("M4", 4, 20), stack, enters=False)).words


def test_what_is_not_stated_is_said_and_not_drawn_as_known(picture: Read) -> None:
    """A depth, and a length."""
    drawn = picture(clamp("a", SCREW, Stack((42,), "M4", None)))
    assert "depth not stated" in drawn.words
    assert "3 mm of thread hold" in drawn.words
    assert "length not stated" in picture(clamp("a", Screw("M4", 4, None), STACK)).words


def test_a_sunk_head_counts_in_the_length(picture: Read) -> None:
    """10 mm over all through 5 mm leave 5 mm of thread."""
    drawn = picture(clamp("a", Screw("M3", 3, 10, 5.5, 1.65, sunk=True), Stack((5,), "M3", 6)))
    shank, layer = drawn.one("shank"), drawn.all("layer")[0]
    each = layer["height"] / 5
    assert shank["y"] - layer["y"] == pytest.approx(1.65 * each, abs=0.05)
    assert "5 mm of thread hold" in drawn.words


@pytest.mark.parametrize("layers", [(0.2,) * 50, (300, 2), (0.05,)])
def test_any_stack_stays_on_its_paper(picture: Read, layers: tuple[float, ...]) -> None:
    """Many thin parts, thick ones, and labels that would lie on each other."""
    drawn = picture(clamp("a", Screw("M5", 5, sum(layers) + 8), Stack(layers, "M5", 12)))
    for name in ("shank", "head", "layer", "held-by"):
        for shape in drawn.all(name):
            assert shape["x"] >= 0
            assert shape["y"] >= 0
            assert shape["y"] + shape["height"] <= 300
