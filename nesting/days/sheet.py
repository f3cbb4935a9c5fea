"""How the sheet of a calendar is divided: bands of days from above, the key, the title strip."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate
from math import ceil

from nesting.drawings.key import KeyRow, divide_foot
from nesting.drawings.record import Rect
from nesting.drawings.sheet import MARGIN, PAD, PAPERS, Page
from nesting.values.job import Units

_LEAST_DAY, _MOST_DAY = 11.0, 26.0
_LEAST_ROW, _MOST_ROW, _HEAD, _LANE, _GAP = 10.0, 18.0, 16.0, 5.6, 5.0


@dataclass(frozen=True, slots=True)
class ChartSheet(Page):
    """A page divided: ``bands`` are ranges of days, ``edges`` where each day's column ends.

    ``edges`` has one entry more than there are days, counted from the band's left at its first day.
    """

    left: float
    first: float
    day: float
    bands: tuple[range, ...]
    edges: tuple[float, ...]
    rows: int
    row_height: float
    lanes: int
    key: Rect
    key_columns: int

    @property
    def band_height(self) -> float:
        """How much height a band takes [mm]."""
        return _HEAD + self.lanes * _LANE + self.rows * self.row_height + _GAP

    def head(self, band: int) -> float:
        """Return the top of a band."""
        return self.inside.y1 - PAD - band * self.band_height

    def grid(self, band: int) -> Rect:
        """Return the ground of a band's days and rows."""
        top = self.head(band) - _HEAD - self.lanes * _LANE
        days = self.bands[band]
        return Rect(self.first, top - self.rows * self.row_height, self.column(days[-1])[1], top)

    def column(self, day: int) -> tuple[float, float]:
        """Return left and right of a day's column, in the band it belongs to."""
        band = next(days for days in self.bands if day in days)
        base = self.first - self.day * self.edges[band.start]
        return base + self.day * self.edges[day], base + self.day * self.edges[day + 1]

    def row(self, band: int, row: int) -> tuple[float, float]:
        """Return bottom and top of a row."""
        top = self.grid(band).y1 - row * self.row_height
        return top - self.row_height, top

    def lane(self, band: int, lane: int) -> float:
        """Return the base line of a line of due dates."""
        return self.grid(band).y1 + 1.7 + lane * _LANE


def divide_sheet(
    units: Units,
    weights: Sequence[float],
    *,
    rows: int,
    lanes: int,
    label: float,
    key: Sequence[KeyRow],
) -> ChartSheet:
    """Return the smallest paper that holds the chart in the fewest bands; else one cut to measure.

    Parameters
    ----------
    units
        Those of the job, which tell the family of papers.
    weights
        How wide each day is, a working day being 1.
    rows, lanes
        How many rows the chart has, and lines of due dates over each band.
    label
        The width of the rows' names [mm].
    key
        The rows of the key, which lies along the foot.
    """
    edges = (0.0, *accumulate(weights))
    for paper, width, height in PAPERS[units]:
        for bands, day in _ways(edges, width - 2 * MARGIN - label - 2 * PAD):
            low = _fill(Page(paper, width, height), bands, day, edges, rows, lanes, label, key)
            spare = low.grid(len(bands) - 1).y0 - low.key.y1 - PAD
            if spare >= 0:
                taller = min(_MOST_ROW, _LEAST_ROW + spare / (rows * len(bands)))
                return replace(low, row_height=taller)
    page = Page("a sheet cut to measure", width, height - spare)
    return _fill(page, bands, day, edges, rows, lanes, label, key)


def _ways(edges: tuple[float, ...], room: float) -> Iterator[tuple[tuple[range, ...], float]]:
    """Yield the days in the fewest bands the room allows, and the width of a day."""
    count = max(1, ceil(edges[-1] * _LEAST_DAY / room))
    while True:
        share = edges[-1] / count
        starts = [
            next(n for n, edge in enumerate(edges) if edge >= band * share - 1e-9)
            for band in range(count)
        ]
        bands = tuple(
            range(a, b) for a, b in zip(starts, [*starts[1:], len(edges) - 1], strict=True) if a < b
        )
        day = room / max(edges[band.stop] - edges[band.start] for band in bands)
        if day >= _LEAST_DAY or count > len(edges):
            yield bands, min(day, _MOST_DAY)
            return
        count += 1


def _fill(
    page: Page,
    bands: tuple[range, ...],
    day: float,
    edges: tuple[float, ...],
    rows: int,
    lanes: int,
    label: float,
    key: Sequence[KeyRow],
) -> ChartSheet:
    columns, ground = divide_foot(page.above, key)
    left = page.inside.x0 + PAD
    return ChartSheet(
        page.paper,
        page.width,
        page.height,
        left,
        left + label,
        day,
        bands,
        edges,
        rows,
        _LEAST_ROW,
        lanes,
        ground,
        columns,
    )
