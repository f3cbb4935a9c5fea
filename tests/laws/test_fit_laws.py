"""What holds of every answer to a size, by brute force over a lattice of cells.

The lattice knows the rules only as sets of cells (tests/smalljobs.py) and shares nothing with the
position maps. Obstacles and sizes lie on cell edges, so a size has a place if and only if it has
one there, and no size of whole cells may lie nearer than the nearest size found.
"""

from dataclasses import replace
from functools import cache

import pytest
from longcases import leave_long
from smalljobs import CELL, places_by_rule, small_job

from nesting.checking.schedule import check_schedule
from nesting.fitting.answer import find_size, fit_size, seat_best
from nesting.fitting.nearest import make_finder
from nesting.maps.ground import survey
from nesting.planning.dams import account
from nesting.values.bend import bend_of
from nesting.values.casts import Layout, Schedule
from nesting.values.panels import Panel

pytestmark = pytest.mark.long

CASES = [("bands", 1), ("bands", 4), ("islands", 2), ("corner", 0), ("hole", 1)]
ACROSS, UP = range(2, 25, 5), range(2, 17, 4)


@cache
def job_and_ground(kind, seed):
    """Return a small job without order, and its ground."""
    job = replace(small_job(kind, seed), panels=())
    return job, survey(job.liner, job.rules)


def panel_of(width, height):
    """Return a panel given in cells."""
    return Panel("P", width * CELL, height * CELL, 1, "table")


@cache
def has_cell_place(kind, seed, width, height):
    """Whether a size in cells has a place by the lattice."""
    return bool(places_by_rule(job_and_ground(kind, seed)[0], panel_of(width, height)))


def sizes_in(low, high):
    """Return the whole-cell sizes of a box of sizes in cells, ends included."""
    (w0, h0), (w1, h1) = low, high
    return [(w, h) for w in range(w0, w1 + 1) for h in range(h0, h1 + 1)]


@pytest.mark.parametrize(("kind", "seed"), leave_long(CASES, ("bands", 4).__eq__))
def test_a_size_fits_if_and_only_if_the_lattice_has_a_place_for_it(kind, seed):
    """And then the checker finds no fault with the place chosen, its dams and its areas."""
    job, ground = job_and_ground(kind, seed)
    finder = make_finder(ground)
    fitting = 0
    for width in ACROSS:
        for height in UP:
            panel = panel_of(width, height)
            size = find_size(ground, panel, bend_of(job, "table"), finder)
            assert (size is not None) == has_cell_place(kind, seed, width, height)
            if size is None:
                continue
            fitting += 1
            seated = seat_best(ground, size)
            spot, dams = seated.placement, seated.dams
            layout = Layout(1, 1, "table", (spot,), dams, account(job.liner, [spot], dams))
            order = replace(job, panels=(panel,))
            assert check_schedule(order, Schedule(job.title, 0, (layout,))) == ()
    assert fitting


@pytest.mark.parametrize(("kind", "seed"), leave_long(CASES, ("bands", 4).__eq__))
def test_no_whole_cell_size_lies_nearer_than_the_nearest_found(kind, seed):
    """Neither by one side alone nor by both, smaller or larger."""
    job, ground = job_and_ground(kind, seed)
    finder = make_finder(ground)
    for width, height in [(w, h) for w in ACROSS[1::2] for h in UP[1::2]]:
        panel = panel_of(width, height)
        found = fit_size(ground, panel, bend_of(job, "table"), finder=finder, mend=False).nearest
        if found is None:
            continue
        assert found.proved
        for near, sign in ((found.smaller, -1), (found.larger, 1)):
            by = (
                30 * CELL
                if near is None
                else max(abs(near[0] - width * CELL), abs(near[1] - height * CELL))
            )
            reach = -(-by // CELL) - 1  # strictly nearer
            low = (max(2, width - reach), max(2, height - reach)) if sign < 0 else (width, height)
            high = (
                (width, height) if sign < 0 else (min(24, width + reach), min(16, height + reach))
            )
            assert not any(has_cell_place(kind, seed, *size) for size in sizes_in(low, high))


@pytest.mark.parametrize(("kind", "seed"), [("islands", 2), ("corner", 0)])
def test_no_lattice_place_keeps_its_dams_farther_from_ornament(kind, seed):
    """The least clearance of the place chosen is the largest there is."""
    job, ground = job_and_ground(kind, seed)
    boxes = [ornament.outline.bounds for ornament in job.liner.ornaments]
    assert all(ornament.outline.is_box for ornament in job.liner.ornaments)
    for width, height in [(w, h) for w in ACROSS[1::2] for h in UP[1::2]]:
        seated = fit_size(ground, panel_of(width, height), bend_of(job, "table"), mend=False).seated
        if seated is None or seated.clearance is None:
            continue
        for x, y in places_by_rule(job, panel_of(width, height)):
            placed = seated.map.sheet_at(x * CELL, y * CELL)
            ring = rings(x * CELL, y * CELL, width * CELL, height * CELL, placed.sides)
            least = min((square(strip, box) for strip in ring for box in boxes), default=None)
            assert least is None or least <= seated.clearance


def rings(x, y, width, height, sides):
    """Return the dams around a panel, one cell wide, as (x0, y0, x1, y1)."""
    left, right, bottom, top = (CELL if side == "dam" else 0 for side in sides)
    strips = [
        (x - left, y - bottom, x, y + height + top),
        (x + width, y - bottom, x + width + right, y + height + top),
        (x, y - bottom, x + width, y),
        (x, y + height, x + width, y + height + top),
    ]
    return [strip for strip in strips if strip[0] < strip[2] and strip[1] < strip[3]]


def square(a, b):
    """Return how far two rectangles are apart, measured square."""
    return max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3])
