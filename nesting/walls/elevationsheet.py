"""The sheet of an elevation: the panels of a skin as they hang, with the ornaments each shows.

Nothing is decided here: where panels stand and what they show is known already.
"""

from collections import Counter
from collections.abc import Iterator

from nesting.drawings.compose import Figures, Head, Painted, Picture, compose
from nesting.drawings.figures import length_figure
from nesting.drawings.front import draw_relief
from nesting.drawings.key import MOST_WIDTH, KeyRow, list_notes, table
from nesting.drawings.labels import Taken, within
from nesting.drawings.names import Caption
from nesting.drawings.ordinates import Ordinate, ordinate_at
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape
from nesting.drawings.sheet import SheetPlan
from nesting.drawings.view import FROM_FRONT, View
from nesting.files.columns import count_of
from nesting.fronts.kinds import Kind
from nesting.shapes.geometry import Box
from nesting.values.job import Job
from nesting.walls.cladding import Skin, Wall
from nesting.walls.elevation import Elevation

SIDES: dict[Skin, str] = {"inner": "inside", "outer": "outside"}
"""From where a skin is seen."""
_OVER, _ON_RELIEF, _INSET = 4.0, 8.0, 0.3
_HEIGHTS = (5.0, 3.5, 2.5)


def draw_elevation(wall: Wall, job: Job, elevation: Elevation) -> Drawing:
    """Return the elevation of a skin on one sheet.

    Layers from below: sheet, panels, relief, corners, dimensions, names, key, strip.
    """
    frame = Box(0, 0, elevation.length, elevation.height)
    ends = (0, *elevation.corners, elevation.length)
    across = tuple(_figure(job, at, elevation.height) for at in ends)
    up = tuple(_figure(job, at, elevation.length) for at in (0, elevation.height))
    key = tuple(_key_rows(elevation))
    picture = Picture(_head(wall, job, elevation), frame, (key,), across, up)

    def paint(sheet: SheetPlan, figures: Figures) -> Painted:
        view = sheet.view
        rims = [view.rect(each.ground).ring for each in elevation.panels]
        panels: list[Shape] = [Area((rim,), "panel") for rim in rims]
        numbers = _number_panels(sheet, elevation)
        return Painted(
            (
                Layer("panels", (*panels, *(Line((*rim, rim[0]), "rule") for rim in rims))),
                Layer("relief", tuple(_draw_relief(view, elevation))),
                *([Layer("corners", _draw_corners(view, elevation))] if elevation.corners else []),
                Layer("dimensions", tuple(shape for row in figures for shape in row)),
                Layer("names", numbers),
            ),
            unplaced=len(elevation.panels) - len(numbers) // 2,
        )

    return compose(picture, paint)


def _figure(job: Job, at: int, reach: int) -> Ordinate:
    return ordinate_at(at, (0, reach), job, is_panel_edge=False)


def _head(wall: Wall, job: Job, elevation: Elevation) -> Head:
    side = SIDES[elevation.skin]
    length, height = (length_figure(each, job) for each in (elevation.length, elevation.height))
    count = count_of(len(elevation.panels), "panel")
    return Head(
        f"elevation-{side}",
        f"{wall.title}: {side} elevation",
        f"The {elevation.skin} skin, {FROM_FRONT.lower()}, unrolled: {count}.",
        job.units,
        (
            (wall.title, f"{side.title()} elevation", FROM_FRONT),
            (
                f"{elevation.skin.title()} skin seen from {side}, {length} long, {height} high",
                count,
                job.title,
            ),
        ),
        "on the wall",
    )


def _key_rows(elevation: Elevation) -> Iterator[KeyRow]:
    yield KeyRow(("Panel and its number",), "panel")
    if any(each.kind.face.ornaments for each in elevation.panels):
        yield KeyRow(("Ornament",), "ornament")
    if elevation.corners:
        yield KeyRow(("Corner, laid flat",), "frame")
    numbers = _number_kinds(elevation)
    standing = Counter(each.kind for each in elevation.panels)
    entries = (f"{number}: {kind.name}, {standing[kind]}" for kind, number in numbers.items())
    yield from table("Panels: mark, kind in brackets, how many", entries, MOST_WIDTH)
    notes = ["Faces are unrolled along the skin."]
    if any(each.kind.number for each in elevation.panels):
        notes.append(
            "Kinds of one mark stand in the order they are cast, from below, from the left."
        )
    yield from list_notes(notes, MOST_WIDTH)


def _number_kinds(elevation: Elevation) -> dict[Kind, int]:
    """Return the number of each kind on this sheet, counted from the lower left."""
    kinds = dict.fromkeys(each.kind for each in elevation.panels)
    return {kind: number for number, kind in enumerate(kinds, 1)}


def _draw_relief(view: View, elevation: Elevation) -> Iterator[Shape]:
    """Yield the ornaments of every panel where it stands."""
    for each in elevation.panels:
        x, y = view.at((each.ground.x0, each.ground.y0))
        yield from draw_relief(View(view.scale, x, y), each.kind.face.ornaments)


def _draw_corners(view: View, elevation: Elevation) -> tuple[Line, ...]:
    """Return a line along every corner, from a little below the skin to a little above it."""
    feet = (view.at((at, 0)) for at in elevation.corners)
    top = view.at((0, elevation.height))[1]
    return tuple(Line(((x, y - _OVER), (x, top + _OVER)), "frame") for x, y in feet)


def _number_panels(sheet: SheetPlan, elevation: Elevation) -> tuple[Shape, ...]:
    """Return the number of each panel's kind inside it, with a plate below it, where it goes in."""
    numbers, view = _number_kinds(elevation), sheet.view
    shapes: list[Shape] = []
    for each in elevation.panels:
        taken = Taken()
        own = View(view.scale, *view.at((each.ground.x0, each.ground.y0)))
        for shown in each.kind.face.ornaments:
            taken.avoid(own.rect(shown.bounds), _ON_RELIEF)
        shapes += _number(view.rect(each.ground), str(numbers[each.kind]), taken)
    return tuple(shapes)


def _number(panel: Rect, words: str, taken: Taken) -> list[Shape]:
    """Return a number and its plate, as large as it goes off the ornaments, or nothing."""
    captions = [Caption(((words, height, "bold"),)) for height in _HEIGHTS]
    places = (
        (taken.cost(rect) + rank, rank, rect)
        for rank, caption in enumerate(captions)
        for rect in within(panel.grown(-_INSET), *caption.size)
    )
    best = min(places, key=lambda place: place[0], default=None)
    if best is None:
        return []
    _, rank, rect = best
    return [Area((rect.ring,), "plate"), *captions[rank].texts(rect)]
