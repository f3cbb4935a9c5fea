"""The title strip along the foot of a sheet, with its scale bar."""

from collections.abc import Sequence
from fractions import Fraction

from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.record import Area, Line, Rect, Shape, Text, TextStyle, bounds_of
from nesting.drawings.view import View
from nesting.units import MM_PER_INCH, decimal_text
from nesting.values.job import Units

_PAD = 3.0
_BARS: dict[Units, tuple[int, int]] = {"mm": (50, 5), "in": (2, 4)}
"""The length of a scale bar on paper in the units, and its number of parts."""
_HEIGHTS: tuple[tuple[float, TextStyle], ...] = ((5.0, "bold"), (3.5, "plain"), (2.5, "plain"))


def draw_strip(
    strip: Rect,
    rows: Sequence[Sequence[str]],
    view: View | None,
    units: Units,
    what: str = "on the liner",
) -> tuple[Shape, ...]:
    """Return the strip: rows of cells from above, the first rows larger, the bar ending the last.

    Cells are as wide as their words and the first takes what is left; where all do not fit, the
    widest are shortened. Rows are as high as their letters ask. ``what`` says where the bar has
    its full length; without a view there is none.
    """
    shapes: list[Shape] = [Line((*strip.ring, strip.ring[0]), "frame")]
    letters = [_HEIGHTS[min(index, len(_HEIGHTS) - 1)] for index in range(len(rows))]
    share = strip.height / sum(height for height, _ in letters)
    top = strip.y1
    for index, (cells, letter) in enumerate(zip(rows, letters, strict=True)):
        row = strip._replace(y0=top - share * letter[0], y1=top)
        top = row.y0
        if index:
            shapes.append(Line(((row.x0, row.y1), (row.x1, row.y1)), "rule"))
        if view is not None and index == len(rows) - 1:
            bar = _draw_bar(row, view, units, what)
            shapes += bar
            row = row._replace(x1=bounds_of(bar).x0 - _PAD)
            shapes.append(Line(((row.x1, row.y0), (row.x1, row.y1)), "rule"))
        shapes += _draw_cells(row, cells, *letter)
    return tuple(shapes)


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
    length, parts = _BARS[units]
    per_unit = MM_PER_INCH if units == "in" else Fraction(1)
    words = f"{length} {units} on paper, {_true_length(length * view.scale, units)} {units} {what}"
    height = _HEIGHTS[-1][0]
    x1 = row.x1 - _PAD - words_width(words, height) - _PAD
    part = float(length * per_unit) / parts
    x0 = x1 - part * parts
    y0, y1 = row.y0 + row.height / 2 - 1.5, row.y0 + row.height / 2 + 1.5
    shapes: list[Shape] = [
        Area(
            (Rect(x0 + index * part, y0, x0 + (index + 1) * part, y1).ring,),
            "gap" if index % 2 else "bar",
        )
        for index in range(parts)
    ]
    return [*shapes, Text(x1 + _PAD, row.y0 + (row.height - height) / 2, words, height)]


def _true_length(length: Fraction, units: Units) -> str:
    """Return a length as written; of inches with a half where there is one.

    >>> _true_length(Fraction(33, 2), "in"), _true_length(Fraction(415), "mm")
    ('16 1/2', '415')
    """
    whole, half = divmod(length, 1)
    return f"{whole} {half}" if units == "in" and half else decimal_text(length, 2)
