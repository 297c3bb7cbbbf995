"""An order over the days: each part from the day of 50 % to the day of 90 %, the kit, the steps, and the gate."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import Literal, NamedTuple

from service.pictures.drawing import INK, PENCIL, SOFT, Drawing, number
from service.pictures.glyphs import shape_of

WIDTH = 340.0
LEFT, RIGHT = 12.0, 322.0
_AXIS = 34.0
_ROW = 32.0
_GATE = 15.0
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

Kind = Literal["part", "kit", "step"]


class Bar(NamedTuple):
    """A row: what it is called, the days of 50 and 90 %, and whether a gate stands before it (open or closed)."""

    text: str
    p50: date | None
    p90: date | None
    kind: Kind = "part"
    gate: Literal["open", "closed"] | None = None


class Days(NamedTuple):
    """The days that the paper holds."""

    first: date
    last: date

    def x(self, day: date) -> float:
        """Where a day stands."""
        return LEFT + (RIGHT - LEFT) * ((day - self.first).days / max((self.last - self.first).days, 1))


def days_for(bars: Sequence[Bar], today: date) -> Days:
    """Return the days from the first that is named, today included, to the last and a little beyond."""
    named = [day for bar in bars for day in (bar.p50, bar.p90) if day is not None]
    first, last = min([today, *named]), max([today, *named])
    return Days(first, last + timedelta(days=max((last - first).days // 12, 2)))


def timeline(name: str, bars: Sequence[Bar], today: date, more: int = 0) -> str:
    """Return the picture of an order over its days; ``more`` is how many parts are left out as they come earlier."""
    days = days_for(bars, today)
    end = _AXIS + len(bars) * _ROW
    drawing = Drawing(name, "When what is there", _described(bars, today), WIDTH, end + (44 if more else 30))
    _axis(drawing, days, end)
    x = days.x(today)
    drawing.line(x, _AXIS - 6, x, end, stroke=PENCIL, stroke_width=1.4, stroke_dasharray="2 2.5", class_="today")
    drawing.text(min(x, RIGHT - 20), end + 12, "today", 10.5, "middle" if x > LEFT + 14 else "start", fill=PENCIL)
    for place, bar in enumerate(bars):
        _bar(drawing, days, bar, _AXIS + place * _ROW, today)
    drawing.text(LEFT, end + 26, "Filled: by this day with 50 %. Open: with 90 %.", 10.5, fill=SOFT)
    if more:
        drawing.text(LEFT, end + 39, f"{more} more come earlier.", 10.5, fill=SOFT)
    return drawing.svg()


def _described(bars: Sequence[Bar], today: date) -> str:
    said = [f"today {today.isoformat()}"]
    for bar in bars:
        when = "no date" if bar.p90 is None else f"50 % by {_iso(bar.p50)}, 90 % by {_iso(bar.p90)}"
        gate = f", gate {bar.gate}" if bar.gate else ""
        said.append(f"{bar.text}: {when}{gate}")
    return "; ".join(said) + "."


def _iso(day: date | None) -> str:
    return "no date" if day is None else day.isoformat()


def _marks(days: Days) -> Iterator[tuple[date, str]]:
    """Return the days that are marked: Mondays on a short axis, else first days of months."""
    span = (days.last - days.first).days
    if span <= 42:
        day = days.first + timedelta(days=-days.first.weekday() % 7)
        while day <= days.last:
            yield day, f"{day.day} {_MONTHS[day.month - 1]}"
            day += timedelta(days=7)
        return
    every = 1 if span <= 200 else 3 if span <= 700 else 12
    year, month = days.first.year, days.first.month
    while True:
        month += 1
        if month > 12:
            year, month = year + 1, 1
        day = date(year, month, 1)
        if day > days.last:
            return
        if (month - 1) % every == 0:
            yield day, f"{_MONTHS[month - 1]} {year % 100:02}" if every > 1 or month == 1 else _MONTHS[month - 1]


def _axis(drawing: Drawing, days: Days, end: float) -> None:
    drawing.text(LEFT, 11, str(days.first.year), 10.5, fill=SOFT)
    last = -100.0
    for day, text in _marks(days):
        x = days.x(day)
        drawing.line(x, _AXIS - 8, x, end, stroke=SOFT, stroke_width=0.5, stroke_opacity=0.6)
        if x - last > 36 and x < RIGHT - 6:
            drawing.text(x, _AXIS - 12, text, 10.5, "middle" if x > LEFT + 14 else "start", fill=SOFT)
            last = x
    drawing.line(LEFT, _AXIS - 8, RIGHT, _AXIS - 8, stroke=INK, stroke_width=0.8)


def _bar(drawing: Drawing, days: Days, bar: Bar, top: float, today: date) -> None:
    weight = None if bar.kind == "part" else "bold"
    start = LEFT + 4
    if bar.gate:
        drawing.parts.append(
            f'<g transform="translate({number(start)} {number(top + 1)}) scale({number(_GATE / 24)})" color="{INK}" '
            f'class="gate-{bar.gate}">{shape_of(f"{bar.gate} gate")}</g>'
        )
        start += _GATE + 4
    text = bar.text if len(bar.text) <= 46 else bar.text[:45] + "…"
    drawing.text(start, top + 13, text, 11, font_weight=weight, stroke="#fff", stroke_width=3, paint_order="stroke")
    y = top + 23
    if bar.p50 is None or bar.p90 is None:
        drawing.line(days.x(today), y, RIGHT, y, stroke=SOFT, stroke_dasharray="2 5", class_="no-date")
        drawing.text(RIGHT, top + 13, "no date", 10.5, "end", font_style="italic")
        return
    half, most = days.x(bar.p50), days.x(bar.p90)
    drawing.line(half, y, most, y, stroke=INK, stroke_width=3 if bar.kind == "part" else 5, class_=f"{bar.kind}-span")
    drawing.add("circle", cx=number(half), cy=number(y), r=3.6, fill=INK, class_=f"{bar.kind}-p50")
    drawing.add(
        "circle",
        cx=number(most),
        cy=number(y),
        r=4,
        fill="#fff",
        stroke=INK,
        stroke_width=1.6,
        class_=f"{bar.kind}-p90",
    )
