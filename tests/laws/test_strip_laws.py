"""What holds of every plan whose strips must be of widths the shop has.

Jobs are small, on a lattice of cells, with dams two cells wide, so that gaps of three cells are of
a width that a shop may or may not have. All casts there are then come from sets of cells and from
the rule as it is written, without the search.
"""

import random
from dataclasses import replace
from itertools import combinations

import pytest
from smalljobs import CELL, KINDS, MM, cells, places_by_rule, small_job

from nesting.checking.schedule import check_schedule
from nesting.planning.schedule import schedule_casts
from nesting.values.job import DamStock
from nesting.values.liner import Liner
from nesting.values.panels import Panel

pytestmark = pytest.mark.long

SHAPES = [
    small_job(kind, seed, width=16, height=12, sizes=3, most=2, dam=2)
    for kind in KINDS
    for seed in range(60, 64)
]


def open_job(seed):
    """Return a job on a plain liner, on which panels meet each other and the rim only."""
    job, pick = SHAPES[0], random.Random(seed)
    liner = Liner("plain", cells(0, 0, pick.randint(12, 15), pick.randint(8, 10)), 13 * MM, "blank")
    sizes = {(pick.randint(3, 7), pick.randint(3, 6)) for _ in range(3)}
    panels = tuple(
        Panel(f"P{n}", width * CELL, height * CELL, pick.randint(1, 3), "table")
        for n, (width, height) in enumerate(sorted(sizes), start=1)
    )
    return replace(job, title=f"open {seed}", liner=liner, panels=panels)


JOBS = [*SHAPES, *map(open_job, range(8))]
by_job = pytest.mark.parametrize("job", JOBS, ids=lambda job: job.title)


def with_widths(job, *widths, others=False):
    """Return the job with a list of widths [cells]."""
    dams = DamStock(tuple(width * CELL for width in widths))
    return replace(job, dams=dams, rules=replace(job.rules, other_widths=others))


def may_lie_together(one, other, filled):
    """Whether panels [cells] are one of those gaps apart along an axis, or two dams and more."""
    gaps = (
        max(other[axis] - one[axis] - one[2 + axis], one[axis] - other[axis] - other[2 + axis])
        for axis in (0, 1)
    )
    return any(gap in filled or gap >= 4 for gap in gaps)


def fewest_by_enumeration(job, filled):
    """Return the fewest casts, all sets of panels that may lie together gone through."""
    kinds = [(panel.width // CELL, panel.height // CELL) for panel in job.panels]
    spots = [
        (index, (x, y, *kinds[index]))
        for index, panel in enumerate(job.panels)
        for x, y in places_by_rule(job, panel)
    ]
    beside = [0] * len(spots)
    for (a, (_, one)), (b, (_, other)) in combinations(enumerate(spots), 2):
        if may_lie_together(one, other, filled):
            beside[a] |= 1 << b
    wanted = tuple(panel.quantity for panel in job.panels)
    yields, seen, stack = set(), set(), [((0,) * len(kinds), (1 << len(spots)) - 1)]
    while stack:
        counts, able = stack.pop()
        yields.add(counts)
        while able:
            spot = (able & -able).bit_length() - 1
            able &= able - 1
            kind = spots[spot][0]
            more = tuple(n + (k == kind) for k, n in enumerate(counts))
            state = more, able & beside[spot]
            if more[kind] <= wanted[kind] and state not in seen:
                seen.add(state)
                stack.append(state)
    casts, left = 0, {wanted}
    while (0,) * len(kinds) not in left:
        casts += 1
        left = {
            tuple(max(0, a - b) for a, b in zip(rest, made, strict=True))
            for rest in left
            for made in yields
        }
    return casts


@by_job
@pytest.mark.parametrize("widths", [(2,), (2, 3)], ids=str)
def test_the_search_finds_what_full_enumeration_finds(job, widths):
    """The fewest casts under the rule, proved; the checker agrees, and every strip is listed."""
    job = with_widths(job, *widths)
    schedule = schedule_casts(job)
    assert check_schedule(job, schedule) == ()
    assert schedule.casts == fewest_by_enumeration(job, widths)
    assert schedule.lower_bound == schedule.casts
    dams = [dam for layout in schedule.layouts for dam in layout.dams]
    assert all({dam.width, dam.height} & set(job.dam_widths) for dam in dams)


@by_job
def test_other_widths_never_cost_casts(job):
    """And what they would save is what the plan says of it, where that is known."""
    strict, free = (schedule_casts(with_widths(job, 2, others=others)) for others in (False, True))
    saved = strict.casts - free.casts
    assert saved >= 0
    assert free.notes == ()
    told = [note for note in strict.notes if note.startswith("With other_widths = true")]
    assert [f"would save {saved} cast" in note for note in told] == [True] * bool(saved)


def test_the_jobs_are_no_idle_ones():
    """Some need more casts with strips of one width, fewer again with a second width."""
    casts = [
        [schedule_casts(with_widths(job, *widths)).casts for widths in ((2,), (2, 3))]
        for job in JOBS[-8:]
    ]
    assert sum(one > two for one, two in casts) >= 1
