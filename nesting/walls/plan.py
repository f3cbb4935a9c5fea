"""The plan of a wall: every panel of one row, the joints between them, the marks, and a key.

Nothing is decided here: where panels stand is known already.
"""

from collections.abc import Iterator, Sequence
from math import hypot

from nesting.drawings.compose import Figures, Head, Painted, Picture, compose
from nesting.drawings.key import MOST_WIDTH, KeyRow, explain, heading
from nesting.drawings.labels import Taken, nearest_on
from nesting.drawings.lettering import words_width
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Spot, Text
from nesting.drawings.sheet import SheetPlan
from nesting.drawings.view import View
from nesting.shapes.geometry import Box
from nesting.tape import Tape
from nesting.walls.cladding import Stretch, Wall
from nesting.walls.path import face_middle, panel_rings
from nesting.walls.widths import EXACT

_MANY = 60
_AROUND = (20.0, 34.0, 50.0, 70.0)  # for names outside the wall, as long as one finds no place
_HEIGHT, _ON_PANEL, _LONGEST_LEADERLESS = 3.5, 1.0, 4.0
_DISTANCES = (3, 6, 10, 14, 18, 23, 28, 34, 40, 50, 60)
_SLIDES = (0, 6, -6, 12, -12, 18, -18, 24, -24, 30, -30, 38, -38, 46, -46)
_OFF, _TICK, _THIN, _STEEP = 0.3, 1.6, 1.5, 0.4

Rings = Sequence[Sequence[tuple[Spot, ...]]]
"""For each stretch the outlines of its panels [steps]."""


def draw_wall(wall: Wall, stretches: Sequence[Stretch]) -> Drawing:
    """Return the plan on the smallest paper where every mark has a place, or the most have."""
    rings = [panel_rings(wall, stretch) for stretch in stretches]
    skins = "Inner and outer skin" if len(wall.skins) == 2 else f"{wall.skins[0].title()} skin"
    listed = ", ".join(f"{len(stretch.spans)} x {stretch.mark}" for stretch in stretches)
    head = Head(
        "wall",
        f"{wall.title}: plan",
        f"Plan of the wall, {len(stretches)} marks: {listed}.",
        wall.units,
        ((wall.title, "Plan of the wall"), (skins,)),
        "in plan",
    )
    key = tuple(_key_rows(wall, stretches))
    around = _AROUND if len(stretches) <= _MANY else _AROUND[:1]

    def paint(sheet: SheetPlan, figures: Figures) -> Painted:
        unplaced, names = _name_stretches(sheet, stretches, rings)
        panels = _draw_panels(sheet.view, wall.panel_thickness, rings)
        return Painted((Layer("panels", panels), Layer("names", names)), unplaced)

    return compose(Picture(head, _frame(rings), (key,), arounds=around), paint)


def _frame(rings: Rings) -> Box:
    points = [point for panels in rings for ring in panels for point in ring]
    xs, ys = zip(*points, strict=True)
    return Box(round(min(xs)), round(min(ys)), round(max(xs)), round(max(ys)))


def _spots(view: View, ring: Sequence[Spot]) -> tuple[Spot, ...]:
    return tuple(view.at((round(x), round(y))) for x, y in ring)


def _draw_panels(view: View, thickness: int, rings: Rings) -> tuple[Shape, ...]:
    """Return every panel, solid where it is thin on the sheet, with a tick at either end."""
    thin = view.length(thickness) < _THIN
    shapes: list[Shape] = []
    for panels in rings:
        for ring in panels:
            spots = _spots(view, ring)
            half = len(spots) // 2
            shapes.append(Area((spots,), "skin" if thin else "panel"))
            shapes += [] if thin else [Line((*spots, spots[0]), "rule")]
            shapes += [_tick(spots[0], spots[-1]), _tick(spots[half - 1], spots[half])]
    return tuple(shapes)


def _tick(face: Spot, back: Spot) -> Line:
    """Return a short line outward from the end of a face."""
    x, y = face[0] - back[0], face[1] - back[1]
    share = _TICK / (hypot(x, y) or 1.0)
    return Line((face, (face[0] + share * x, face[1] + share * y)), "rule")


def _name_stretches(
    sheet: SheetPlan, stretches: Sequence[Stretch], rings: Rings
) -> tuple[int, tuple[Shape, ...]]:
    """Return how many marks found no place, and the others with their leaders.

    The best of four turns: as the wall runs, backwards, the short ones first, the long ones first;
    of very many marks only the first is tried.
    """
    along = list(zip(stretches, rings, strict=True))
    if len(along) > _MANY:
        return _name_in_turn(sheet, along)
    short_first = sorted(along, key=lambda pair: pair[0].length)
    orders = (along, along[::-1], short_first, short_first[::-1])
    turns = (_name_in_turn(sheet, order) for order in orders)
    return min(turns, key=lambda found: found[0])


