"""The named tolerance classes an order uses, with their limits and where these are published."""

from nesting.files.columns import INDENT, wrap_text, write_table
from nesting.unitwords import WORDS
from nesting.values.job import Job
from nesting.values.panels import Panel
from nesting.values.tolerances import find_band

_HEAD = ["panel", "class", "width", "may differ by", "height", "may differ by"]
_METHOD = (
    "Sizes are judged on the exact numbers, without rounding them first (absolute method of "
    "ASTM E29)."
)


def list_tolerances(job: Job) -> list[str]:
    """Return the lines on tolerance classes: limits, sources, method; none where no panel has one.

    Limits given in the job itself are not listed: they are the user's own.
    """
    panels = [panel for panel in job.panels if panel.tolerance_class]
    if not panels:
        return []
    title = f"Tolerances by class, in {WORDS[job.units].lengths}:"
    rows = [_row(job, panel) for panel in panels]
    sources = dict.fromkeys(
        f"{panel.tolerance_class}: {find_band(panel.tolerance_class, length).source}."
        for panel in panels
        for length in (panel.width, panel.height)
    )
    table = write_table(_HEAD, rows, left=("panel", "class"))
    return [
        title,
        *table,
        *(line for text in (*sources, _METHOD) for line in wrap_text(text, INDENT)),
    ]


def _row(job: Job, panel: Panel) -> list[str]:
    cells = []
    for length, limits in zip((panel.width, panel.height), panel.limits, strict=True):
        low, high = map(job.tape.stated, limits)
        cells += [job.tape.stated(length), f"{low} to +{high}"]
    return [panel.mark, panel.tolerance_class, *cells]
