"""Where the words of a template stand on a tile: on what they name, clear of lines and crosses."""

from collections.abc import Iterator, Sequence
from itertools import islice, product

from nesting.drawings.labels import Taken, beside, nearest_on, within
from nesting.drawings.lettering import clean, words_depth, words_rise, words_width
from nesting.drawings.record import Line, Rect, Shape, Spot, Text, bounds_of
from nesting.templates.content import Template, TileLabel

_AIR = 0.7
_LEAST = 8.0
_TRIED = 60
_COSTS = {"trace": 9.0, "strip": 9.0, "rim": 6.0, "leader": 6.0, "zone": 1.0, "ghost": 2.0}
_TALL = 3.0
_LONGEST_WORDS = 120


def occupy(template: Template, crosses: Sequence[Spot], arm: float) -> Taken:
    """Return the ground no word may stand on, and the lines it had better not."""
    taken = Taken()
    for x, y in crosses:
        taken.take(Rect(x, y, x, y).grown(arm + _AIR))
    for mark in template.marks:
        taken.take(bounds_of([mark]))
    for line in template.lines:
        taken.draw(line.points, _COSTS.get(line.style, 2.0))
    return taken


def place_labels(labels: Sequence[TileLabel], core: Rect, taken: Taken) -> tuple[Shape, ...]:
    """Return the words of every label that the core shows enough of; they take their ground."""
    shapes: list[Shape] = []
    for label in labels:
        seen = _shared(label.rect, core)
        if seen is None:
            continue
        found = _stand(label, seen, taken)
        if not found and label.needed and max(seen.width, seen.height) >= _LEAST:
            found = _point(label, seen, core, taken)
        shapes += found
    return tuple(shapes)


def _shared(rect: Rect, core: Rect) -> Rect | None:
    """Return what of a rectangle the core shows, with some air to the joins; None for a sliver."""
    room = core.grown(-1.0)
    seen = Rect(
        max(rect.x0, room.x0), max(rect.y0, room.y0), min(rect.x1, room.x1), min(rect.y1, room.y1)
    )
    return seen if seen.width > 1 and seen.height > 1 else None


def _stand(label: TileLabel, seen: Rect, taken: Taken) -> list[Shape]:
    """Return the words on their own ground, at the cheapest place; nothing where none is free."""
    choices = ((words, height) for words, height in product(label.words, label.heights))
    ranked: list[tuple[float, Rect, str, float, bool]] = []
    is_tall = seen.height > _TALL * seen.width
    for rank, (words, height) in enumerate(choices):
        for upright in (is_tall, not is_tall):
            size = _size(clean(words)[:_LONGEST_WORDS], height, label, upright)
            for rect in islice(within(seen, *size), _TRIED):
                if not taken.is_free(rect):
                    continue
                cost = taken.cost(rect) + 0.4 * rank + 0.3 * (upright != is_tall)
                ranked.append((cost, rect, words, height, upright))
                if cost <= 0.4 * rank:
                    break
            if ranked and min(ranked)[0] <= 0.4 * rank:
                return _put(min(ranked), label, taken)
    return _put(min(ranked), label, taken) if ranked else []


def _put(best: tuple[float, Rect, str, float, bool], label: TileLabel, taken: Taken) -> list[Shape]:
    _, rect, words, height, upright = best
    taken.take(rect)
    return [_text(rect, words, height, label, upright)]


def _point(label: TileLabel, seen: Rect, core: Rect, taken: Taken) -> list[Shape]:
    """Return the shortest words beside their ground, with a leader to it."""
    words, height = clean(label.words[-1])[:_LONGEST_WORDS], label.heights[-1]
    size = _size(words, height, label, upright=False)
    places = ((rect, spot) for rect, spot in beside(seen, *size) if core.holds(rect))
    ends = ((rect, spot, nearest_on(rect, spot)) for rect, spot in places)
    for rect, spot, end in _free(ends, taken):
        taken.take(rect)
        return [Line((spot, end), "leader"), _text(rect, words, height, label, upright=False)]
    return []


def _free(
    places: Iterator[tuple[Rect, Spot, Spot]], taken: Taken
) -> Iterator[tuple[Rect, Spot, Spot]]:
    listed = [place for place in places if taken.is_free(place[0])]
    listed = [place for place in listed if taken.is_clear(place[1], place[2])]
    yield from sorted(listed, key=lambda place: taken.cost(place[0]))


def _size(words: str, height: float, label: TileLabel, upright: bool) -> tuple[float, float]:
    bold = label.style == "bold"
    width = words_width(words, height, bold=bold) + 2 * _AIR
    depth = words_rise(words, height) + words_depth(words, height) + 2 * _AIR
    return (depth, width) if upright else (width, depth)


def _text(rect: Rect, words: str, height: float, label: TileLabel, upright: bool) -> Text:
    words = clean(words)[:_LONGEST_WORDS]
    (x, y), drop = rect.centre, (words_rise(words, height) - words_depth(words, height)) / 2
    spot = (x + drop, y) if upright else (x, y - drop)
    return Text(*spot, words, height, label.style, "middle", upright=upright)
