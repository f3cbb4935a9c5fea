"""What holds of sizes as cast, whatever the job: scaling, shrinking, and nothing to correct."""

from dataclasses import fields, replace
from fractions import Fraction

import pytest
from handjob import hand_job
from printtime import DRAWN
from smalljobs import CELL, KINDS, small_job

from nesting.checking.schedule import check_schedule
from nesting.drawings.planfiles import write_plan_files
from nesting.planning.schedule import schedule_casts
from nesting.schedules.report import report_schedule
from nesting.schedules.stamps import code_plan
from nesting.values.bed import Bed
from nesting.values.castsizes import AsCast, lay_liner
from nesting.values.job import Rules

pytestmark = pytest.mark.long

TWENTIETH = Fraction(1, 20)
SEED = 3


def job_of(kind):
    """Return the hand-sized job, or a small one of a kind."""
    return hand_job() if kind == "hand" else small_job(kind, SEED)


def less(length):
    """Return a length less a twentieth, which no length here leaves between two steps."""
    kept = length * (1 - TWENTIETH)
    assert kept.denominator == 1
    return int(kept)


def shrink_order(job):
    """Return the panels ordered a twentieth smaller."""
    return tuple(
        replace(panel, width=less(panel.width), height=less(panel.height)) for panel in job.panels
    )


def shrink_box(piece):
    """Return a placement or a dam a twentieth smaller."""
    sides = {key: less(getattr(piece, key)) for key in ("x", "y", "width", "height")}
    gap = getattr(piece, "clearance", None)
    return replace(piece, **sides, **({} if gap is None else {"clearance": less(gap)}))


def shrink_layout(layout):
    """Return the panels and dams of a layout a twentieth smaller."""
    return tuple(map(shrink_box, layout.panels)), tuple(map(shrink_box, layout.dams))


@pytest.mark.parametrize("kind", ["hand", "bands", "corner"])
def test_a_factor_of_one_changes_nothing_byte_for_byte(kind):
    """Schedule, drawings and report, but for the sheet code, although temperatures are given."""
    job = job_of(kind)
    same = AsCast(Fraction(0), Fraction(20), Fraction(20), Fraction(1, 5000))
    plain = schedule_casts(job)
    told = replace(job, liner=lay_liner(job.liner, same), as_cast=same)
    schedule = schedule_casts(told)
    codes = code_plan(told, schedule), code_plan(job, plain)  # of two jobs, as they are written
    files = write_plan_files(told, schedule, DRAWN)
    assert {name: text.replace(*codes) for name, text in files.items()} == write_plan_files(
        job, plain, DRAWN
    )
    assert report_schedule(told, schedule).replace(*codes) == report_schedule(job, plain)


@pytest.mark.parametrize("kind", ["hand", "bands", "islands", "wishes", "hole"])
def test_a_liner_shrunk_with_its_rules_and_its_order_has_the_layouts_shrunk(kind):
    """By a twentieth, on which every length is a whole step: same casts, all places scaled."""
    job = job_of(kind)
    as_cast = AsCast(liner_shrink=TWENTIETH)
    small = replace(
        job,
        liner=lay_liner(job.liner, as_cast),
        rules=Rules(**{rule.name: less(getattr(job.rules, rule.name)) for rule in fields(Rules)}),
        panels=shrink_order(job),
        as_cast=as_cast,
    )
    drawn, now = schedule_casts(job), schedule_casts(small)
    assert (now.casts, now.lower_bound) == (drawn.casts, drawn.lower_bound)
    assert [(each.panels, each.dams) for each in now.layouts] == [
        shrink_layout(each) for each in drawn.layouts
    ]
    assert check_schedule(small, now) == ()


@pytest.mark.parametrize("kind", ["hand", *KINDS])
def test_what_shrinks_to_the_order_is_cast_as_the_larger_order_is(kind):
    """Panels ordered a twentieth smaller that shrink by a twentieth have the same layouts."""
    job = job_of(kind)
    shrinking = replace(job, panels=shrink_order(job), as_cast=AsCast(panel_shrink=TWENTIETH))
    larger = schedule_casts(job)
    assert schedule_casts(shrinking) == larger
    assert check_schedule(shrinking, larger) == ()


@pytest.mark.parametrize("kind", ["hand", *KINDS])
def test_a_schedule_without_the_correction_for_panels_is_refused(kind):
    """Every panel is too small by what it will shrink, and nothing else is wrong."""
    job = job_of(kind)
    shrinking = replace(job, as_cast=AsCast(panel_shrink=Fraction(1, 10_000)))
    schedule = schedule_casts(job)
    found = [finding.code for finding in check_schedule(shrinking, schedule)]
    assert found == [303] * sum(len(layout.panels) for layout in schedule.layouts)


@pytest.mark.parametrize("kind", ["hand", *KINDS])
def test_a_schedule_for_the_liner_as_drawn_is_refused_for_the_liner_as_it_lies(kind):
    """A liner of another area is another job's: that is told, and nothing else."""
    job = job_of(kind)
    as_cast = AsCast(liner_shrink=Fraction(1, 1000))
    schedule = schedule_casts(job)
    lying = replace(job, liner=lay_liner(job.liner, as_cast), as_cast=as_cast)
    found = [finding.code for finding in check_schedule(lying, schedule)]
    assert found == [408]


@pytest.mark.parametrize("curved", [False, True])
@pytest.mark.parametrize("kind", KINDS)
def test_a_fresh_schedule_is_sound_whatever_is_corrected(kind, curved):
    """Uneven factors, a tolerance to give way in where ground is tight, flat or on a drum."""
    job = small_job(kind, SEED)
    growth = Fraction("31.7"), Fraction(20), Fraction("0.00017")
    as_cast = AsCast(Fraction("0.00083"), *growth, panel_shrink=Fraction("0.00061"))
    room = (-CELL // 2, CELL // 2)
    bed = Bed("table", "convex", radius=900 * CELL) if curved else Bed("table")
    lying = replace(
        job,
        liner=lay_liner(job.liner, as_cast),
        beds=(bed,),
        panels=tuple(replace(panel, tolerance=room) for panel in job.panels),
        as_cast=as_cast,
    )
    schedule = schedule_casts(lying)
    assert check_schedule(lying, schedule) == ()
    used = any(any(each.off_nominal) for layout in schedule.layouts for each in layout.panels)
    assert used == (kind in ("bands", "corner")), "other ground leaves room for the nominal sizes"
