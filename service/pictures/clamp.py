"""A screw that clamps a stack of parts: head, shank, the parts, the thread that holds, and what is left below.

Everything is drawn in one scale, both ways.
"""

from collections.abc import Sequence
from typing import NamedTuple

from service.pictures.drawing import INK, PENCIL, SOFT, Drawing, figure, number, spread

WIDTH, HEIGHT = 340.0, 300.0
TOP, BOTTOM = 14.0, 268.0
_MIDDLE, _WIDEST = 78.0, 140.0
_LABELS = 190.0
_LINE = 14.0
"""Least distance between two labels."""

MOST_LAYERS = 8
"""Parts of a stack that are labelled one by one."""


class Screw(NamedTuple):
    """The screw: its length counts under the head, or over all where the head sinks in (``sunk``)."""

    thread: str
    diameter: float
    length: float | None
    head_diameter: float | None = None
    head_height: float | None = None
    sunk: bool = False


class Stack(NamedTuple):
    """The parts from the head on, and what holds the thread.

    ``depth`` is the full thread of a tapped hole or the height of a nut, None where it is not stated; ``open_below`` a
    hole that goes through, or a nut.
    """

    layers: tuple[float, ...]
    held_by: str
    depth: float | None
    open_below: bool = False
    nut: bool = False


class Layout(NamedTuple):
    """Where everything lies, down from the face under the head; ``lift`` is how far the head stands off.

    ``engaged`` is the thread that holds, ``left`` what is free below the screw, negative where it stands out below.
    """

    grip: float
    lift: float
    tip: float
    engaged: float
    left: float | None
    floor: float


def lay_out(screw: Screw, stack: Stack, enters: bool = True) -> Layout:
    """Return where everything lies. A screw that meets the floor of its hole, or does not enter, stands off."""
    grip = sum(stack.layers)
    length = screw.length if screw.length is not None else grip
    reach = length - grip
    lift = 0.0
    if not enters:
        lift = max(reach, 0.0)
    elif stack.depth is not None and not stack.open_below:
        lift = max(reach - stack.depth, 0.0)
    tip = length - lift
    in_thread = max(tip - grip, 0.0)
    engaged = 0.0 if not enters else in_thread if stack.depth is None else min(in_thread, stack.depth)
    depth = stack.depth if stack.depth is not None else max(reach, 0.0) + 2 * screw.diameter
    left = None if stack.depth is None else stack.depth - (tip - grip)
    return Layout(grip, lift, tip, engaged, left, grip + depth)


def clamp(name: str, screw: Screw, stack: Stack, enters: bool = True, units: str = "mm") -> str:
    """Return the picture of a clamped stack; ``enters`` tells whether the thread goes into what is to hold it.

    All lengths are in ``units``.
    """
    found = lay_out(screw, stack, enters)
    head = screw.head_height or screw.diameter
    over = found.lift + (0.0 if screw.sunk else head)
    below = 0.0 if stack.nut else screw.diameter
    deepest = max(found.floor + below, found.tip)
    broad = max((screw.head_diameter or 1.7 * screw.diameter) * 1.5, screw.diameter * 2.6)
    scale = min((BOTTOM - TOP) / (over + deepest), _WIDEST / broad)
    drawing = Drawing(name, f"{screw.thread} through {figure(_tidy(found.grip))} {units} into {stack.held_by}",
                      _described(screw, stack, found, enters, units), WIDTH, HEIGHT)  # fmt: skip
    paper = _Paper(drawing, scale, TOP + over * scale, units)
    _parts(paper, stack, found, broad, screw.diameter, deepest)
    _screw(paper, screw, found, head)
    _labels(paper, screw, stack, found, enters, broad)
    drawing.text(4, HEIGHT - 6, "Drawn to scale, lengthways and across.", 10.5, fill=SOFT)
    return drawing.svg()


def _tidy(value: float) -> float:
    return round(value, 6) + 0.0


