"""A template on its sheets: a drawing record per tile, with joins, crosses, words and the strip."""

from collections.abc import Sequence

from nesting.drawings.labels import Taken, within
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Spot, Text, moved
from nesting.tape import Tape
from nesting.templates.content import Template
from nesting.templates.sheets import Tiling
from nesting.templates.tilelabels import occupy, place_labels
from nesting.templates.tiles import Cell, cross_spots, tile_name, tile_number
from nesting.templates.tilestrip import Said, draw_tile_strip
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.values.job import Units

_SQUARES: dict[Units, tuple[int, ...]] = {
    "mm": (100 * STEPS_PER_MM, 50 * STEPS_PER_MM, 25 * STEPS_PER_MM),
    "in": (4 * STEPS_PER_INCH, 2 * STEPS_PER_INCH, STEPS_PER_INCH),
}
_LONGEST_ARM = 5.0
_SQUARE_AIR = 3.0
_NEIGHBOUR = 3.0


def draw_tiles(template: Template, tiling: Tiling, said: Said) -> tuple[Drawing, ...]:
    """Return the sheets in the order they are laid: row by row from above, each from the left.

    Layers from below: sheet, art (what is traced and the crosses, the same shapes on every sheet,
    seen through the tile's window), joins, words, strip.
    """
    crosses = cross_spots(tiling.grid)
    arm = min(_LONGEST_ARM, tiling.setting.overlap / 2 - 1)
    art = (*template.lines, *template.marks, *_cross_lines(crosses, arm))
    taken = occupy(template, crosses, arm)
    square = _check_square(tiling.grid.core(tiling.cells[0]), taken, said.units)
    return tuple(
        _draw_tile(
            template, tiling, said, cell, art, taken, square if cell == tiling.cells[0] else ()
        )
        for cell in tiling.cells
    )


def _draw_tile(
    template: Template,
    tiling: Tiling,
    said: Said,
    cell: Cell,
    art: tuple[Shape, ...],
    taken: Taken,
    square: Sequence[Shape],
) -> Drawing:
    name, place, window = tile_name(cell), tiling.window_place, tiling.grid.window(cell)
    origin = place.x0 - window.x0, place.y0 - window.y0
    words = (*square, *place_labels(template.labels, tiling.grid.core(cell), taken))
    paper = Area((Rect(0, 0, tiling.width, tiling.height).ring,), "paper")
    strip = draw_tile_strip(tiling.strip_place, said, tiling.grid, tiling.cells, cell)
    return Drawing(
        f"template-{tile_number(cell)}",
        tiling.width,
        tiling.height,
        f"{said.title}: {said.subject}, {name}",
        f"Sheet {tiling.cells.index(cell) + 1} of {len(tiling.cells)} of a full-size template.",
        (
            Layer("sheet", (paper,)),
            Layer("art", art, place, origin),
            Layer("joins", tuple(moved(shape, origin) for shape in _joins(tiling, cell, taken))),
            Layer("words", tuple(moved(shape, origin) for shape in words)),
            Layer("strip", strip),
        ),
    )


def _cross_lines(crosses: Sequence[Spot], arm: float) -> tuple[Line, ...]:
    return tuple(
        line
        for x, y in crosses
        for line in (
            Line(((x - arm, y), (x + arm, y)), "cross"),
            Line(((x, y - arm), (x, y + arm)), "cross"),
        )
    )


def _joins(tiling: Tiling, cell: Cell, taken: Taken) -> list[Shape]:
    """Return the window's outline, the joins, dashed where this sheet is cut, and neighbours."""
    grid, (row, column) = tiling.grid, cell
    window, core = grid.window(cell), grid.core(cell)
    shapes: list[Shape] = [Line((*window.ring, window.ring[0]), "limit")]
    if (row, column - 1) in tiling.cells:
        shapes.append(Line(((core.x0, window.y0), (core.x0, window.y1)), "join"))
    if (row - 1, column) in tiling.cells:
        shapes.append(Line(((window.x0, core.y1), (window.x1, core.y1)), "join"))
    if (row, column + 1) in tiling.cells:
        shapes.append(Line(((core.x1, window.y0), (core.x1, window.y1)), "limit"))
        shapes.append(_neighbour(window._replace(x0=core.x1), (row, column + 1), taken))
    if (row + 1, column) in tiling.cells:
        shapes.append(Line(((window.x0, core.y0), (window.x1, core.y0)), "limit"))
        shapes.append(_neighbour(window._replace(y1=core.y0), (row + 1, column), taken))
    return shapes


def _neighbour(band: Rect, cell: Cell, taken: Taken) -> Text:
    """Return the name of the sheet that will cover the band beyond a join, clear of lines."""
    words, upright = tile_name(cell), band.height > band.width
    places: list[Text] = []
    for share in (0.3, 0.7, 0.2, 0.8, 0.4, 0.6):
        if upright:
            spot = (band.x0 + band.x1 + _NEIGHBOUR) / 2, band.y0 + share * band.height
        else:
            spot = band.x0 + share * band.width, (band.y0 + band.y1 - _NEIGHBOUR) / 2
        places.append(Text(*spot, words, _NEIGHBOUR, "plain", "middle", upright=upright))
    return min(places, key=lambda text: (not taken.is_free(text.rect), taken.cost(text.rect)))


def _check_square(core: Rect, taken: Taken, units: Units) -> list[Shape]:
    """Return the square: the largest for which the first sheet has room clear of lines.

    Where even the least stands on words or crosses, there it is all the same: people are told of
    it.
    """
    sides = [side / STEPS_PER_MM for side in _SQUARES[units]]
    ranked = [
        (taken.cost(rect.grown(_SQUARE_AIR)), -side, rect)
        for side in sides[:-1]
        for rect in within(core.grown(-2.0), side, side, steps=12)
        if taken.is_free(rect)
    ]
    least = within(core.grown(-2.0), sides[-1], sides[-1], steps=12)
    ranked = ranked or [(not taken.is_free(rect), -sides[-1], rect) for rect in least]
    _, less, rect = min(ranked, key=lambda each: each[:2])
    taken.take(rect)
    side = round(-less * STEPS_PER_MM)
    tape, diagonal = Tape(units), round(side * 2**0.5)
    words = f"Check square {tape.words(side)}", f"diagonals {tape.words(diagonal)}"
    x, y = rect.centre
    return [
        Line((*rect.ring, rect.ring[0]), "leader"),
        *(Text(x, y + 2 - 5 * row, each, 2.2, "plain", "middle") for row, each in enumerate(words)),
    ]
