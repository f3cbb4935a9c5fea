"""Rolls cut across in one direction: one-row liners against known counts of rolls and patterns."""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

import pytest
from tinysheets import casts_of

from nesting.checking.schedule import check_schedule
from nesting.ordering.cutting import cut_stock
from nesting.ordering.stock import Cutting
from nesting.planning.schedule import schedule_casts
from nesting.search.fewest import find_fewest
from nesting.search.instance import Instance, Item
from nesting.search.solver import Deadline
from nesting.shapes.geometry import Box, polygon_of
from nesting.units import STEPS_PER_MM as MM
from nesting.values.bed import Bed
from nesting.values.job import Job, Rules
from nesting.values.liner import Liner
from nesting.values.panels import Panel

LIMIT_S = 60.0


@dataclass(frozen=True)
class Roll:
    """``pieces`` are (width, count); ``linear_bound`` counts rolls in fractions.

    ``order_bound`` is the same bound when patterns may not exceed the order, to two places, and
    ``patterns`` the fewest different patterns; both 0 where the source has none.
    """

    source: str
    width: int
    pieces: tuple[tuple[int, int], ...]
    linear_bound: Fraction
    rolls: int
    order_bound: Fraction = Fraction(0)
    patterns: int = 0


SOLVER = "proved with a general integer solver"
CHVATAL = Roll(
    "Chvatal, Linear Programming, 1983, ch. 13 (from memory)",
    100,
    ((45, 97), (36, 610), (31, 395), (14, 211)),
    Fraction("452.25"),
    453,
)
FIVE_PATTERNS = Roll(
    SOLVER,
    110,
    ((20, 48), (45, 35), (50, 24), (55, 10), (75, 8)),
    Fraction("46.25"),
    47,
    patterns=5,
)
GAP = Roll(
    SOLVER,
    132,
    ((44, 2), (33, 3), (12, 6)),
    Fraction("1.96"),
    3,
    order_bound=Fraction("2.09"),
)
ROLLS = (CHVATAL, FIVE_PATTERNS, GAP)


def integers_of(roll):
    """Return the roll as the search sees it: one row of boxes, one unit high, at every whole x."""
    return Instance(
        tuple(
            Item(width, 1, count, tuple((x, 0) for x in range(roll.width - width + 1)))
            for width, count in roll.pieces
        )
    )


def job_of(roll):
    """Return the roll as a blank liner one panel high: n becomes 10 n - 1 mm, dams 1 mm wide."""

    def length(n):
        return (10 * n - 1) * MM

    return Job(
        title=f"roll of {roll.width}",
        units="mm",
        liner=Liner(
            "roll",
            polygon_of(Box(0, 0, length(roll.width), length(1))),
            13 * MM,
            unmarked="blank",
        ),
        rules=Rules(dam_width=MM, dam_clearance=0, edge_margin=0, set_out=MM),
        beds=(Bed("flat"),),
        panels=tuple(
            Panel(f"{width} wide", length(width), length(1), count, "flat")
            for width, count in roll.pieces
        ),
    )


@pytest.mark.parametrize("roll", ROLLS, ids=lambda roll: str(roll.width))
def test_the_search_finds_the_fewest_rolls(roll):
    """On the printed whole numbers, with the proof that one roll fewer cannot do."""
    answer = find_fewest(integers_of(roll), Deadline(LIMIT_S))
    assert casts_of(answer) == answer.certificate.bound == roll.rolls


@pytest.mark.parametrize("roll", ROLLS, ids=lambda roll: str(roll.width))
def test_the_whole_tool_finds_the_fewest_rolls(roll):
    """As one-row jobs with real dams, the count is the same; no time limit is needed."""
    job = job_of(roll)
    schedule = schedule_casts(job)
    assert check_schedule(job, schedule) == ()
    assert (schedule.casts, schedule.proved) == (roll.rolls, True)
    assert schedule.panels == {f"{width} wide": count for width, count in roll.pieces}


@pytest.mark.parametrize("roll", [CHVATAL, FIVE_PATTERNS], ids=lambda roll: str(roll.width))
def test_the_bound_is_the_linear_one_rounded_up(roll):
    """452.25 gives 453 and 46.25 gives 47; demand over heaviest never passes the linear bound."""
    (proof,) = schedule_casts(job_of(roll)).proofs
    ratio = Fraction(proof.demand, proof.heaviest)
    assert ratio <= roll.linear_bound
    assert proof.lower_bound == ceil(ratio) == roll.rolls


def test_the_fewest_patterns_are_found():
    """47 rolls of 110 take five patterns and not four."""
    schedule = schedule_casts(job_of(FIVE_PATTERNS))
    assert (schedule.different_layouts, schedule.layouts_proved) == (FIVE_PATTERNS.patterns, True)


def test_rounding_the_linear_bound_up_is_not_enough():
    """1.96 rounds up to 2, yet two rolls of 132 do not hold the order; 3 is proved all the same.

    Patterns that may not exceed the order give 2.09 and so 3.
    """
    assert ceil(GAP.linear_bound) < GAP.rolls
    (proof,) = schedule_casts(job_of(GAP)).proofs
    ratio = Fraction(proof.demand, proof.heaviest)
    assert 2 < ratio == pytest.approx(float(GAP.order_bound), abs=0.005)
    assert proof.lower_bound == 3


@pytest.mark.parametrize("roll", ROLLS, ids=lambda roll: str(roll.width))
def test_strips_are_cut_from_the_fewest_rolls(roll):
    """The cut plan of strips takes as many, and proves it by points of its own."""
    lengths, counts = zip(*roll.pieces, strict=True)
    plan = cut_stock(Cutting((roll.width,), lengths, counts), Deadline(LIMIT_S))
    assert (plan.used, plan.bound) == (roll.rolls, roll.rolls)