def _described(screw: Screw, stack: Stack, found: Layout, enters: bool, units: str) -> str:
    said = [f"stack {' + '.join(figure(layer) for layer in stack.layers)} {units}"]
    said.append(
        "length of the screw not stated" if screw.length is None else f"screw {figure(screw.length)} {units} long"
    )
    if not enters:
        said.append(f"its thread does not go into {stack.held_by}")
    elif screw.length is not None:
        said += [text for _, text, _ in _thread_labels(stack, found, units)]
    return "; ".join(said) + "."


class _Paper(NamedTuple):
    """The drawing with its scale and unit; lengths go down from the face under the head."""

    drawing: Drawing
    scale: float
    zero: float
    units: str

    def y(self, down: float) -> float:
        return self.zero + down * self.scale

    def block(self, top: float, bottom: float, wide: float, hole: float, fill: str, part: str) -> None:
        """Draw a part cut open: left and right of the hole in it."""
        left = _MIDDLE - wide / 2 * self.scale
        each = (wide - hole) / 2 * self.scale
        for x in (left, _MIDDLE + hole / 2 * self.scale):
            self.drawing.rect(
                x, self.y(top), each, (bottom - top) * self.scale, fill=fill, stroke=INK, stroke_width=1, class_=part
            )


def _parts(paper: _Paper, stack: Stack, found: Layout, broad: float, diameter: float, deepest: float) -> None:
    drawing = paper.drawing
    down = 0.0
    for place, layer in enumerate(stack.layers):
        fill = drawing.hatch(45 if place % 2 else -45)
        paper.block(down, down + layer, broad, diameter * 1.1, fill, "layer")
        down += layer
    fill = drawing.hatch(45 if len(stack.layers) % 2 else -45)
    if stack.nut:
        paper.block(found.grip, found.floor, diameter * 1.8, diameter, fill, "held-by")
        return
    # Where the floor is not known the block is drawn open, ending in a broken line.
    bottom = found.floor + (diameter if stack.depth is not None else 0.0)
    if stack.open_below:
        bottom = found.floor
    paper.block(found.grip, bottom, broad, diameter, fill, "held-by")
    half, left = diameter / 2 * paper.scale, broad / 2 * paper.scale
    floor = paper.y(found.floor)
    if stack.depth is None:
        drawing.line(_MIDDLE - left, floor, _MIDDLE + left, floor, stroke=SOFT, stroke_dasharray="5 4")
    elif not stack.open_below:
        points = [(_MIDDLE - half, floor), (_MIDDLE, floor + half * 0.6), (_MIDDLE + half, floor)]
        ends = [(_MIDDLE + half, paper.y(bottom)), (_MIDDLE - half, paper.y(bottom))]
        drawing.path([*points, *ends], fill=fill, stroke=INK, stroke_width=1)


def _screw(paper: _Paper, screw: Screw, found: Layout, head: float) -> None:
    drawing, scale = paper.drawing, paper.scale
    half, wide = screw.diameter / 2 * scale, (screw.head_diameter or 1.7 * screw.diameter) / 2 * scale
    top, tip = paper.y(-found.lift), paper.y(found.tip)
    look = {"fill": "#fff", "stroke": INK, "stroke_width": 1.4}
    if screw.sunk:
        sinks = min(head, found.tip) * scale
        points = [
            (_MIDDLE - wide, top),
            (_MIDDLE + wide, top),
            (_MIDDLE + half, top + sinks),
            (_MIDDLE - half, top + sinks),
        ]
        drawing.rect(_MIDDLE - half, top + sinks, 2 * half, max(tip - top - sinks, 0), class_="shank", **look)
        drawing.path(points, True, class_="head", **look)
    else:
        drawing.rect(_MIDDLE - half, top, 2 * half, tip - top, class_="shank", **look)
        drawing.rect(_MIDDLE - wide, top - head * scale, 2 * wide, head * scale, class_="head", **look)
    if screw.length is None:
        drawing.line(_MIDDLE - half - 4, tip, _MIDDLE + half + 4, tip, stroke=PENCIL, stroke_dasharray="4 3")
    middle = {"stroke": SOFT, "stroke_width": 0.8, "stroke_dasharray": "8 3 2 3"}
    drawing.line(_MIDDLE, TOP - 8, _MIDDLE, BOTTOM + 6, **middle)
    if found.engaged:
        begins = paper.y(found.grip)
        length = found.engaged * scale
        drawing.rect(_MIDDLE - half, begins, 2 * half, length, fill=PENCIL, fill_opacity=0.28, class_="engaged")
        for side in (-half, half):
            drawing.line(_MIDDLE + side, begins, _MIDDLE + side, begins + length, stroke=PENCIL, stroke_width=2.4)


