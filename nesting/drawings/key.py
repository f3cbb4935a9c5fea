"""The key of a picture: rows of swatches with their meaning, headings, lists and notes."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from math import ceil, floor
from typing import Literal, get_args

from nesting.drawings.lettering import words_width, wrap
from nesting.drawings.record import Area, AreaStyle, Line, LineStyle, Rect, Shape, Text
from nesting.drawings.sheet import PAD, ROW_PITCH
from nesting.drawings.terrain import quarter_disc

HEIGHT = 2.5
"""The height of a key's words [mm]."""
MOST_WIDTH = 88.0
_SWATCH_WIDTH, _SWATCH_HEIGHT, _GAP = 11.0, 3.2, 2.5
_BESIDE = _SWATCH_WIDTH + _GAP
_LEAST_WIDTH = 70.0
_MOST_COLUMNS = 8
_SLIP = 1e-6

Painter = Callable[[Rect], Iterable[Shape]]
Swatch = AreaStyle | LineStyle | Literal["bold", "regular", "blank", ""] | Painter
"""The style a row explains, or what draws it; "bold" and "regular" are figures, "blank" indents."""


@dataclass(frozen=True, slots=True)
class KeyRow:
    """One row of the key: a swatch and its meaning, a heading, or words in even cells.

    A row that ``goes_on`` continues the words above it.
    """

    cells: tuple[str, ...]
    swatch: Swatch = ""
    is_heading: bool = False
    goes_on: bool = False

    @property
    def width(self) -> float:
        """The room the row takes [mm]."""
        if self.swatch:
            return _BESIDE + words_width(self.cells[0], HEIGHT)
        return max(words_width(cell, HEIGHT, bold=self.is_heading) for cell in self.cells)


def heading(words: str) -> KeyRow:
    """Return a row that heads those after it."""
    return KeyRow((words,), is_heading=True)


def explain(words: str, width: float, swatch: Swatch = "") -> Iterator[KeyRow]:
    """Yield words in rows of that width [mm], the first one beside the swatch if there is one."""
    first, *rest = wrap(words, width - (_BESIDE if swatch else 0), HEIGHT)
    yield KeyRow((first,), swatch)
    yield from (KeyRow((line,), "blank" if swatch else "", goes_on=True) for line in rest)


def list_notes(notes: Iterable[str], width: float) -> list[KeyRow]:
    """Return a heading and the notes in rows of that width [mm]; nothing for no notes."""
    rows = [row for note in notes for row in explain(note, width)]
    return [heading("Notes"), *rows] if rows else []


