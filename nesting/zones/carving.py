"""The drawing to carve from: the new liner with its plain strips, measured from the datum corner.

Nothing is decided here: widths and uses are those of the answer.
"""

from collections.abc import Iterator, Sequence

from nesting.drawings.figures import length_figure, size_figure
from nesting.drawings.key import KeyRow, Swatch, explain, heading, rows_width
from nesting.drawings.legend import liner_rows
from nesting.drawings.plainground import Spots, draw_ground, list_ornaments
from nesting.drawings.record import Drawing
from nesting.files.columns import count_of
from nesting.shapes.geometry import Box
from nesting.values.job import Job
from nesting.zones.trade import Offer
from nesting.zones.uses import Use

_MEANINGS: dict[Swatch, str] = {
    "zone": "Plain ground: carve nothing",
    "ornament": "Ornament",
    "rim": "Rim of the liner",
    "datum": "Datum corner 0,0",
    "bold": "Side of a plain strip",
    "regular": "Rim",
}


def draw_carving(offer: Offer, uses: Sequence[Use]) -> Drawing:
    """Return the new liner with each strip's sides, and in the key what each is for."""
    job, zoning = offer.zoning.job, offer.zoning
    size = size_figure(*zoning.size, job)
    strips = count_of(len(uses), "plain strip")
    cells = (
        (job.title, "Where it stays plain"),
        (
            f"Liner {job.liner.name}, {size} {job.units}",
            f"{count_of(zoning.strips_used, 'strip')}, {count_of(offer.casts, 'cast')}",
        ),
    )
    return draw_ground(
        job,
        Spots(
            "carving",
            f"{job.title}: where it stays plain",
            f"Liner {job.liner.name}, {size}, with {strips}.",
            tuple((use.name, _box(job, use)) for use in uses),
            tuple(_key_rows(job, uses)),
            cells,
        ),
    )


def _box(job: Job, use: Use) -> Box:
    frame = job.liner.outline.bounds
    if use.axis == "x":
        return Box(use.low, 0, use.high, frame.y1)
    return Box(0, use.low, frame.x1, use.high)


def _key_rows(job: Job, uses: Sequence[Use]) -> Iterator[KeyRow]:
    legend = liner_rows(job.liner, _MEANINGS)
    width = rows_width(legend)
    yield from legend
    yield heading(f"Plain strips, from to, {job.units}")
    for use in uses:
        low, high = length_figure(use.low, job), length_figure(use.high, job)
        wide = length_figure(use.high - use.low, job)
        words = f"{use.name}: {use.axis} {low} to {high}, {wide} wide; {_tell_why(use)}"
        yield from explain(words, width)
    yield from list_ornaments(job, width)


def _tell_why(use: Use) -> str:
    if use.gives:
        return f"gives {', '.join(use.gives)}"
    twin = f"as wide as {use.as_wide_as}" if use.as_wide_as else ""
    held = f"dams of {', '.join(use.holds)}" if use.holds else ""
    return ", ".join(part for part in (twin, held) if part) or "no size is lost without it alone"
