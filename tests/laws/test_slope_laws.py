"""What `nesting fit` says of a size between slopes, `nesting plan` says too.

Sizes are asked where it is hardest: the widest of a height that a generated liner gives, which has
no more than a pocket between two slopes, and sizes a hair beside it.
"""

import random
from dataclasses import replace
from functools import cache

import pytest
from handjob import hand_job, rect
from longcases import leave_long

from nesting.checking.schedule import check_schedule
from nesting.errors import NoScheduleError
from nesting.fitting.answer import find_size
from nesting.fitting.nearest import make_finder
from nesting.maps.ground import survey
from nesting.maps.sizehunt import TOLERANCE, HuntingGround, hunt_width
from nesting.planning.schedule import schedule_casts
from nesting.shapes.geometry import Polygon, convex_hull
from nesting.units import STEPS_PER_MM as MM
from nesting.values.bend import bend_of
from nesting.values.job import Rules
from nesting.values.liner import BlankZone, Liner, Ornament
from nesting.values.panels import Panel

pytestmark = pytest.mark.long

SEEDS = range(4)


def stone(pick, x, y, reach):
    """Return a convex polygon of a few slanted edges around a point, all in mm."""
    points = [(x + pick.uniform(-reach, reach), y + pick.uniform(-reach, reach)) for _ in range(6)]
    return Polygon(convex_hull([(round(a * MM), round(b * MM)) for a, b in points]))


@cache
def slanted_job(seed):
    """Return a job without order on 600 x 400 mm: six stones, on plain ground or slanted zones."""
    pick = random.Random(seed)
    stones = tuple(
        Ornament(f"stone {k}", stone(pick, 100 * k + 50, pick.choice([70, 330]), 48))
        for k in range(6)
    )
    liner = Liner("reeds", rect(0, 0, 600, 400), 13 * MM, "blank", stones)
    if seed % 2:
        slip = [pick.randint(0, 25) for _ in range(16)]
        zones = [
            *(_upright(x, slip[4 * k : 4 * k + 4]) for k, x in enumerate((20, 480))),
            *(_lying(y, slip[4 * k + 8 : 4 * k + 12]) for k, y in enumerate((20, 300))),
        ]
        leaf = Ornament("leaf", stone(pick, 280, 200, 60))
        named = tuple(BlankZone(f"zone {k}", zone) for k, zone in enumerate(zones))
        liner = replace(liner, unmarked="detail", ornaments=(leaf,), zones=named)
    rules = Rules(dam_width=25 * MM, dam_clearance=6 * MM, edge_margin=12 * MM, set_out=MM)
    return replace(hand_job(), liner=liner, rules=rules, panels=())


def _upright(x, slip):
    a, b, c, d = slip
    return ring((x + a, 0), (x + 70 + b, 0), (x + 70 + c, 400), (x + d, 400))


def _lying(y, slip):
    a, b, c, d = slip
    return ring((0, y + a), (600, y + b), (600, y + 70 + c), (0, y + 70 + d))


def ring(*points):
    """Return a polygon of points in mm."""
    return Polygon(tuple((x * MM, y * MM) for x, y in points))


def asked(seed):
    """Yield panels a hair narrower, as wide as and a hair wider than a height allows."""
    job = slanted_job(seed)
    ready = HuntingGround(survey(job.liner, job.rules))
    for height in (150 * MM, 283 * MM):
        widest = hunt_width(ready, (590 * MM, height), -1).extent
        if widest is None:
            continue
        for beside, limits in (
            (0, (0, 0)),
            (-3, (0, 0)),
            (TOLERANCE + 1, (0, 0)),
            (MM, (-2 * MM, MM)),
            (MM // 3, (-MM // 4, 0)),
        ):
            width = min(widest + beside, 600 * MM)
            yield Panel("P", width, height, 1, "table", tolerance=limits)


@pytest.mark.parametrize("seed", leave_long(SEEDS, lambda seed: seed > 1))
def test_what_fits_is_planned_and_what_is_planned_fits(seed):
    """At the same size, by the same change within the tolerance, and the checker agrees."""
    job = slanted_job(seed)
    ground = survey(job.liner, job.rules)
    finder, answers = make_finder(ground), set()
    for panel in asked(seed):
        size = find_size(ground, panel, bend_of(job, "table"), finder)
        order = replace(job, panels=(panel,))
        try:
            schedule = schedule_casts(order)
        except NoScheduleError:
            planned = None
        else:
            (planned,) = schedule.layouts[0].panels
            assert check_schedule(order, schedule) == ()
            assert schedule.proved
        answers.add(planned is not None)
        assert (size is not None) == (planned is not None), panel
        if planned is not None:
            assert (planned.width, planned.height) == (size.map.width, size.map.height)
            assert planned.off_nominal == size.off_nominal
    assert answers == {True, False}
