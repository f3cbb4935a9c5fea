"""The packet's pages on strips: what is cut from which stock, and a sheet for each re-set."""

from collections.abc import Iterator, Sequence

from nesting.packets.figure import crop
from nesting.packets.parts import Block, Figure, PacketTable, Section, Words, grid_of
from nesting.strips.plan import StripPlan
from nesting.strips.report import (
    NO_STOCK,
    cut_table,
    reset_table,
    sawn_table,
    strip_table,
    tell_cuts,
    tell_reset,
    write_result,
)
from nesting.strips.reuse import Reset
from nesting.strips.sheet import draw_reset
from nesting.tape import explain_beside
from nesting.values.job import Job

RESET_MARKS = (
    "Dark strips are laid now, grey ones stay, pale ones with a dashed rim moved or went; an arrow "
    "leads from here to there. The number of a strip is written on it when it is cut."
)


def list_strips(job: Job, plan: StripPlan, *, exact: bool = False) -> Section:
    """Return the page of the strip list and the cut plan."""
    blocks: list[Block] = [
        Words(write_result(plan), "strong"),
        grid_of(strip_table(job, plan, exact=exact)),
    ]
    if plan.sawn:
        blocks.append(grid_of(sawn_table(job, plan)))
    for section in plan.cuts:
        blocks += [grid_of(cut_table(job, section)), Words(tell_cuts(job, section))]
    if not plan.cuts:
        blocks.append(Words(NO_STOCK, "note"))
    return Section("strips", "Strips", (*blocks, *_explain(blocks)))


def list_resets(job: Job, plan: StripPlan) -> Iterator[Section]:
    """Yield a page for each re-set, in the order of the days."""
    for reset in plan.resets:
        yield _reset_page(job, plan, reset)


def _reset_page(job: Job, plan: StripPlan, reset: Reset) -> Section:
    figure = Figure(crop(draw_reset(job, plan, reset)))
    blocks: list[Block] = [
        Words(tell_reset(plan, reset), "strong"),
        Words(RESET_MARKS),
        figure,
        grid_of(reset_table(job, reset)),
    ]
    title = f"Re-set {reset.number} of {len(plan.resets)}"
    return Section(f"r{reset.number}", title, (*blocks, *_explain(blocks)), wide=figure.is_wide)


def _explain(blocks: Sequence[Block]) -> list[Words]:
    """Return what full and scant mean where a table has either."""
    rows = [row for block in blocks if isinstance(block, PacketTable) for row in block.rows]
    told = explain_beside("; ".join(cell for row in rows for cell in row.cells))
    return [Words(told, "note")] * bool(told)
