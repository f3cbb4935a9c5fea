"""The front view of a panel: the finished face as it will hang, measured, named and explained.

Nothing is decided here: what a face shows and measures is known already.
"""

from collections.abc import Iterator

from nesting.drawings.compose import Figures, Head, Painted, Picture, compose
from nesting.drawings.figures import length_words, size_figure
from nesting.drawings.key import MOST_WIDTH, KeyRow, explain, heading, list_notes
from nesting.drawings.labels import Taken
from nesting.drawings.names import PlacedNames
from nesting.drawings.ordinates import Ordinate, ordinate_at
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Text, bounds_of
from nesting.drawings.sheet import SheetPlan
from nesting.drawings.view import FROM_FRONT, View
from nesting.files.columns import count_of
from nesting.fronts.faces import Shown
from nesting.fronts.kinds import Kind
from nesting.fronts.measures import Measures
from nesting.shapes.geometry import Box
from nesting.values.job import Job

_AROUND, _ARROW, _HEAD, _WORDS = 16.0, 16.0, 4.0, 3.5
_MOST_NAMED = 60
_ON_RELIEF, _ON_GROUND, _SPARE = 12.0, 8.0, 8.0


def draw_front(job: Job, kind: Kind, name: str) -> Drawing:
    """Return the front view of a kind of panel on one sheet; ``name`` is that of the drawing.

    Layers from below: sheet, face, relief, dimensions, names, key, strip.
    """
    width, height = kind.face.measures.size
    figures = (_figures(job, width, height), _figures(job, height, width))
    picture = Picture(
        _head(job, kind, name),
        Box(0, 0, width, height),
        (tuple(_key_rows(job, kind)),),
        *figures,
        arounds=(_AROUND,),
    )

    def paint(sheet: SheetPlan, rows: Figures) -> Painted:
        rim = sheet.view.rect(picture.frame)
        arrow = draw_arrow(rim)
        names = _name(kind, sheet, (*rows, arrow))
        layers = (
            Layer("face", (Area((rim.ring,), "panel"), Line((*rim.ring, rim.ring[0]), "rim"))),
            Layer("relief", draw_relief(sheet.view, kind.face.ornaments)),
            Layer("dimensions", (*(shape for row in rows for shape in row), *arrow)),
            Layer("names", names.shapes),
        )
        return Painted(layers, len(names.unplaced))

    return compose(picture, paint)


def draw_relief(view: View, ornaments: tuple[Shown, ...]) -> tuple[Shape, ...]:
    """Return the ornaments of a face as outlines."""
    return tuple(
        Area(tuple(tuple(map(view.at, ring)) for ring in each.rings), "ornament")
        for each in ornaments
    )


def keep_off_relief(taken: Taken, view: View, ornaments: tuple[Shown, ...]) -> None:
    """Make names keep off the outlines of ornaments, and marks off what is in them."""
    for each in ornaments:
        taken.avoid(view.rect(each.bounds), _ON_GROUND)
        for ring in each.rings:
            spots = tuple(map(view.at, ring))
            taken.draw((*spots, spots[0]), _ON_RELIEF)


def finished_rows(job: Job, measures: Measures) -> list[tuple[str, str]]:
    """Return what a finished face measures, a line each: what, and how much with its unit."""
    rows: list[tuple[str, str]] = []
    for side, name in enumerate(("Width", "Height")):
        length, chord = measures.size[side], measures.chords[side]
        bent = measures.radius and measures.curved_axis == "xy"[side]
        rows.append((f"{name} along the face" if bent else name, length_words(length, job)))
        if bent:
            rows.append((f"{name}, chord", length_words(chord, job)))
            rows.append((f"{name} along the back", length_words(measures.backs[side], job)))
    diagonals = dict.fromkeys(length_words(each, job) for each in measures.diagonals)
    straight = ", straight" if measures.radius else ""
    rows.append((f"Both diagonals{straight}", ", ".join(diagonals)))
    if measures.form == "convex":
        over = length_words(measures.over_diagonal, job)
        rows.append(("Both diagonals, over the face", over))
    return rows


def face_words(job: Job, measures: Measures) -> str:
    """Return what a face is to the person before it."""
    if not measures.radius:
        return "Face flat"
    side = "width" if measures.curved_axis == "x" else "height"
    return f"Face {measures.form} along its {side}, R {length_words(measures.radius, job)}"


def _figures(job: Job, length: int, reach: int) -> tuple[Ordinate, ...]:
    return tuple(ordinate_at(each, (0, reach), job, is_panel_edge=True) for each in (0, length))


def _head(job: Job, kind: Kind, name: str) -> Head:
    measures = kind.face.measures
    size = f"{size_figure(*measures.size, job)} {job.units}"
    shown = ", ".join(each.name for each in kind.face.ornaments) or "no ornament"
    return Head(
        name,
        f"{job.title}: panel {kind.name}, {FROM_FRONT.lower()}",
        f"The finished face of panel {kind.name}, {size}, {FROM_FRONT.lower()}: {shown}.",
        job.units,
        (
            (job.title, f"Panel {kind.name}", FROM_FRONT),
            (f"Face {size}", face_words(job, measures), _cast_words(kind)),
        ),
        "on the face",
    )


def _cast_words(kind: Kind) -> str:
    layouts = list(dict.fromkeys(kind.layouts))
    plural = "s" if len(layouts) > 1 else ""
    return f"{count_of(kind.pieces, 'piece')}, layout{plural} {', '.join(map(str, layouts))}"


def _key_rows(job: Job, kind: Kind) -> Iterator[KeyRow]:
    measures = kind.face.measures
    yield KeyRow(("Finished face",), "panel")
    if kind.face.ornaments:
        yield KeyRow(("Ornament",), "ornament")
    yield heading("Finished size")
    for words, length in finished_rows(job, measures):
        yield from explain(f"{words}: {length}", MOST_WIDTH)
    notes = ["Left and right have changed places against the layout, where the face lies down."]
    if job.panel(kind.face.mark).turn == "half":
        notes.append("One that the layout has turned half round (*) is turned back here.")
    if measures.radius:
        notes.append("Drawn unrolled along the face. Chord and diagonals run straight, in space.")
    yield from list_notes(notes, MOST_WIDTH)


def draw_arrow(rim: Rect) -> tuple[Shape, ...]:
    """Return the arrow that says which way is up, right of the face."""
    x, (_, middle) = rim.x1 + _AROUND / 2, rim.centre
    low, high = middle - _ARROW / 2, middle + _ARROW / 2
    tip = ((x - _HEAD / 3, high - _HEAD), (x + _HEAD / 3, high - _HEAD), (x, high))
    return (
        Line(((x, low), (x, high - _HEAD)), "rim"),
        Area((tip,), "datum"),
        Text(x, low - _WORDS - 1.5, "up", _WORDS, "bold", "middle"),
    )


def _name(kind: Kind, sheet: SheetPlan, rows: Figures) -> PlacedNames:
    """Return the mark and the names of the ornaments, kept off all else where they can be."""
    taken = Taken()
    for row in rows:
        taken.take(bounds_of(s for s in row if not (isinstance(s, Line) and s.style == "witness")))
    keep_off_relief(taken, sheet.view, kind.face.ornaments)
    names = PlacedNames(sheet.ground.grown(-1.0), taken, _SPARE)
    names.mark_panel(sheet.view.rect(Box(0, 0, *kind.face.measures.size)), kind.name)
    has_names = len(kind.face.ornaments) <= _MOST_NAMED
    for shown in kind.face.ornaments if has_names else ():
        names.name_ornament(sheet.view.rect(shown.bounds), shown.name)
    return names
