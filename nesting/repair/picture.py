"""The drawing to mend a liner by: what is made plain and which ornaments go, from the datum corner.

Nothing is decided here.
"""

from collections.abc import Iterator, Sequence

from nesting.drawings.figures import length_figure, size_figure
from nesting.drawings.key import KeyRow, Swatch, explain, heading, rows_width
from nesting.drawings.legend import KEEP_CLEAR, liner_rows
from nesting.drawings.plainground import Spots, draw_ground
from nesting.drawings.record import Drawing
from nesting.repair.patch import Patch
from nesting.shapes.geometry import Polygon
from nesting.values.job import Job
from nesting.values.names import patch_name

_MEANINGS: dict[Swatch, str] = {
    "masked": "Make plain: grind off or fill",
    "zone": "Plain already",
    "ornament": "Ornament",
    "keep_clear": KEEP_CLEAR,
    "rim": "Rim of the liner",
    "datum": "Datum corner 0,0",
    "bold": "Side of what is made plain",
    "regular": "Rim",
}


def draw_repair(job: Job, patches: Sequence[Patch]) -> Drawing:
    """Return the liner as it is, hatched where it must change, each piece named and measured."""
    frame = job.liner.outline.bounds
    size = size_figure(frame.width, frame.height, job)
    ground = [(patch, part) for patch in patches for part in patch.ground]
    named = [(patch_name(number), *each) for number, each in enumerate(ground, 1)]
    marks = ", ".join(patch.mark for patch in patches)
    return draw_ground(
        job,
        Spots(
            "repair",
            f"Liner {job.liner.name}: what is to be made plain",
            f"Liner {job.liner.name}, {size}, mended for {marks}.",
            tuple((name, part.bounds) for name, _, part in named),
            tuple(_key_rows(job, named)),
            (
                (f"Liner {job.liner.name}, kept", "What is to be made plain"),
                (f"{size} {job.units}", f"for {marks}"),
            ),
            tuple(part for _, part in ground),
        ),
    )


def _key_rows(job: Job, named: Sequence[tuple[str, Patch, Polygon]]) -> Iterator[KeyRow]:
    legend = liner_rows(job.liner, _MEANINGS)
    width = rows_width(legend)
    yield from legend
    yield heading(f"Make plain, from to, {job.units}")
    for name, patch, part in named:
        x0, y0, x1, y1 = (length_figure(at, job) for at in part.bounds)
        gone = [
            each.name
            for each in job.liner.ornaments
            if each.name in patch.removed and part.bounds.contains(each.outline.bounds)
        ]
        words = f"{name}: x {x0} to {x1}, y {y0} to {y1}; for {patch.mark}"
        words += "".join(f"; {each} goes" for each in gone)
        yield from explain(words, width)
