"""The title strip along the foot of a sheet, with its scale bar."""

from collections.abc import Sequence
from fractions import Fraction

from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.record import Area, Line, Rect, Shape, Text, TextStyle, bounds_of
from nesting.drawings.view import View
from nesting.tape import Tape
from nesting.units import MM_PER_INCH, to_steps
from nesting.values.job import Units

_PAD = 3.0
_LONGEST_BAR = 60.0
_BARS: dict[Units, tuple[tuple[int, int], ...]] = {
    "mm": tuple(
        (first * 10**power, parts)
        for power in range(5)
        for first, parts in ((1, 5), (2, 4), (5, 5))
    ),
    "in": (
        (1, 4), (2, 2), (3, 3), (6, 3), (12, 4), (24, 4), (36, 3), (48, 4), (60, 5), (120, 5),
        (240, 5), (480, 5), (960, 5),
    ),
}  # fmt: skip


def draw_strip(
    strip: Rect,
    rows: Sequence[Sequence[str]],
    view: View | None,
    units: Units,
    what: str = "on the liner",
) -> tuple[Shape, ...]:
    """Return the strip: rows of cells from above, the first row larger, the bar ending the last.

    Cells are as wide as their words and the first takes what is left; where all do not fit, the
    widest are shortened. ``what`` says where the bar has its full length; without a view there is
    none.
    """
    shapes: list[Shape] = [Line((*strip.ring, strip.ring[0]), "frame")]
    height = strip.height / len(rows)
    for index, cells in enumerate(rows):
        top = strip.y1 - index * height
        row = strip._replace(y0=top - height, y1=top)
        if index:
            shapes.append(Line(((row.x0, row.y1), (row.x1, row.y1)), "rule"))
        if view is not None and index == len(rows) - 1:
            bar = _draw_bar(row, view, units, what)
            shapes += bar
            row = row._replace(x1=bounds_of(bar).x0 - _PAD)
            shapes.append(Line(((row.x1, row.y0), (row.x1, row.y1)), "rule"))
        shapes += _draw_cells(row, cells, *((5.0, "bold") if index == 0 else (3.5, "plain")))
    return tuple(shapes)


def bar_length(view: View, units: Units) -> tuple[int, int]:
    """Return the length of the bar on the liner, in the units, and its number of parts."""
    per_unit = MM_PER_INCH if units == "in" else Fraction(1)
    fitting = [bar for bar in _BARS[units] if bar[0] * per_unit / view.scale <= _LONGEST_BAR]
    return fitting[-1] if fitting else _BARS[units][0]


def _draw_cells(row: Rect, cells: Sequence[str], height: float, style: TextStyle) -> list[Shape]:
    bold = style == "bold"
    widths = _shares(
        [words_width(words, height, bold=bold) + 2 * _PAD for words in cells], row.width
    )
    shapes: list[Shape] = []
    x, base = row.x0, row.y0 + (row.height - height) / 2
    for words, width in zip(cells, widths, strict=True):
        if x > row.x0:
            shapes.append(Line(((x, row.y0), (x, row.y1)), "rule"))
        fitting = shorten(words, width - 2 * _PAD, height, bold=bold)
        shapes.append(Text(x + _PAD, base, fitting, height, style))
        x += width
    return shapes


def _shares(wanted: Sequence[float], room: float) -> list[float]:
    """Return the widths wanted, the widest cut to one level where all do not fit the room.

    What is left over goes to the first.
    """
    widths, left = list(wanted), room
    by_width = sorted(range(len(wanted)), key=lambda index: wanted[index])
    for done, index in enumerate(by_width):
        widths[index] = min(wanted[index], left / (len(wanted) - done))
        left -= widths[index]
    return [widths[0] + left, *widths[1:]]


def _draw_bar(row: Rect, view: View, units: Units, what: str) -> list[Shape]:
    """Return the bar with its true length and that on paper, flush with the row's right end."""
    length, parts = bar_length(view, units)
    per_unit = MM_PER_INCH if units == "in" else Fraction(1)
    on_paper = length * per_unit / view.scale
    words = f"{length} {units} {what}, {_paper_length(on_paper, units)} on paper"
    x1 = row.x1 - _PAD - words_width(words, 3.5) - _PAD
    part = float(on_paper) / parts
    x0 = x1 - part * parts
    y0, y1 = row.y0 + row.height / 2 - 1.5, row.y0 + row.height / 2 + 1.5
    shapes: list[Shape] = [
        Area(
            (Rect(x0 + index * part, y0, x0 + (index + 1) * part, y1).ring,),
            "gap" if index % 2 else "bar",
        )
        for index in range(parts)
    ]
    return [*shapes, Text(x1 + _PAD, row.y0 + (row.height - 3.5) / 2, words, 3.5)]


def _paper_length(millimetres: Fraction, units: Units) -> str:
    return Tape(units).words(to_steps(millimetres))
