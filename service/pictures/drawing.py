"""The paper that pictures are drawn on: shapes as text, a title and a description for those who do not see them."""

from collections.abc import Iterable
from decimal import Decimal
from html import escape

INK, SOFT, PAPER, PENCIL = "#1d1c1a", "#5b5750", "#ffffff", "#2b418f"
"""Ink, what stands back, paper, and the pencil that corrections are written with."""

FONT = "Iowan Old Style, Palatino, Palatino Linotype, URW Palladio L, Georgia, serif"

MINUS = "\N{MINUS SIGN}"


def number(value: float) -> str:
    """Return a coordinate in a hundredth of a unit, as short as it can be.

    >>> number(12.0), number(0.126), number(-0.001)
    ('12', '0.13', '0')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def figure(value: float) -> str:
    """Return a figure of the trade in full, with a true minus sign.

    >>> figure(-0.012), figure(5), figure(0.00001)
    ('−0.012', '5', '0.00001')
    """
    text = format(Decimal(repr(value)), "f") if isinstance(value, float) else str(value)
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", MINUS)


class Drawing:
    """An SVG document in the making. Its length unit is a pixel of a page on a phone."""

    def __init__(self, name: str, title: str, description: str, width: float, height: float) -> None:
        """Begin with empty paper; ``name`` makes the ids unique where several pictures stand on one page."""
        self.name = name
        self.title, self.description = title, description
        self.width, self.height = width, height
        self.parts: list[str] = []
        self._hatches: dict[str, str] = {}

    def hatch(self, angle: int) -> str:
        """Return a fill of thin lines at an angle [degrees], as sections are hatched."""
        key = f"{self.name}-hatch-{angle % 180}"
        self._hatches[key] = (
            f'<pattern id="{key}" width="5" height="5" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate({angle})"><path d="M0 0V5" stroke="{SOFT}" stroke-width="1"/></pattern>'
        )
        return f"url(#{key})"

    def add(self, tag: str, **attributes: object) -> None:
        """Draw a shape; an underscore in the name of an attribute stands for a hyphen."""
        self.parts.append(f"<{tag}{_attributes(attributes)}/>")

    def rect(self, x: float, y: float, width: float, height: float, **attributes: object) -> None:
        """Draw a rectangle."""
        self.add("rect", x=number(x), y=number(y), width=number(width), height=number(height), **attributes)

    def line(self, x1: float, y1: float, x2: float, y2: float, **attributes: object) -> None:
        """Draw a straight line."""
        ends = {"x1": number(x1), "y1": number(y1), "x2": number(x2), "y2": number(y2)}
        self.add("line", **ends, **{"stroke": INK, "stroke_width": 1, **attributes})

    def path(self, points: Iterable[tuple[float, float]], closed: bool = True, **attributes: object) -> None:
        """Draw a line through points."""
        d = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("Z" if closed else "")
        self.add("path", d=d, **attributes)

    def text(
        self, x: float, y: float, text: str, size: float = 11, anchor: str = "start", **attributes: object
    ) -> None:
        """Write one line of text; ``y`` is its base line."""
        shown = {"x": number(x), "y": number(y), "font_size": number(size), "text_anchor": anchor, "fill": INK}
        self.parts.append(f"<text{_attributes({**shown, **attributes})}>{escape(text)}</text>")

    def svg(self) -> str:
        """Return the document."""
        hatches = "".join(self._hatches.values())
        definitions = f"<defs>{hatches}</defs>" if hatches else ""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {number(self.width)} {number(self.height)}" '
            f'width="{number(self.width)}" height="{number(self.height)}" role="img" font-family="{FONT}" '
            f'aria-labelledby="{self.name}-title {self.name}-desc">'
            f'<title id="{self.name}-title">{escape(self.title)}</title>'
            f'<desc id="{self.name}-desc">{escape(self.description)}</desc>'
            f"{definitions}{''.join(self.parts)}</svg>"
        )


def _attributes(attributes: dict[str, object]) -> str:
    names = ((name.rstrip("_").replace("_", "-"), value) for name, value in attributes.items() if value is not None)
    return "".join(f' {name}="{escape(str(value))}"' for name, value in names)


def spread(wanted: Iterable[float], gap: float, low: float, high: float) -> list[float]:
    """Return places as near as they can be to those wanted, in their order and at least a gap apart, within bounds.

    >>> spread([10, 12, 40], 12, 0, 100)
    [10, 22, 40]
    """
    places: list[float] = []
    for place in wanted:
        places.append(max(place, places[-1] + gap if places else low))
    limit = high
    for index in range(len(places) - 1, -1, -1):
        places[index] = min(places[index], limit)
        limit = places[index] - gap
    return places
