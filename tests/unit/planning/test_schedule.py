"""From a job to its schedule: the product."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, change_panel, hand_job, hand_schedule, rect
from makejobs import banded_job, island_job
from smalljobs import small_job

from nesting.checking.schedule import check_schedule
from nesting.errors import NoScheduleError
from nesting.planning.schedule import schedule_casts
from nesting.values.bed import Bed
from nesting.values.job import Job, Rules
from nesting.values.liner import BlankZone, Liner, Ornament
from nesting.values.panels import Panel


def order_of(job):
    """Return how many of each mark are ordered."""
    return {panel.mark: panel.quantity for panel in job.panels}


def test_the_hand_sized_job_takes_two_casts():
    """Proved, as on paper: A1 and C1 both cover the point (400, 400)."""
    job = hand_job()
    schedule = schedule_casts(job)
    assert (schedule.casts, schedule.lower_bound, schedule.proved) == (2, 2, True)
    assert (schedule.job, schedule.notes) == ("Bath house, foyer", ())
    assert (schedule.different_layouts, schedule.layouts_bound) == (2, 2)
    assert schedule.layouts_proved
    assert check_schedule(job, schedule) == ()
    assert {layout.panels for layout in schedule.layouts} == {
        layout.panels for layout in hand_schedule().layouts
    }


@pytest.mark.parametrize(
    "job",
    [
        hand_job(),
        small_job("wishes", 70),
        banded_job(3, total=(60, 60), sizes=6),
        island_job(4, islands=10, sizes=4, total=(16, 16), width=1200, height=800),
    ],
    ids=lambda job: job.title,
)
def test_a_time_limit_never_loses_the_schedule(job):
    """After a thousandth of a second there is one that the checker passes, and it says so."""
    schedule = schedule_casts(job, time_limit=0.001)
    assert check_schedule(job, schedule) == ()
    assert schedule.panels == order_of(job)
    assert schedule.lower_bound <= schedule.casts
    assert schedule.notes == (
        "The time limit of 0.001 s was reached; this is the best schedule found.",
    )


def test_without_a_limit_nothing_is_said_of_time():
    """Nor with one that was not reached."""
    assert schedule_casts(hand_job()).notes == ()
    assert schedule_casts(hand_job(), time_limit=30).notes == ()


def test_progress_is_told_line_by_line():
    """To whoever asks; the schedule is the same without."""
    lines = []
    job = small_job("bands", 3, sizes=4, most=9)
    told = schedule_casts(job, progress=lines.append)
    assert lines
    assert all(isinstance(line, str) and "\n" not in line for line in lines)
    assert all(line.split()[1] == "casts," for line in lines)
    assert told == schedule_casts(job)


def two_beds():
    """Return an order on two beds, the second given first in the order."""
    beds = (Bed("table"), Bed("drum", "convex", 3000 * MM, "y", Fraction(1, 2)))
    job = replace(hand_job(), beds=beds)
    return change_panel(change_panel(job, "A1", bed="drum", quantity=3), "C1", quantity=2)


def test_beds_are_planned_apart_and_listed_together():
    """In the order of the beds; layouts are numbered through, each bed has its own proof."""
    job = two_beds()
    schedule = schedule_casts(job)
    assert check_schedule(job, schedule) == ()
    assert [proof.bed for proof in schedule.proofs] == ["table", "drum"]
    assert [layout.bed for layout in schedule.layouts] == ["table", "table", "drum"]
    assert [layout.number for layout in schedule.layouts] == [1, 2, 3]
    assert schedule.lower_bound == sum(proof.lower_bound for proof in schedule.proofs) == 6
    assert schedule.proved


def test_masked_bays_name_their_layout_on_a_second_bed_too():
    """Numbers are shifted along with those of the layouts they name."""
    beds = (Bed("table"), Bed("drum", "convex", 3000 * MM, "x", Fraction(1, 2)))
    job = replace(hand_job(), beds=beds)
    job = change_panel(change_panel(job, "A1", bed="drum", quantity=3), "B1", bed="drum")
    job = replace(job, rules=replace(job.rules, other_widths=True))
    schedule = schedule_casts(job)
    assert check_schedule(job, schedule) == ()
    assert [(layout.bed, layout.same_dams_as) for layout in schedule.layouts] == [
        ("table", None),
        ("drum", None),
        ("drum", 2),
    ]
    assert schedule.layouts[2].dams == schedule.layouts[1].dams


def test_a_bed_without_panels_takes_no_cast():
    """It has no proof either."""
    job = replace(hand_job(), beds=(Bed("idle"), *hand_job().beds))
    schedule = schedule_casts(job)
    assert [proof.bed for proof in schedule.proofs] == ["table"]
    assert schedule.casts == 2


def test_no_order_is_no_cast():
    """And nothing is left to prove."""
    schedule = schedule_casts(replace(hand_job(), panels=()))
    assert (schedule.casts, schedule.lower_bound, schedule.layouts) == (0, 0, ())
    assert schedule.proved


def test_a_size_within_its_tolerance_is_noted():
    """By how much each side was changed, with its sign."""
    job = change_panel(hand_job(), "C1", height=668 * MM, tolerance=(-5 * MM, 5 * MM))
    schedule = schedule_casts(job)
    assert schedule.notes == (
        "Panel 'C1' has no place at its nominal size; planned within its tolerance: "
        "width 0 mm, height -3 mm.",
    )
    (panel,) = [p for layout in schedule.layouts for p in layout.panels if p.mark == "C1"]
    assert (panel.height, panel.off_nominal) == (665 * MM, (0, -3 * MM))
    assert check_schedule(job, schedule) == ()
    wider = change_panel(hand_job(), "C1", height=636 * MM, tolerance=(0, 5 * MM))
    assert "height +4 mm" in schedule_casts(wider).notes[0]


def test_panels_without_a_place_are_all_named():
    """One reason each, in the order of the file, and no schedule."""
    job = change_panel(change_panel(hand_job(), "A1", width=1300 * MM), "C1", height=801 * MM)
    with pytest.raises(NoScheduleError, match=r"Panel 'A1' .* has no place on the liner") as caught:
        schedule_casts(job)
    first, second = caught.value.reasons
    assert first.startswith("Panel 'A1' (1300 x 650 mm, bed 'table')")
    assert second.startswith("Panel 'C1' (1200 x 801 mm, bed 'table')")
    assert caught.value.exit_code == 3


def test_a_panel_that_is_the_liner_is_cast_alone():
    """Edge on all four sides: no dam, nothing masked, nothing idle."""
    liner = Liner("slab", rect(-100, -50, 400, 300), 13 * MM)
    rules = Rules(25 * MM, 6 * MM, 12 * MM, MM)
    panel = Panel("A", 400 * MM, 300 * MM, 3, "table")
    job = Job("slabs", "mm", liner, rules, (Bed("table"),), (panel,))
    schedule = schedule_casts(job)
    assert check_schedule(job, schedule) == ()
    (layout,) = schedule.layouts
    assert (layout.repeats, layout.dams, layout.areas.idle) == (3, (), 0)
    assert set(layout.panels[0].sides) == {"edge"}
    assert (layout.panels[0].x, layout.panels[0].y) == (-100 * MM, -50 * MM)


def test_positions_of_an_inch_job_are_whole_sixteenths():
    """A panel of an odd size that shows an ornament is still marked to 1/16 in, 12 700 steps."""
    leaf = Ornament("leaf", rect(501.7, 240.3, 97.1, 83.9))
    liner = Liner("reeds", rect(0, 0, 1219.2, 609.6), 13 * MM, "blank", (leaf,))
    rules = Rules(203_200, 50_800, 101_600, 12_700)
    size = round(500.3 * MM), round(300.7 * MM)
    panel = Panel("A", *size, 2, "table", must_show=("leaf",))
    job = Job("inches", "in", liner, rules, (Bed("table"),), (panel,))
    schedule = schedule_casts(job)
    assert check_schedule(job, schedule) == ()
    ((spot,),) = [layout.panels for layout in schedule.layouts]
    free = [
        at
        for at, sides in ((spot.x, spot.sides[:2]), (spot.y, spot.sides[2:]))
        if set(sides) == {"dam"}
    ]
    assert free
    assert all(at % 12_700 == 0 for at in free)


def test_the_same_job_gives_the_same_schedule():
    """Twice over, to the step."""
    job = small_job("islands", 90)
    assert schedule_casts(job) == schedule_casts(job)


def test_zones_that_close_off_ground_leave_it_out_of_bounds():
    """Five zones, all given as boxes in 100 mm, between which detail must not take a dam."""
    boxes = [(1, 1, 6, 2), (0, 5, 3, 2), (5, 3, 3, 4), (1, 4, 5, 1), (1, 2, 3, 6)]
    zones = tuple(
        BlankZone(f"zone {k}", rect(*(100 * v for v in box))) for k, box in enumerate(boxes)
    )
    liner = Liner("zones", rect(0, 0, 800, 800), 13 * MM, "detail", zones=zones)
    rules = Rules(25 * MM, 6 * MM, 12 * MM, MM)
    panel = Panel("A", 250 * MM, 250 * MM, 4, "table")
    job = Job("zones", "mm", liner, rules, (Bed("table"),), (panel,))
    try:
        found = check_schedule(job, schedule_casts(job))
    except NoScheduleError:
        found = ()
    assert found == ()
