"""What holds for the schedule of any job, on generated jobs small enough to be proved at once."""

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
import shapely
from handjob import hand_job
from longcases import leave_long
from smalljobs import CELL, KINDS, places_by_rule, small_job

from nesting.checking.schedule import check_schedule
from nesting.planning import bedplan
from nesting.planning.schedule import schedule_casts
from nesting.schedules.write import read_schedule, schedule_to_json
from nesting.search import fewest
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.units import STEPS_PER_MM as MM
from nesting.values.bed import Bed
from nesting.values.job import Job

LIMIT_S = 30.0
Point = tuple[int, int]


def on_two_beds(job):
    """Return the job with every other panel on a drum.

    On the drum a panel's flat size is a little less than its face, so no length is in cells.
    """
    beds = (*job.beds, Bed("drum", "convex", radius=900 * MM))
    panels = tuple(
        replace(panel, bed="drum" if number % 2 else panel.bed)
        for number, panel in enumerate(job.panels)
    )
    return replace(job, title=f"{job.title}, two beds", beds=beds, panels=panels)


def whole_liner():
    """Return the order of one panel as large as its liner: four edge sides and not one dam."""
    job = hand_job()
    whole = replace(job.panels[0], width=1200 * MM, height=800 * MM, quantity=2)
    return replace(job, title="the whole liner", panels=(whole,))


FIRST, FURTHER = ([small_job(kind, seed, sizes=3, most=4) for kind in KINDS] for seed in (101, 102))
STEPPED = [*FIRST, *FURTHER]
ROOMY = [on_two_beds(small_job("islands", seed, sizes=3, most=3)) for seed in range(110, 112)]
JOBS = [hand_job(), whole_liner(), *STEPPED, *ROOMY]