Label = tuple[tuple[float, float], str, bool]
"""From where to where down, what stands beside it, and whether it is what matters."""


def _thread_labels(stack: Stack, found: Layout, units: str) -> list[Label]:
    labels: list[Label] = []
    if found.engaged:
        labels.append(
            ((found.grip, found.grip + found.engaged), f"{figure(_tidy(found.engaged))} {units} of thread hold", True)
        )
    if found.lift:
        labels.append(((-found.lift, 0.0), f"head {figure(_tidy(found.lift))} {units} off: bottoms", True))
    elif found.left is not None and found.left > 0:
        free = "of the nut empty" if stack.nut else "free below"
        labels.append(((found.floor - found.left, found.floor), f"{figure(_tidy(found.left))} {units} {free}", True))
    elif found.left is not None and found.left < 0:
        labels.append(((found.floor, found.tip), f"stands out by {figure(_tidy(-found.left))} {units}", True))
    if found.tip < found.grip:
        labels.append(((found.tip, found.grip), f"ends {figure(_tidy(found.grip - found.tip))} {units} short", True))
    return labels


def _labels(paper: _Paper, screw: Screw, stack: Stack, found: Layout, enters: bool, broad: float) -> None:
    layers: list[Label] = []
    down = 0.0
    for layer in stack.layers:
        layers.append(((down, down + layer), f"{figure(layer)} {paper.units}", False))
        down += layer
    if len(layers) > MOST_LAYERS:
        layers = [((0.0, found.grip), f"{len(stack.layers)} parts, {figure(_tidy(found.grip))} {paper.units}", False)]
    if not enters:
        mine: list[Label] = [((-found.lift, 0.0), f"{screw.thread} does not go in", True)]
    elif screw.length is None:
        mine = [((found.grip, found.grip), "length not stated", True)]
    else:
        mine = _thread_labels(stack, found, paper.units)
    if stack.depth is None:
        mine.append(((found.floor, found.floor), "depth not stated", True))
    _write(paper, sorted([*layers, *mine]), _MIDDLE + broad / 2 * paper.scale)


def _write(paper: _Paper, labels: Sequence[Label], edge: float) -> None:
    drawing = paper.drawing
    wanted = [(paper.y(top) + paper.y(bottom)) / 2 for (top, bottom), _, _ in labels]
    places = spread(wanted, _LINE, TOP, BOTTOM + 4)
    for ((top, bottom), text, matters), middle, place in zip(labels, wanted, places, strict=True):
        colour = PENCIL if matters else SOFT
        x = edge + (16 if matters else 8)
        if bottom > top:
            y1, y2 = paper.y(top), paper.y(bottom)
            drawing.add("path", d=f"M{number(x - 3)} {number(y1)}H{number(x + 3)}M{number(x)} {number(y1)}V{number(y2)}"
                        f"M{number(x - 3)} {number(y2)}H{number(x + 3)}", fill="none", stroke=colour)  # fmt: skip
        else:
            x = edge
        drawing.line(x, middle, _LABELS - 4, place, stroke=colour, stroke_width=0.7)
        drawing.text(_LABELS, place + 3.8, text, 11, fill=PENCIL if matters else INK)
