"""The limits of a hole and of what goes into it as zones over one zero line, and the clearance that they leave.

On the left the two are drawn to scale with each other; on the right the same limits magnified, which the picture says.
"""

from typing import NamedTuple

from service.pictures.drawing import INK, PENCIL, SOFT, Drawing, figure

WIDTH, HEIGHT = 340.0, 272.0
TOP, BOTTOM = 44.0, 200.0
"""Between these the magnified limits lie."""

_COLUMNS = {"hole": 142.0, "shaft": 196.0, "clearance": 250.0, "wanted": 306.0}
_CAPTION = BOTTOM + 27
_BOX = 34.0
_THINNEST = 1.5
_SECTION_LEFT, _SECTION_WIDTH = 4.0, 100.0
_PRESSED = 0.02
"""An interference up to this share of the size can be pressed; a part that is larger is drawn above the hole."""


class Zone(NamedTuple):
    """What a size is called, its limits, and whether it is the part that is bought."""

    name: str
    lower: float
    upper: float
    bought: bool = False


class Scale(NamedTuple):
    """Values from ``low`` to ``high`` on the paper from ``BOTTOM`` to ``TOP``."""

    low: float
    high: float

    @property
    def each(self) -> float:
        """How long one unit is on the paper."""
        return (BOTTOM - TOP) / (self.high - self.low)

    def y(self, value: float) -> float:
        """Where a value stands."""
        return TOP + (self.high - value) * self.each


def scale_for(hole: Zone, shaft: Zone, nominal: float, wanted: tuple[float, float] | None) -> Scale:
    """Return the scale that holds every limit as its distance from the nominal size, every clearance, and zero."""
    values = [0.0, *(end - nominal for zone in (hole, shaft) for end in (zone.lower, zone.upper))]
    values += [hole.lower - shaft.upper, hole.upper - shaft.lower, *(wanted or ())]
    low, high = min(values), max(values)
    return Scale(low, high) if high > low else Scale(low - 0.5, high + 0.5)


def zones(
    name: str,
    hole: Zone,
    shaft: Zone,
    nominal: float,
    units: str = "mm",
    wanted: tuple[float, float] | None = None,
    enters: bool | None = None,
) -> str:
    """Return the picture of a pair: both zones, the clearance from its least to its greatest, and the one wanted.

    All values are in ``units``; ``wanted`` is the window of clearance. A negative clearance is interference. ``enters``
    tells whether the part goes in; unless said, it is taken to, up to an interference that can be pressed.
    """
    least, greatest = hole.lower - shaft.upper, hole.upper - shaft.lower
    scale = scale_for(hole, shaft, nominal, wanted)
    section = _SECTION_WIDTH / (1.75 * max(hole.upper, shaft.upper))
    drawing = Drawing(
        name,
        f"{hole.name} and {shaft.name}",
        _described(hole, shaft, least, greatest, units, wanted),
        WIDTH,
        HEIGHT,
    )
    pressed = shaft.lower - hole.upper <= _PRESSED * hole.upper
    _section(drawing, hole, shaft, section, pressed if enters is None else enters)
    zero = scale.y(0)
    drawing.line(116, zero, WIDTH - 4, zero, stroke=SOFT, stroke_dasharray="8 3 2 3", class_="zero")
    for key, zone, angle in (("hole", hole, 45), ("shaft", shaft, -45)):
        _box(drawing, scale, key, (zone.lower - nominal, zone.upper - nominal), drawing.hatch(angle))
        _ends(drawing, scale, key, (zone.lower, zone.upper), nominal)
    _clearance(drawing, scale, (least, greatest), wanted)
    _captions(drawing, hole, shaft, wanted is not None)
    times = _rounded(scale.each / section)
    drawing.text(4, HEIGHT - 18, f"Right: the limits, {times} times as large as left.", 10.5, fill=SOFT)
    drawing.text(4, HEIGHT - 5, f"Chain line: {figure(nominal)} {units}, and clearance 0.", 10.5, fill=SOFT)
    return drawing.svg()


def _described(
    hole: Zone, shaft: Zone, least: float, greatest: float, units: str, wanted: tuple[float, float] | None
) -> str:
    said = [f"{zone.name}: {figure(zone.lower)} to {figure(zone.upper)} {units}" for zone in (hole, shaft)]
    said.append(f"clearance {figure(_tidy(least))} to {figure(_tidy(greatest))} {units}")
    if wanted is not None:
        said.append(f"wanted {figure(wanted[0])} to {figure(wanted[1])} {units}")
    return "; ".join(said) + "."