def table(words: str, entries: Iterable[str], width: float) -> list[KeyRow]:
    """Return a heading and the entries, as many to a row as fit; nothing for no entries."""
    cells = list(entries)
    if not cells:
        return []
    widest = max(words_width(cell, HEIGHT) for cell in cells)
    per_row = max(1, int((width + _GAP) // (widest + _GAP)))
    cells += [""] * (-len(cells) % per_row)
    rows = [tuple(cells[index : index + per_row]) for index in range(0, len(cells), per_row)]
    return [heading(words), *(KeyRow(row) for row in rows)]


def rows_width(rows: Iterable[KeyRow]) -> float:
    """Return the width of a column that holds the rows [mm]."""
    return min(max(_LEAST_WIDTH, *(row.width for row in rows)), MOST_WIDTH)


def column_lines(rows: Sequence[KeyRow]) -> tuple[int, ...]:
    """Return how many lines the rows take in one column, in two, ... up to the most."""
    return tuple(lines_needed(rows, columns) for columns in range(1, _MOST_COLUMNS + 1))


def lines_needed(rows: Sequence[KeyRow], columns: int) -> int:
    """Return the least length of so many columns that hold the rows, kept with what they head."""
    return next(
        length
        for length in count(ceil(len(rows) / columns))
        if _flow(rows, length)[-1][0] < columns
    )


def divide_foot(above: Rect, rows: Sequence[KeyRow]) -> tuple[int, Rect]:
    """Return columns and ground of a key as low as it can be along the foot of the ground."""
    columns = floor((above.width - PAD) / (rows_width(rows) + PAD))
    return columns, above._replace(y1=above.y0 + 2 * PAD + ROW_PITCH * lines_needed(rows, columns))


def draw_key(ground: Rect, columns: int, rows: Sequence[KeyRow]) -> tuple[Shape, ...]:
    """Return the rows, column by column from the left, each column from above."""
    length = int((ground.height - 2 * PAD + _SLIP) // ROW_PITCH)
    width = (ground.width - PAD) / columns
    shapes: list[Shape] = [Line((*ground.ring, ground.ring[0]), "rule")]
    for row, (column, line) in zip(rows, _flow(rows, length), strict=True):
        x = ground.x0 + PAD + column * width
        y = ground.y1 - PAD - (line + 1) * ROW_PITCH
        shapes += _draw_row(row, Rect(x, y, x + width - PAD, y + ROW_PITCH))
    return tuple(shapes)


def _flow(rows: Sequence[KeyRow], length: int) -> list[tuple[int, int]]:
    """Return the column and line of each row.

    A heading never ends a column, and words that go on are parted only where no column holds them.
    """
    places: list[tuple[int, int]] = []
    column, line = 0, 0
    for together in _kept_together(rows):
        if line and line + min(together, length) > length:
            column, line = column + 1, 0
        places.append((column, line))
        line += 1
    return places


def _kept_together(rows: Sequence[KeyRow]) -> list[int]:
    """Return for each row how many stay together from it on: its words, and what it heads."""
    counts, more = [1] * len(rows), 0
    for at in reversed(range(len(rows))):
        if rows[at].goes_on:
            more += 1
            continue
        counts[at] += more
        if rows[at].is_heading and at + counts[at] < len(rows):
            counts[at] += counts[at + counts[at]]
        more = 0
    return counts


def _draw_row(row: KeyRow, room: Rect) -> list[Shape]:
    base = room.y0 + (ROW_PITCH - HEIGHT) / 2
    if row.swatch:
        inset = (_SWATCH_HEIGHT - ROW_PITCH) / 2
        place = Rect(room.x0, room.y0 - inset, room.x0 + _SWATCH_WIDTH, room.y1 + inset)
        words = Text(room.x0 + _BESIDE, base, row.cells[0], HEIGHT)
        return [*_draw_swatch(row.swatch, place, base), words]
    style: Literal["bold", "plain"] = "bold" if row.is_heading else "plain"
    share = room.width / len(row.cells)
    return [
        Text(room.x0 + index * share, base, words, HEIGHT, style)
        for index, words in enumerate(row.cells)
        if words
    ]


def _draw_swatch(swatch: Swatch, place: Rect, base: float) -> list[Shape]:
    if callable(swatch):
        return list(swatch(place))
    middle = place.centre[1]
    if swatch in ("bold", "regular"):
        return [Text(place.x0, base, "123", HEIGHT, "bold" if swatch == "bold" else "plain")]
    if swatch == "datum":
        return [quarter_disc((place.centre[0] + 2.3, place.y1), _SWATCH_HEIGHT)]
    if swatch in ("dam", "meeting"):
        place = Rect(place.x0, middle - 1.2, place.x1, middle + 1.2)
    if swatch == "meeting":
        x = place.centre[0]
        return [Area((place.ring,), "dam"), Line(((x, place.y0), (x, place.y1)), "meeting")]
    if swatch in get_args(AreaStyle):
        rim = [Line((*place.ring, place.ring[0]), "zone")] if swatch in ("zone", "plain") else []
        return [Area((place.ring,), swatch), *rim]  # type: ignore[arg-type]
    if swatch in get_args(LineStyle):
        return [Line(((place.x0, middle), (place.x1, middle)), swatch)]  # type: ignore[arg-type]
    return []