def _name_in_turn(
    sheet: SheetPlan, order: Sequence[tuple[Stretch, Sequence[tuple[Spot, ...]]]]
) -> tuple[int, tuple[Shape, ...]]:
    taken = Taken()
    for _, panels in order:
        for ring in panels:
            spots = _spots(sheet.view, ring)
            half = len(spots) // 2
            taken.draw((*spots, spots[0]), _ON_PANEL, _ON_PANEL)
            for tick in (_tick(spots[0], spots[-1]), _tick(spots[half - 1], spots[half])):
                taken.draw(tick.points, _ON_PANEL)
    shapes: list[Shape] = []
    unplaced = 0
    for stretch, panels in order:
        count = len(stretch.spans)
        words = stretch.mark if count == 1 else f"{count} × {stretch.mark}"  # noqa: RUF001
        ways = (_place_name(sheet, taken, words, ring) for ring in _middle_first(panels))
        found = next(filter(None, ways), [])
        unplaced += not found
        shapes += found
    return unplaced, tuple(shapes)


def _middle_first(panels: Sequence[tuple[Spot, ...]]) -> list[tuple[Spot, ...]]:
    """Return the middle panel of a stretch, then those at its ends."""
    return [panels[(len(panels) - 1) // 2], panels[0], panels[-1], panels[len(panels) // 2]]


def _place_name(sheet: SheetPlan, taken: Taken, words: str, ring: tuple[Spot, ...]) -> list[Shape]:
    """Return a name off the middle of a panel's face, with a leader; nothing where none fits."""
    middle, (out_x, out_y) = face_middle(ring)
    (x, y) = sheet.view.at((round(middle[0]), round(middle[1])))
    start = (x + _OFF * out_x, y + _OFF * out_y)
    half_width, half_height = words_width(words, _HEIGHT, bold=True) / 2, _HEIGHT / 2
    reach = abs(out_x) * half_width + abs(out_y) * half_height
    ground = Text(0, -half_height, words, _HEIGHT, "bold", "middle").rect.grown(0.8)
    for distance in _DISTANCES:
        for slide in _SLIDES:
            at_x = x + (distance + reach) * out_x - slide * out_y
            at_y = y + (distance + reach) * out_y + slide * out_x
            rect = Rect(ground.x0 + at_x, ground.y0 + at_y, ground.x1 + at_x, ground.y1 + at_y)
            end = nearest_on(rect, start)
            if (
                sheet.ground.grown(-1).holds(rect)
                and taken.is_free(rect)
                and not taken.cost(rect)
                and (end[0] - x) * out_x + (end[1] - y) * out_y
                >= _STEEP * hypot(end[0] - x, end[1] - y)
                and taken.is_clear(start, end)
                and not taken.leader_cost(start, end)
            ):
                taken.take(rect)
                taken.draw((start, end), _ON_PANEL, _ON_PANEL)
                text = Text(at_x, at_y - half_height, words, _HEIGHT, "bold", "middle")
                near = abs(end[0] - x) + abs(end[1] - y) < _LONGEST_LEADERLESS
                return [text] if near else [Line(((x, y), end), "leader"), text]
    return []


def _key_rows(wall: Wall, stretches: Sequence[Stretch]) -> Iterator[KeyRow]:
    """Yield what is ordered: sizes, radii, joints, and how skins and rows stand."""
    length = Tape(wall.units).stated_words
    yield heading("Panels, measured on the face")
    for stretch in stretches:
        count = len(stretch.spans) * wall.rows
        size = f"{length(stretch.width)} × {length(wall.row_height)}"  # noqa: RUF001
        yield from explain(f"{stretch.mark}: {count} of {size}", MOST_WIDTH)
        if wall.widths != EXACT:
            yield KeyRow((f"joints {length(stretch.joint)}",), "blank")
        if stretch.radius:
            yield KeyRow((f"{stretch.shape} face, R {length(stretch.radius)}",), "blank")
            yield KeyRow((f"on {stretch.bed.form} bed, R {length(stretch.bed.radius)}",), "blank")
    yield heading(f"Joints {length(wall.joint)}{', or as given' * (wall.widths != EXACT)}")
    if wall.rows > 1:
        yield KeyRow((f"{wall.rows} rows over one another",))
    if len(wall.skins) == 2:
        yield KeyRow((f"Face to face {length(wall.distance)}",))
        yield KeyRow((f"cavity {length(wall.cavity)}",), "blank")