def _tidy(value: float) -> float:
    """Return a difference without the noise of binary fractions."""
    return round(value, 7) + 0.0


def _rounded(value: float) -> str:
    """Return a factor to two digits, as far as they are whole.

    >>> _rounded(1234.5), _rounded(7.34), _rounded(0.8)
    ('1200', '7.3', '0.8')
    """
    return figure(float(f"{value:.2g}")) if value < 100 else str(round(float(f"{value:.2g}")))


def _box(drawing: Drawing, scale: Scale, key: str, ends: tuple[float, float], fill: str) -> None:
    low, high = ends
    top, tall = scale.y(high), max((high - low) * scale.each, _THINNEST)
    left = _COLUMNS[key] - _BOX / 2
    drawing.rect(left, top, _BOX, tall, fill=fill, stroke=INK, stroke_width=1.2, class_=key)


def _ends(drawing: Drawing, scale: Scale, key: str, ends: tuple[float, float], zero: float = 0.0) -> None:
    """Write the upper end over the box and the lower end under it."""
    low, high = ends
    drawing.text(_COLUMNS[key], scale.y(high - zero) - 4, figure(_tidy(high)), 10.5, "middle")
    drawing.text(_COLUMNS[key], scale.y(low - zero) + 12.5, figure(_tidy(low)), 10.5, "middle")


def _clearance(drawing: Drawing, scale: Scale, found: tuple[float, float], wanted: tuple[float, float] | None) -> None:
    """Draw the clearance: filled where it is as wanted, empty where it is not; and beside it the window."""
    low, high = found
    _box(drawing, scale, "clearance", found, "none")
    inside = found if wanted is None else (max(low, wanted[0]), min(high, wanted[1]))
    if inside[1] >= inside[0]:
        _box(drawing, scale, "clearance", inside, PENCIL)
    _ends(drawing, scale, "clearance", (low, high))
    if wanted is not None:
        left, top = _COLUMNS["wanted"] - _BOX / 2, scale.y(wanted[1])
        tall = max((wanted[1] - wanted[0]) * scale.each, _THINNEST)
        drawing.rect(
            left,
            top,
            _BOX,
            tall,
            fill="none",
            stroke=PENCIL,
            stroke_width=1.4,
            stroke_dasharray="4 2.5",
            class_="wanted",
        )
        _ends(drawing, scale, "wanted", wanted)


def _captions(drawing: Drawing, hole: Zone, shaft: Zone, wanted: bool) -> None:
    names = {"hole": hole.name, "shaft": shaft.name, "clearance": "clearance"}
    if wanted:
        names["wanted"] = "wanted"
    for key, name in names.items():
        for row, words in enumerate(name.split(" ", 1)):
            drawing.text(_COLUMNS[key], _CAPTION + 12 * row, words, 10.5, "middle", font_style="italic")


def _section(drawing: Drawing, hole: Zone, shaft: Zone, scale: float, enters: bool) -> None:
    """Draw the block with its hole cut open and the part in it, or above it where it cannot go in."""
    middle = _SECTION_LEFT + _SECTION_WIDTH / 2
    wide, part = ((zone.lower + zone.upper) / 2 * scale for zone in (hole, shaft))
    top, bottom = 96.0, 186.0
    outside = (_SECTION_WIDTH - wide) / 2
    hatch, other = drawing.hatch(45), drawing.hatch(-45)
    for left in (_SECTION_LEFT, middle + wide / 2):
        drawing.rect(left, top, outside, bottom - top, fill=hatch, stroke=INK, stroke_width=1.2, class_="block")
    for y in (top, bottom):
        drawing.line(middle - wide / 2, y, middle + wide / 2, y, stroke=SOFT, stroke_width=0.8)
    lowest = bottom - 18 if enters else top
    drawing.rect(middle - part / 2, TOP, part, lowest - TOP, fill="#fff", stroke="none")
    drawing.rect(middle - part / 2, TOP, part, lowest - TOP, fill=other, stroke=INK, stroke_width=1.2, class_="part")
    drawing.line(middle, TOP - 8, middle, bottom + 10, stroke=SOFT, stroke_width=0.8, stroke_dasharray="8 3 2 3")
    for row, words in enumerate(("to scale",) if enters else ("to scale:", "does not go in")):
        drawing.text(middle, _CAPTION + 12 * row, words, 10.5, "middle", font_style="italic")
