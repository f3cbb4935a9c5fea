"""The one composer of pictures: paper, scale, key, title strip, and room for every name.

A picture tells what must be on its sheet and gives a function that paints it; everything that is
alike on all sheets is here. Nothing is decided here.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from nesting.drawings.key import KeyRow, column_lines, draw_key, rows_width
from nesting.drawings.labels import Taken
from nesting.drawings.names import PlacedNames
from nesting.drawings.ordinates import Ordinate, draw_ordinates, longest, pitch
from nesting.drawings.record import Drawing, Layer, Line, Shape, bounds_of
from nesting.drawings.sheet import Page, PaperSize, SheetNeed, SheetPlan, sheets_for
from nesting.drawings.strip import draw_strip
from nesting.drawings.terrain import datum_shapes
from nesting.shapes.geometry import Box, Polygon
from nesting.tape import explain_beside
from nesting.unitwords import WORDS
from nesting.values.job import Units

Figures = tuple[tuple[Shape, ...], ...]
"""The figures of a picture, row by row."""

_BESIDE = ("full: a little more", "scant: a little less")
_ON_WITNESS, _ON_ORNAMENT, _ON_RIM = 0.5, 12.0, 12.0


@dataclass(frozen=True, slots=True)
class Head:
    """What a picture is called, and the rows of its title strip but the one with the scale.

    ``name`` is that of its file, ``tells`` says in words what it shows. ``measures`` says where
    the scale bar has its full length.
    """

    name: str
    title: str
    tells: str
    units: Units
    cells: tuple[tuple[str, ...], ...]
    measures: str = "on the liner"


@dataclass(frozen=True, slots=True)
class Picture:
    """What must be on a sheet: the ``frame`` [steps], figures along x and y, a key.

    Of the ``keys``, the shortest first, the next is taken where something found no room on the
    drawing itself. ``arounds`` are what may be left free on all sides [mm], the least first;
    ``may_miss`` is how many names may have no place before larger paper is tried, and ``before``
    what is tried before the usual papers.
    """

    head: Head
    frame: Box
    keys: tuple[tuple[KeyRow, ...], ...]
    across: tuple[Ordinate, ...] = ()
    up: tuple[Ordinate, ...] = ()
    arounds: tuple[float, ...] = (0.0,)
    may_miss: int = 0
    before: tuple[PaperSize, ...] = ()


@dataclass(frozen=True, slots=True)
class Painted:
    """The layers between the sheet and the key; how many names found no place.

    ``unlisted`` counts what has no room here and stands in the next key.
    """

    layers: tuple[Layer, ...]
    unplaced: int = 0
    unlisted: int = 0


def compose(picture: Picture, paint: Callable[[SheetPlan, Figures], Painted]) -> Drawing:
    """Return the picture on the smallest paper where every name has a place, or the most have."""
    keys = [_explain_figures(picture, key) for key in picture.keys]
    for key in keys:
        best: tuple[SheetPlan, Painted] | None = None
        for sheet, figures in _sheets(picture, key):
            painted = paint(sheet, figures)
            if painted.unlisted and key is not keys[-1]:
                break
            if best is None or painted.unplaced <= best[1].unplaced:
                best = sheet, painted
            if painted.unplaced <= picture.may_miss:
                return _finish(picture, key, *best)
    assert best is not None  # the last key is never passed over
    return _finish(picture, key, *best)


def lay_out(
    head: Head, page: Page, layers: Iterable[Layer], key: Sequence[Shape] = (), figures: str = ""
) -> Drawing:
    """Return a page with its frame, the layers, the key, and the title strip, which ends a sheet.

    A page in a scale has one row more in its strip: scale and bar, and what figures are in.
    """
    view, cells = None, head.cells
    if isinstance(page, SheetPlan):
        view = page.view
        cells = (*cells, (page.scale_words, figures) if figures else (page.scale_words,))
    strip = draw_strip(page.strip, cells, view, head.units, head.measures)
    return Drawing(
        head.name,
        page.width,
        page.height,
        head.title,
        head.tells,
        (
            Layer("sheet", page.shapes),
            *layers,
            *([Layer("key", tuple(key))] if key else []),
            Layer("strip", strip),
        ),
    )


def start_names(
    sheet: SheetPlan,
    figures: Figures,
    outline: Polygon,
    shapes: Iterable[Polygon],
    spare: float,
    marks: tuple[str, ...] = (),
) -> PlacedNames:
    """Return names yet to be placed, kept clear of figures and the datum, off rim and shapes."""
    taken = Taken()
    taken.take(bounds_of(datum_shapes(sheet.view)))
    for row in figures:
        witnesses = [line for line in row if isinstance(line, Line) and line.style == "witness"]
        taken.take(bounds_of(shape for shape in row if shape not in witnesses))
        for line in witnesses:
            taken.draw(line.points, _ON_WITNESS)
    for polygon, cost in (*((each, _ON_ORNAMENT) for each in shapes), (outline, _ON_RIM)):
        for ring in sheet.view.rings(polygon):
            taken.draw((*ring, ring[0]), cost)
    return PlacedNames(sheet.ground.grown(-1.0), taken, spare, marks)


def measured(sheet: SheetPlan, figures: Figures) -> Layer:
    """Return the layer of the figures and the datum."""
    return Layer("dimensions", (*chain(*figures), *datum_shapes(sheet.view)))


def _explain_figures(picture: Picture, key: Sequence[KeyRow]) -> tuple[KeyRow, ...]:
    """Return the key with what full and scant mean under its figures, where any figure has them."""
    words = "; ".join(each.words for each in (*picture.across, *picture.up))
    if not explain_beside(words):
        return tuple(key)
    marks = [at for at, row in enumerate(key, 1) if row.swatch in ("bold", "regular")]
    at = marks[-1] if marks else len(key)
    return (*key[:at], *(KeyRow((each,), "blank") for each in _BESIDE), *key[at:])


def _sheets(picture: Picture, key: Sequence[KeyRow]) -> Iterator[tuple[SheetPlan, Figures]]:
    """Yield each paper that holds the picture with its figures, the smallest first."""
    across, up = picture.across, picture.up
    need = SheetNeed(
        picture.frame,
        rows_width(key),
        column_lines(key),
        len(across),
        len(up),
        (longest(across), longest(up)),
        (longest(across), longest(up)),
        pitch((*across, *up)),
    )
    for sheet in sheets_for(need, picture.head.units, picture.arounds, picture.before):
        yield sheet, draw_ordinates(sheet, picture.frame, across, up)


def _finish(picture: Picture, key: Sequence[KeyRow], sheet: SheetPlan, painted: Painted) -> Drawing:
    figures = ""
    if picture.across:
        figures = f"Figures in {WORDS[picture.head.units].figures}"
    shapes = draw_key(sheet.key, sheet.key_columns, key)
    return lay_out(picture.head, sheet, painted.layers, shapes, figures)