def slanted(seed):
    """Return a small job with leaves of slanted edges in place of its rectangles."""
    job = small_job("islands", seed, sizes=3, most=3)

    def leaf(ornament):
        x0, y0, x1, y1 = ornament.outline.bounds
        ring = ((x0, y0), (x1, (y0 + y1) // 2), (x1 - (x1 - x0) // 3, y1), (x0, y1 - MM))
        return replace(ornament, outline=Polygon(ring))

    ornaments = tuple(map(leaf, job.liner.ornaments))
    return replace(job, title=f"slanted {seed}", liner=replace(job.liner, ornaments=ornaments))


SLANTED = [slanted(seed) for seed in range(2)]
BANDED = [job for job in JOBS if job.liner.zones]
is_further = FURTHER.__contains__
by_title = pytest.mark.parametrize("job", leave_long(JOBS, is_further), ids=lambda job: job.title)
by_any_title = pytest.mark.parametrize(
    "job", leave_long([*JOBS, *SLANTED], is_further), ids=lambda job: job.title
)


@cache
def plan(job):
    """Return the job's schedule, within the limit."""
    return schedule_casts(job, time_limit=LIMIT_S)


@cache
def figures(job):
    """Return what no move of the whole job may change; the casts must be proved.

    Layouts are left as many, and dams as long, as they come: most of a plan's time is spent on
    them, and no count of casts hangs on it.
    """

    def as_found(found, *_):
        search = found.search
        return [(repeats, search.pool.layouts[counts]) for repeats, counts in search.best], 1

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(fewest, "_fewest_layouts", as_found)
        patch.setattr(bedplan, "shorten_dams", lambda instance, bays, *_: bays)
        schedule = schedule_casts(job, time_limit=LIMIT_S)
    assert schedule.proved
    return schedule.casts, schedule.lower_bound, schedule.panels


# Every fresh schedule


@by_any_title
def test_a_fresh_schedule_is_sound(job):
    """The independent checker finds nothing, and the yield is the order exactly."""
    schedule = plan(job)
    assert check_schedule(job, schedule) == ()
    assert schedule.panels == {panel.mark: panel.quantity for panel in job.panels}


@by_any_title
def test_bound_casts_and_pieces_come_in_that_order(job):
    """No schedule has fewer casts than the bound or more than there are panels."""
    schedule = plan(job)
    pieces = sum(panel.quantity for panel in job.panels)
    assert 1 <= schedule.lower_bound <= schedule.casts <= pieces
    assert 1 <= schedule.layouts_bound <= schedule.different_layouts <= schedule.casts


@by_title
def test_fewer_layouts_and_shorter_dams_cost_no_cast(job):
    """The counts are those of a plan whose layouts and dams are left as they come."""
    schedule = plan(job)
    assert figures(job) == (schedule.casts, schedule.lower_bound, schedule.panels)


@by_any_title
def test_the_liner_is_panels_dams_and_masks(job):
    """In each cast, by areas worked out afresh from the rectangles; nothing is counted twice."""
    liner = shapely.Polygon(job.liner.outline.shell, job.liner.outline.holes)
    for layout in plan(job).layouts:
        panels = shapely.union_all([shapely.box(*panel.box) for panel in layout.panels])
        dams = shapely.union_all([shapely.box(*dam.box) for dam in layout.dams])
        areas = layout.areas
        assert areas.liner == liner.area == areas.panels + areas.dams + areas.masked
        assert (areas.panels, areas.dams) == (panels.area, dams.area)
        assert areas.masked == liner.difference(panels).difference(dams).area
        assert areas.idle == areas.liner - areas.panels


@by_any_title
def test_a_schedule_reads_back_equal(job, tmp_path):
    """What was written is what was planned, to the step."""
    schedule = plan(job)
    file = tmp_path / "schedule.json"
    file.write_text(schedule_to_json(schedule, job), encoding="utf-8")
    assert read_schedule(file) == schedule


@by_any_title
def test_no_time_at_all_still_gives_a_sound_schedule(job):
    """A time limit costs casts at most: nothing is lost, and no bound is above the fewest."""
    hasty, schedule = schedule_casts(job, time_limit=0.0), plan(job)
    assert check_schedule(job, hasty) == ()
    assert hasty.lower_bound <= schedule.casts
    assert schedule.lower_bound <= hasty.casts


def test_other_hash_seeds_give_the_same_bytes():
    """Nothing in a schedule hangs on the order of a set."""
    assert len({texts_under(seed) for seed in ("1", "20")}) == 1


def texts_under(hash_seed):
    """Return the schedule files of some jobs, planned by a Python with that hash seed."""
    tests = Path(__file__).parents[1]
    paths = os.pathsep.join([str(tests), str(tests.parent), os.environ.get("PYTHONPATH", "")])
    program = (
        "from handjob import hand_job\n"
        "from smalljobs import KINDS, small_job\n"
        "from nesting.planning.schedule import schedule_casts\n"
        "from nesting.schedules.write import schedule_to_json\n"
        "for job in [hand_job(), *(small_job(kind, 101) for kind in KINDS[:4])]:\n"
        "    print(schedule_to_json(schedule_casts(job), job))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        env={**os.environ, "PYTHONPATH": paths, "PYTHONHASHSEED": hash_seed},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert len(done.stdout) > 10_000
    return done.stdout


# The job moved as a whole


@by_title
@pytest.mark.parametrize("across", [True, False], ids=["left for right", "bottom for top"])
def test_the_mirrored_job_needs_as_many_casts(job, across):
    """Left and right, bottom and top are alike."""
    box = job.liner.outline.bounds

    def flip(point):
        x, y = point
        return (box.x0 + box.x1 - x, y) if across else (x, box.y0 + box.y1 - y)

    assert figures(moved(job, flip)) == figures(job)


@by_title
@pytest.mark.parametrize("by", [(123_457, 8_001), (-3 * CELL, 7)])
def test_the_job_moved_needs_as_many_casts(job, by):
    """The datum may lie anywhere, on no division of anything."""
    assert figures(moved(job, lambda point: (point[0] + by[0], point[1] + by[1]))) == figures(job)


@by_title
def test_the_job_turned_needs_as_many_casts(job):
    """A quarter turn makes widths heights, and changes no count."""
    assert figures(quarter_turned(job)) == figures(job)


@pytest.mark.parametrize("job", SLANTED, ids=lambda job: job.title)
def test_bounds_hold_for_the_turned_job_on_slanted_ground(job):
    """Where casts may stay unproved, the bound of either job is still below the casts of both."""
    here, there = plan(job), plan(quarter_turned(job))
    assert max(here.lower_bound, there.lower_bound) <= min(here.casts, there.casts)


def quarter_turned(job):
    """Return the job turned a quarter to the left."""
    axes = {"x": "y", "y": "x"}
    fresh = moved(job, lambda point: (-point[1], point[0]))
    return replace(
        fresh,
        beds=tuple(replace(bed, curved_axis=axes[bed.curved_axis]) for bed in job.beds),
        panels=tuple(replace(p, width=p.height, height=p.width) for p in job.panels),
    )


def moved(job: Job, move: Callable[[Point], Point]) -> Job:
    """Return the job with every point of its liner moved."""

    def outline(polygon: Polygon) -> Polygon:
        return Polygon(ring(polygon.shell), tuple(map(ring, polygon.holes)))

    def ring(points):
        return tuple(map(move, points))

    def marks(items):
        return tuple(replace(item, outline=outline(item.outline)) for item in items)

    liner = replace(
        job.liner,
        outline=outline(job.liner.outline),
        ornaments=marks(job.liner.ornaments),
        zones=marks(job.liner.zones),
    )
    return replace(job, liner=liner)


# The order and its names


@by_title
def test_the_order_of_panels_changes_no_count(job):
    """The same sizes listed backwards need as many casts."""
    assert figures(replace(job, panels=job.panels[::-1])) == figures(job)


@by_title
def test_names_change_no_count(job):
    """Marks, ornaments and zones may be called anything; here their order is turned round too."""
    names = {ornament.name: f"~{k}" for k, ornament in enumerate(job.liner.ornaments[::-1])}

    def renamed(wishes):
        return tuple(names[name] for name in wishes)

    panels = tuple(
        replace(
            panel,
            mark=f"{99 - number}",
            must_show=renamed(panel.must_show),
            must_hide=renamed(panel.must_hide),
        )
        for number, panel in enumerate(job.panels)
    )
    liner = replace(
        job.liner,
        ornaments=tuple(replace(o, name=names[o.name]) for o in job.liner.ornaments),
        zones=tuple(replace(zone, name=f"{-k}") for k, zone in enumerate(job.liner.zones)),
    )
    assert figures(replace(job, liner=liner, panels=panels))[:2] == figures(job)[:2]


@by_title
def test_a_size_ordered_in_two_lots_needs_as_many_casts(job):
    """Two marks of one size count like one mark of both quantities."""
    panel = max(job.panels, key=lambda panel: panel.quantity)
    if panel.quantity == 1:
        twice = replace(job, panels=(*job.panels, replace(panel, mark="second lot")))
        double = replace(panel, quantity=2)
        job = replace(job, panels=tuple(double if p == panel else p for p in job.panels))
    else:
        lots = (replace(panel, quantity=panel.quantity - 1), replace(panel, mark="lot", quantity=1))
        twice = replace(job, panels=(*(p for p in job.panels if p != panel), *lots))
    assert figures(twice)[:2] == figures(job)[:2]


# More room, less room


@pytest.mark.parametrize("job", BANDED, ids=lambda job: job.title)
def test_a_larger_blank_zone_never_needs_more_casts(job):
    """Every other zone in turn is made a cell broader on all sides, as far as the liner goes."""
    frame = job.liner.outline.bounds
    for index, zone in list(enumerate(job.liner.zones))[::2]:
        x0, y0, x1, y1 = zone.outline.bounds.grown(*4 * (CELL,))
        larger = Box(max(x0, frame.x0), max(y0, frame.y0), min(x1, frame.x1), min(y1, frame.y1))
        zones = list(job.liner.zones)
        zones[index] = replace(zone, outline=polygon_of(larger))
        roomier = replace(job, liner=replace(job.liner, zones=tuple(zones)))
        assert figures(roomier)[0] <= figures(job)[0]


@by_title
def test_one_ornament_less_never_needs_more_casts(job):
    """The first and the last that no panel wishes for are left out in turn."""
    wished = {name for panel in job.panels for name in (*panel.must_show, *panel.must_hide)}
    free = [ornament for ornament in job.liner.ornaments if ornament.name not in wished]
    for ornament in {*free[:1], *free[-1:]}:
        rest = tuple(other for other in job.liner.ornaments if other != ornament)
        plainer = replace(job, liner=replace(job.liner, ornaments=rest))
        assert figures(plainer)[0] <= figures(job)[0]


@pytest.mark.parametrize(
    ("rule", "less"), [("dam_clearance", CELL), ("edge_margin", CELL), ("dam_width", CELL // 2)]
)
@pytest.mark.parametrize("job", JOBS[1::3], ids=lambda job: job.title)
def test_looser_rules_never_need_more_casts(job, rule, less):
    """Less clearance, less margin, narrower dams."""
    now = getattr(job.rules, rule)
    looser = replace(job.rules, **{rule: max(0, now - less)})
    assert figures(replace(job, rules=looser))[0] <= figures(job)[0]


@by_title
def test_one_panel_more_never_needs_fewer_casts(job):
    """Nor more than one cast more: it can always have a cast of its own."""
    for panel in job.panels[:2]:
        one_more = replace(panel, quantity=panel.quantity + 1)
        larger = replace(job, panels=tuple(one_more if p == panel else p for p in job.panels))
        assert 0 <= figures(larger)[0] - figures(job)[0] <= 1


@by_title
def test_twice_the_order_never_needs_more_than_twice_the_casts(job):
    """The schedule can be cast over again; and the bound doubles at the least."""
    panels = tuple(replace(panel, quantity=2 * panel.quantity) for panel in job.panels)
    casts, *_ = figures(job)
    doubled, *_ = figures(replace(job, panels=panels))
    assert casts <= doubled <= 2 * casts


# Every layout there is


@pytest.mark.parametrize("job", leave_long(STEPPED, is_further), ids=lambda job: job.title)
def test_the_search_finds_what_full_enumeration_finds(job):
    """All layouts are listed from sets of cells, all remainders of the order gone through."""
    few = replace(job, panels=tuple(replace(p, quantity=min(2, p.quantity)) for p in job.panels))
    assert figures(few)[0] == fewest_by_enumeration(few)


def fewest_by_enumeration(job):
    """Return the fewest casts by breadth-first search over what is left of the order."""
    yields = every_yield(job)
    casts, left = 0, {tuple(panel.quantity for panel in job.panels)}
    nothing = (0,) * len(job.panels)
    while nothing not in left:
        casts += 1
        left = {
            tuple(max(0, a - b) for a, b in zip(rest, made, strict=True))
            for rest in left
            for made in yields
        }
    return casts


def every_yield(job):
    """Return what one cast can yield, as counts per panel up to the order; none within another."""
    places = [
        (index, taken(panel, x, y))
        for index, panel in enumerate(job.panels)
        for x, y in places_by_rule(job, panel)
    ]
    most = [panel.quantity for panel in job.panels]
    found = {tuple(0 for _ in most)}
    seen = set()
    stack = [(0, found.copy().pop(), 0)]
    while stack:
        used, counts, start = stack.pop()
        for number in range(start, len(places)):
            index, cells = places[number]
            if used & cells or counts[index] == most[index]:
                continue
            more = tuple(n + (k == index) for k, n in enumerate(counts))
            state = (used | cells, more)
            if state not in seen:
                seen.add(state)
                found.add(more)
                stack.append((*state, number + 1))
    return {one for one in found if not any(one != other and covers(other, one) for other in found)}


def covers(more, less):
    """Whether one yield has at least as much of everything as the other."""
    return all(a >= b for a, b in zip(more, less, strict=True))


def taken(panel, x, y):
    """Return the cells of a panel and of one dam to its right and above, as bits."""
    width, height = panel.width // CELL + 1, panel.height // CELL + 1
    return sum(1 << (64 * (x + across) + y + up) for across in range(width) for up in range(height))
