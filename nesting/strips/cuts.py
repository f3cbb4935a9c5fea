"""The cut plan: from which lengths of stock the strips are cut, strips of one section together."""

from collections import defaultdict, deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from nesting.errors import InputError
from nesting.ordering.cutting import cut_stock
from nesting.ordering.stock import CutPlan, Cutting
from nesting.search.solver import Deadline
from nesting.strips.reuse import Strip, StripList
from nesting.values.job import Job
from nesting.values.names import call_dam


@dataclass(frozen=True, slots=True)
class StockCut:
    """One length of stock [steps], the numbers of the strips cut from it, and what is left."""

    stock: int
    strips: tuple[int, ...]
    left: int


@dataclass(frozen=True, slots=True)
class SectionCuts:
    """The plan for the strips of one width and height [steps], with what is proved of it.

    ``cutting`` is the same in whole numbers, the longest strip first.
    """

    width: int
    height: int
    strips: tuple[Strip, ...]
    cuts: tuple[StockCut, ...]
    cutting: Cutting
    plan: CutPlan

    @property
    def proved(self) -> bool:
        """Whether fewer lengths are impossible, and less in total with as many."""
        return (self.plan.used, self.plan.length) == (self.plan.bound, self.plan.length_bound)


def plan_cuts(job: Job, listed: StripList, deadline: Deadline) -> tuple[SectionCuts, ...]:
    """Return a plan for each width and height of strips; none where the job names no stock.

    Raises
    ------
    InputError
        Where a strip is longer than every length of stock.
    """
    if not job.dams.stock:
        return ()
    sections: dict[tuple[int, int], list[Strip]] = defaultdict(list)
    for strip in listed.strips:
        if strip.piece.is_strip:
            _refuse_long(job, listed, strip)
            sections[strip.piece.width, strip.piece.height].append(strip)
    waiting = range(len(sections), 0, -1)
    return tuple(
        _plan_section(job, *section, strips, deadline.within(deadline.left / share))
        for share, (section, strips) in zip(waiting, sorted(sections.items()), strict=True)
    )


def _plan_section(
    job: Job, width: int, height: int, strips: Sequence[Strip], deadline: Deadline
) -> SectionCuts:
    lengths = sorted({strip.piece.length for strip in strips}, reverse=True)
    waiting = {
        length: deque(strip.number for strip in strips if strip.piece.length == length)
        for length in lengths
    }
    counts = tuple(len(waiting[length]) for length in lengths)
    cutting = Cutting(job.dams.stock, tuple(lengths), counts, job.dams.kerf)
    plan = cut_stock(cutting, deadline)
    cuts = tuple(_cuts(cutting, plan, waiting))
    return SectionCuts(width, height, tuple(strips), cuts, cutting, plan)


def _cuts(cutting: Cutting, plan: CutPlan, waiting: dict[int, deque[int]]) -> Iterator[StockCut]:
    """Yield every length of stock with its strips by number, the longest strip first."""
    for stock, pattern, times in plan.cuts:
        left = max(0, stock - cutting.strips.size_of(pattern))
        for _ in range(times):
            strips = [
                waiting[length].popleft()
                for length, count in zip(cutting.lengths, pattern, strict=True)
                for _ in range(count)
            ]
            yield StockCut(stock, tuple(strips), left)


def _refuse_long(job: Job, listed: StripList, strip: Strip) -> None:
    longest = job.dams.stock[-1]
    if strip.piece.length <= longest:
        return
    place, dam = strip.uses[0]
    layout = listed.layings[place].after.layout.number
    raise InputError(
        "dams.stock",
        f"must hold a length for every strip; the longest is {job.tape.words(longest)}",
        f"{call_dam(dam.name)} of layout {layout}, {job.tape.words(strip.piece.length)} long",
        "give a longer stock, or order panels that need no dam as long",
    )
