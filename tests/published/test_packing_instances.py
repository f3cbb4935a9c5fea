"""Rectangles on one sheet and on fewest sheets, against printed instances with known optimum.

Sizes, limits and values are as distributed with the OR-Library. The fewest sheets were proved with
a general integer solver: feasible at that count, infeasible one below it or equal to the area
bound.
"""

from dataclasses import dataclass

import pytest
from longcases import leave_long

from nesting.checking.schedule import check_schedule
from nesting.planning.schedule import schedule_casts
from nesting.search.conflicts import find_points
from nesting.search.fewest import find_casts
from nesting.search.instance import Instance, Item
from nesting.search.pricing import Pricer
from nesting.search.solver import Deadline
from nesting.shapes.geometry import Box, polygon_of
from nesting.units import STEPS_PER_MM as MM
from nesting.values.bed import Bed
from nesting.values.job import Job, Rules
from nesting.values.liner import Liner
from nesting.values.panels import Panel

LIMIT_S = 240
SOURCES = {
    "ngcut": "Beasley 1985, Operations Research 33(1):49-64",
    "cgcut": "Christofides & Whitlock 1977, Operations Research 25(1):30-44",
}
"""By the letters of an instance's name."""


@dataclass(frozen=True)
class Sheet:
    """A printed instance: ``items`` are (width, height, limit, value)."""

    width: int
    height: int
    items: tuple[tuple[int, int, int, int], ...]
    best_value: int
    fewest_sheets: int


def read(width, height, items, best_value, fewest_sheets):
    """Read items written ``w x h x limit = value``, as the papers' tables are quoted."""
    rows = (item.replace("=", "x").split("x") for item in items.split(", "))
    return Sheet(
        width, height, tuple(tuple(map(int, row)) for row in rows), best_value, fewest_sheets
    )


PRINTED = {
    "ngcut1": read(10, 10, "3x7x2=35, 8x2x2=40, 10x2x1=27, 5x4x3=23, 2x9x2=43", 164, 3),
    "ngcut2": read(
        10,
        10,
        "1x10x3=28, 5x3x2=40, 9x3x3=63, 6x1x3=13, 3x8x3=31, 4x1x1=10, 7x3x2=44",
        230,
        4,
    ),
    "ngcut3": read(
        10,
        10,
        "3x2x2=7, 7x2x3=20, 4x5x2=60, 4x1x2=9, 1x10x1=14, "
        "8x4x1=79, 4x2x2=11, 3x7x3=52, 6x2x3=13, 9x1x2=21",
        247,
        3,
    ),
    "ngcut4": read(15, 10, "15x2x2=34, 7x3x1=27, 9x1x1=14, 8x3x1=71, 12x2x2=61", 268, 2),
    "ngcut5": read(
        15,
        10,
        "10x3x2=34, 9x3x1=48, 12x2x3=72, 11x3x1=91, 12x3x3=37, 11x1x3=15, 2x10x1=36",
        358,
        3,
    ),
    "ngcut7": read(20, 20, "1x9x3=26, 16x3x1=113, 18x3x1=127, 20x2x1=104, 3x1x2=4", 430, 1),
    "ngcut10": read(30, 30, "1x30x3=75, 25x7x1=279, 27x9x3=409, 30x2x3=65, 26x7x3=235", 1452, 3),
    "cgcut1": read(
        15,
        10,
        "8x4x2=66, 3x7x1=35, 8x2x3=24, 3x4x5=17, 3x3x2=11, 3x2x2=8, 2x1x1=2",
        244,
        2,
    ),
}
NAMES = sorted(PRINTED)
SLOW = {"ngcut2", "ngcut3"}
SLOW_WHOLE = {"ngcut4", "ngcut5", "ngcut7", "ngcut10"}
WHOLE = [name for name in NAMES if name not in SLOW]
"""Not those two: they take the solver longest, and their numbers are searched above."""


def stops(sizes, extent):
    """Return every sum of lengths, each taken up to its limit, that is less than the extent.

    The places that suffice on a bare sheet (Herz 1972; Christofides & Whitlock 1977, section 3,
    from memory).
    """
    reached = {0}
    for length, limit in sizes:
        for _ in range(limit):
            reached |= {at + length for at in reached if at + length < extent}
    return sorted(reached)


def integers_of(sheet):
    """Return the instance as the search sees it, on the sheet's own whole numbers."""
    xs = stops([(w, limit) for w, _, limit, _ in sheet.items], sheet.width)
    ys = stops([(h, limit) for _, h, limit, _ in sheet.items], sheet.height)
    return Instance(
        tuple(
            Item(
                w,
                h,
                limit,
                tuple(
                    (x, y) for x in xs for y in ys if x + w <= sheet.width and y + h <= sheet.height
                ),
            )
            for w, h, limit, _ in sheet.items
        )
    )


def best_value(sheet):
    """Return the weight of the heaviest layout at the printed values, and its proved limit."""
    instance = integers_of(sheet)
    values = [value for *_, value in sheet.items]
    limits = tuple(limit for *_, limit, _ in sheet.items)
    priced = Pricer(instance, find_points(instance)).heaviest(values, limits, Deadline(LIMIT_S))
    return priced.weight, priced.limit


def job_of(name, sheet):
    """Return the sheet as a liner: n becomes 10 n - 1 mm, all of it blank, dams 1 mm wide.

    A row of panels then takes 10 (n + m + ...) - 1 mm with its dams, and fits exactly when the
    printed lengths do.
    """

    def length(n):
        return (10 * n - 1) * MM

    outline = polygon_of(Box(0, 0, length(sheet.width), length(sheet.height)))
    return Job(
        title=name,
        units="mm",
        liner=Liner(name, outline, 13 * MM, unmarked="blank"),
        rules=Rules(dam_width=MM, dam_clearance=0, edge_margin=0, set_out=MM),
        beds=(Bed("flat"),),
        panels=tuple(
            Panel(f"P{number}", length(w), length(h), limit, "flat")
            for number, (w, h, limit, _) in enumerate(sheet.items, start=1)
        ),
    )


@pytest.mark.parametrize("name", leave_long(NAMES, SLOW.__contains__))
def test_the_heaviest_layout_has_the_printed_best_value(name):
    """With the printed values as prices, the best sheet is the best layout, and proved so."""
    sheet = PRINTED[name]
    assert best_value(sheet) == (sheet.best_value, sheet.best_value)


@pytest.mark.parametrize("name", leave_long(NAMES, SLOW.__contains__))
def test_the_search_finds_the_fewest_sheets(name):
    """On the printed whole numbers the search needs no polygons, and proves what it finds."""
    found = find_casts(integers_of(PRINTED[name]), Deadline(LIMIT_S))
    fewest = PRINTED[name].fewest_sheets
    assert (found.casts, found.certificate.bound) == (fewest, fewest)


@pytest.mark.long
@pytest.mark.parametrize("name", leave_long(WHOLE, SLOW_WHOLE.__contains__))
def test_the_whole_tool_finds_the_fewest_sheets(name):
    """As a job with real dams, from polygons to settled panels, the count is the same."""
    job = job_of(name, PRINTED[name])
    schedule = schedule_casts(job, time_limit=60)
    assert check_schedule(job, schedule) == ()
    assert (schedule.casts, schedule.proved) == (PRINTED[name].fewest_sheets, True)
