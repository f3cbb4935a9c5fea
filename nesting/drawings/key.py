"""The key beside a drawing: what each mark means, the dams to cut, and notes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import count
from math import ceil
from typing import Literal

from nesting.drawings.figures import size_figure
from nesting.drawings.lettering import shorten, words_width, wrap
from nesting.drawings.record import Area, Line, Rect, Shape, Text
from nesting.drawings.sheet import PAD, ROW_PITCH, SheetPlan
from nesting.drawings.terrain import has_joints, quarter_disc
from nesting.values.casts import Layout
from nesting.values.job import Job

HEIGHT = 3.5
_SWATCH_WIDTH, _SWATCH_HEIGHT, _GAP = 14.0, 4.2, 3.0
_LEAST_WIDTH, _MOST_WIDTH = 96.0, 120.0
_SLIP = 1e-6

Swatch = Literal[
    "panel",
    "dam",
    "joint",
    "masked",
    "ornament",
    "zone",
    "edge_side",
    "rim",
    "datum",
    "ignored",
    "keep_clear",
    "bold",
    "plain",
    "place",
    "",
]

KEEP_CLEAR = "Place that dams keep off"
"""What the mark of a keep-clear place means."""

_MEANINGS: dict[Swatch, str] = {
    "panel": "Panel: mark, flat size",
    "dam": "Dam, name in a frame",
    "masked": "Masked, not sprayed",
    "ornament": "Ornament",
    "zone": "Blank zone",
    "keep_clear": KEEP_CLEAR,
    "joint": "Joint of two dams",
    "edge_side": "Edge side: rim, no dam",
    "rim": "Rim of the liner",
    "datum": "Datum corner 0,0",
    "bold": "Panel edge",
    "plain": "Other dam face, rim",
    "place": "Places of its lower left corner",
}


@dataclass(frozen=True, slots=True)
class KeyRow:
    """One row of the key: a swatch and its meaning, a heading, or words in even cells."""

    cells: tuple[str, ...]
    swatch: Swatch = ""
    is_heading: bool = False

    @property
    def width(self) -> float:
        """The room the row takes [mm]."""
        if self.swatch:
            return _SWATCH_WIDTH + _GAP + words_width(self.cells[0], HEIGHT)
        return max(words_width(cell, HEIGHT, bold=self.is_heading) for cell in self.cells)


def key_rows(
    job: Job,
    layout: Layout,
    notes: Iterable[str],
    *,
    list_panels: bool = False,
    list_places: bool = False,
) -> tuple[KeyRow, ...]:
    """Return the rows of a layout's key: marks used on this drawing, the dams, notes.

    ``list_panels`` adds the size of every panel, where the drawing has no room for some;
    ``list_places`` the mark of a panel's places.
    """
    meanings = {mark: words for mark, words in _MEANINGS.items() if mark != "place" or list_places}
    legend = legend_rows(job, [layout], meanings)
    dam_sizes = [
        (dam.name, size_figure(dam.length, min(dam.width, dam.height), job)) for dam in layout.dams
    ]
    panel_sizes = [
        (panel.mark, size_figure(panel.width, panel.height, job)) for panel in layout.panels
    ]
    width = _named_width([*dam_sizes, *panel_sizes], rows_width(legend))
    dams = [_entry(name, size, width) for name, size in dam_sizes]
    panels = dict.fromkeys(_entry(mark, size, width) for mark, size in panel_sizes)
    heading = "Dams to cut" if layout.same_dams_as is None else "Dams in place"
    return (
        *legend,
        *(_table(f"Panels, flat size, {job.units}", panels, width) if list_panels else ()),
        *_table(f"{heading}, {job.units}", dams, width),
        *_note_rows(notes, width),
    )


def legend_rows(
    job: Job, layouts: Sequence[Layout], meanings: Mapping[Swatch, str]
) -> tuple[KeyRow, ...]:
    """Return one row per mark that drawings of these layouts use, in the order of the meanings."""
    has_panels = any(each.panels for each in layouts)
    has_dams = any(each.dams for each in layouts)
    used: dict[Swatch, bool] = {
        "panel": has_panels,
        "dam": has_dams,
        "joint": any(has_joints(each) for each in layouts),
        "masked": any(each.areas.masked for each in layouts),
        "ornament": bool(job.liner.ornaments),
        "zone": bool(job.liner.zones),
        "keep_clear": bool(job.liner.keep_clear),
        "edge_side": any("edge" in panel.sides for each in layouts for panel in each.panels),
        "bold": has_panels and has_dams,
    }
    return tuple(KeyRow((words,), mark) for mark, words in meanings.items() if used.get(mark, True))


def rows_width(rows: Iterable[KeyRow]) -> float:
    """Return the width of a column that holds the rows [mm]."""
    return min(max(_LEAST_WIDTH, *(row.width for row in rows)), _MOST_WIDTH)


def lines_needed(rows: Sequence[KeyRow], columns: int) -> int:
    """Return the least length of so many columns that hold the rows, headings kept with theirs."""
    return next(
        length
        for length in count(ceil(len(rows) / columns))
        if _flow(rows, length)[-1][0] < columns
    )


def draw_key(sheet: SheetPlan, rows: Sequence[KeyRow]) -> tuple[Shape, ...]:
    """Return the rows, column by column from the left, each column from above."""
    length = int((sheet.key.height - 2 * PAD + _SLIP) // ROW_PITCH)
    width = (sheet.key.width - PAD) / sheet.key_columns
    shapes: list[Shape] = [Line((*sheet.key.ring, sheet.key.ring[0]), "rule")]
    for row, (column, line) in zip(rows, _flow(rows, length), strict=True):
        x = sheet.key.x0 + PAD + column * width
        y = sheet.key.y1 - PAD - (line + 1) * ROW_PITCH
        shapes += _draw_row(row, Rect(x, y, x + width - PAD, y + ROW_PITCH))
    return tuple(shapes)


def _flow(rows: Sequence[KeyRow], length: int) -> list[tuple[int, int]]:
    """Return the column and line of each row; a heading never ends a column."""
    places: list[tuple[int, int]] = []
    column, line = 0, 0
    for row in rows:
        if line >= length - row.is_heading and line:
            column, line = column + 1, 0
        places.append((column, line))
        line += 1
    return places


def _table(heading: str, entries: Iterable[str], width: float) -> list[KeyRow]:
    """Return a heading and the entries, as many to a row as fit; nothing for no entries."""
    cells = list(entries)
    if not cells:
        return []
    widest = max(words_width(cell, HEIGHT) for cell in cells)
    per_row = max(1, int((width + _GAP) // (widest + _GAP)))
    cells += [""] * (-len(cells) % per_row)
    rows = [tuple(cells[index : index + per_row]) for index in range(0, len(cells), per_row)]
    return [KeyRow((heading,), is_heading=True), *(KeyRow(row) for row in rows)]


def _named_width(sizes: Iterable[tuple[str, str]], width: float) -> float:
    """Return the width, or the greatest where some size would leave its name no room at all."""
    has_room = all(_entry(name, size, width)[0] != ":" for name, size in sizes)
    return width if has_room else _MOST_WIDTH


def _entry(name: str, size: str, width: float) -> str:
    """Return a name and its size, the name shortened where both do not fit the width."""
    room = width - words_width(": " + size, HEIGHT)
    return f"{shorten(name, room, HEIGHT)}: {size}"


def _note_rows(notes: Iterable[str], width: float) -> list[KeyRow]:
    lines = [KeyRow((line,)) for note in notes for line in wrap(note, width, HEIGHT)]
    return [KeyRow(("Notes",), is_heading=True), *lines] if lines else []


def _draw_row(row: KeyRow, room: Rect) -> list[Shape]:
    base = room.y0 + (ROW_PITCH - HEIGHT) / 2
    if row.swatch:
        place = Rect(room.x0, room.y0, room.x0 + _SWATCH_WIDTH, room.y1).grown(
            (_SWATCH_HEIGHT - ROW_PITCH) / 2
        )
        place = Rect(room.x0, place.y0, room.x0 + _SWATCH_WIDTH, place.y1)
        words = Text(place.x1 + _GAP, base, row.cells[0], HEIGHT)
        return [*_draw_swatch(row.swatch, place, base), words]
    style: Literal["bold", "plain"] = "bold" if row.is_heading else "plain"
    share = room.width / len(row.cells)
    return [
        Text(room.x0 + index * share, base, words, HEIGHT, style)
        for index, words in enumerate(row.cells)
        if words
    ]


def _draw_swatch(swatch: Swatch, place: Rect, base: float) -> list[Shape]:
    middle = place.centre[1]
    if swatch in ("bold", "plain"):
        return [Text(place.x0, base, "123", HEIGHT, "bold" if swatch == "bold" else "plain")]
    if swatch == "datum":
        return [quarter_disc((place.centre[0] + 2.3, place.y1), _SWATCH_HEIGHT)]
    if swatch == "edge_side":
        return [Line(((place.x0, middle), (place.x1, middle)), "edge_side")]
    if swatch == "rim":
        return [Line(((place.x0, middle), (place.x1, middle)), "rim")]
    if swatch in ("ignored", "keep_clear"):
        return [Line(((place.x0, middle), (place.x1, middle)), swatch)]
    if swatch in ("dam", "joint"):
        place = Rect(place.x0, middle - 1.2, place.x1, middle + 1.2)
    if swatch == "joint":
        x = place.centre[0]
        return [Area((place.ring,), "dam"), Line(((x, place.y0), (x, place.y1)), "joint")]
    shapes: list[Shape] = [Area((place.ring,), swatch)]  # type: ignore[arg-type]
    if swatch == "zone":
        shapes.append(Line((*place.ring, place.ring[0]), "zone"))
    return shapes
