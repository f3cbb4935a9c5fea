"""The chart of liner area against casts: each offer a dot, and the line that nothing lies below.

Nothing is decided here.
"""

from collections.abc import Callable, Sequence
from math import ceil, floor, log10

from nesting.drawings.compose import Head, lay_out
from nesting.drawings.lettering import words_width
from nesting.drawings.papers import lying
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Spot, Text
from nesting.drawings.sheet import Page
from nesting.unitwords import WORDS
from nesting.values.job import Units
from nesting.zones.trade import Trade

_PAPERS: dict[Units, str] = {"mm": "a4", "in": "letter"}
_MEANINGS = (
    "Dots: liners that give every size. Filled: proved that no smaller one takes as few casts.",
    "Broken line: proved that no liner lies below it.",
)
_LEFT, _FOOT, _HEAD = 34.0, 26.0, 12.0
_TEXT, _DOT, _TICK, _STEPS = 3.5, 1.4, 1.5, 120


def draw_trade(trade: Trade) -> Drawing:
    """Return the chart on one small sheet."""
    motif = trade.best.zoning.motif
    units = motif.job.units
    page = Page(*lying(_PAPERS[units])[0])
    above = page.above
    room = Rect(above.x0 + _LEFT, above.y0 + _FOOT, above.x1 - 12, above.y1 - _HEAD)
    areas = [offer.zoning.area for offer in trade.offers]
    casts = [offer.casts for offer in trade.offers]
    lows = [trade.least_casts(area) for area in (areas[0], areas[-1])]
    across = _Scale(areas[0], areas[-1], WORDS[units].area[1], (room.x0, room.x1))
    up = _Scale(min(*casts, *lows), max(casts), 1, (room.y0, room.y1))
    head = Head(
        "trade",
        f"{motif.job.title}: liner area against casts",
        f"{len(trade.offers)} liners, each with the casts of its own plan.",
        units,
        ((motif.job.title, "What more rubber buys"), *((words,) for words in _MEANINGS)),
    )
    return lay_out(
        head,
        page,
        (
            Layer("axes", _draw_axes(room, across, up, units)),
            Layer("bound", _draw_bound(trade, across, up)),
            Layer("offers", _draw_offers(trade, room, across, up, units)),
        ),
    )


class _Scale:
    """From values along one axis to the sheet, with round ticks around all of them."""

    def __init__(self, low: int, high: int, unit: int, ends: tuple[float, float]) -> None:
        first, last = low / unit, high / unit
        spread = (last - first) or max(1.0, first / 10)
        rough = spread / 4
        power = 10.0 ** floor(log10(rough))
        self.step = next(power * n for n in (1, 2, 5, 10) if power * n >= rough)
        if unit == 1:
            self.step = max(1.0, float(ceil(self.step)))
        self.first = floor(first / self.step - 0.4) * self.step
        self.last = ceil(last / self.step + 0.4) * self.step
        self.unit, self.ends = unit, ends

    def at(self, value: float) -> float:
        share = (value / self.unit - self.first) / (self.last - self.first)
        return self.ends[0] + share * (self.ends[1] - self.ends[0])

    @property
    def ticks(self) -> list[float]:
        count = round((self.last - self.first) / self.step)
        return [self.first + index * self.step for index in range(count + 1)]


def _draw_axes(room: Rect, across: _Scale, up: _Scale, units: Units) -> tuple[Shape, ...]:
    shapes: list[Shape] = [
        Line(((room.x0, room.y0), (room.x1, room.y0)), "rule"),
        Line(((room.x0, room.y0), (room.x0, room.y1)), "rule"),
    ]
    for tick in across.ticks:
        x = across.at(tick * across.unit)
        shapes.append(Line(((x, room.y0), (x, room.y0 - _TICK)), "rule"))
        shapes.append(
            Text(x, room.y0 - 6.5, f"{tick:g}" if tick else "0", _TEXT, "plain", "middle")
        )
    for tick in up.ticks:
        y = up.at(tick)
        shapes.append(Line(((room.x0 - _TICK, y), (room.x0, y)), "rule"))
        shapes.append(Text(room.x0 - 3, y - _TEXT / 2, f"{tick:g}", _TEXT, "plain", "end"))
    names = f"Liner area, {WORDS[units].area[0]}"
    shapes.append(Text((room.x0 + room.x1) / 2, room.y0 - 14, names, _TEXT, "bold", "middle"))
    middle = (room.y0 + room.y1) / 2
    shapes.append(Text(room.x0 - 17, middle, "Casts for the order", _TEXT, "bold", "middle", True))
    return tuple(shapes)


def _draw_bound(trade: Trade, across: _Scale, up: _Scale) -> tuple[Shape, ...]:
    """Return the line of the casts that no liner of an area stays below."""
    unit = across.unit
    spread = (across.last - across.first) / _STEPS
    values = {round((across.first + n * spread) * unit) for n in range(_STEPS + 1)}
    values |= {area + by for _, area in trade.bounds if area is not None for by in (-1, 0)}
    points: list[Spot] = []
    for value in sorted(values):
        if not trade.best.zoning.area <= value <= across.last * unit:
            continue
        casts = min(max(trade.least_casts(value), up.first), up.last)
        x, y = across.at(value), up.at(casts)
        if points and points[-1][1] != y:
            points.append((x, points[-1][1]))
        points.append((x, y))
    return (Line(tuple(points), "witness"),)


def _draw_offers(
    trade: Trade, room: Rect, across: _Scale, up: _Scale, units: Units
) -> tuple[Shape, ...]:
    """Return a dot for each offer, joined by steps, each with its liner's size beside it."""
    spots = [(across.at(o.zoning.area), up.at(o.casts)) for o in trade.offers]
    steps: list[Spot] = []
    for x, y in spots:
        if steps:
            steps.append((x, steps[-1][1]))
        steps.append((x, y))
    shapes: list[Shape] = [Line(tuple(steps), "rule")] if len(steps) > 1 else []
    taken: list[Rect] = []
    for offer, (x, y) in zip(trade.offers, spots, strict=True):
        dot = Rect(x - _DOT, y - _DOT, x + _DOT, y + _DOT)
        shapes.append(Area((dot.ring,), "bar" if trade.is_proved(offer) else "gap"))
        casts = offer.casts
        words = f"{offer.zoning.motif.job.tape.size(*offer.zoning.size)}: {casts} casts"
        text = _beside(words, (x, y), room, taken)
        taken.append(text.rect)
        shapes.append(text)
    return tuple(shapes)


def _beside(words: str, spot: Spot, room: Rect, taken: Sequence[Rect]) -> Text:
    """Return words near a dot where they fit the room and meet no others."""
    x, y = spot
    anchored: Callable[[float], Text] = lambda lift: (  # noqa: E731
        Text(x + 3, y + lift, words, _TEXT)
        if x + 3 + words_width(words, _TEXT) <= room.x1
        else Text(x - 3, y + lift, words, _TEXT, "plain", "end")
    )
    for lift in (2.0, -5.5, 8.0, -11.5, 14.0):
        text = anchored(lift)
        if not any(text.rect.overlaps(other) for other in taken):
            return text
    return anchored(2.0)
