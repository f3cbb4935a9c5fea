"""A schedule as whole numbers for the search."""

from datetime import date, time

from calendarjobs import MONDAY, make_job, make_schedule

from nesting.days.workload import prepare_work, preparing
from nesting.ordering.shifts import Way
from nesting.values.shopdays import Times


def test_families_and_kinds_come_from_dams_and_beds():
    """Layouts with the same dams are one family; each bed is a kind with its number of beds."""
    job = make_job(beds=(("drum", 2),), liners=2)
    rows = ((2, "table", None), (2, "drum", None), (1, "table", 1))
    work = prepare_work(job, make_schedule(*rows), MONDAY).work
    assert (work.family, work.kind, work.counts) == ((0, 1, 0), (0, 1), (2, 2, 1))
    assert (work.liners, work.beds) == (2, (1, 2))


def test_a_cast_is_freed_when_its_cover_is_over():
    """24 h under cover: from Monday to Wednesday, but from Friday to Monday."""
    job = make_job(times=Times(cover=24 * 60))
    work = prepare_work(job, make_schedule((3, "table", None)), MONDAY).work
    assert work.free[Way.AGAIN][:5] == (2, 3, 4, 5, 5)


def test_every_panel_of_a_cast_counts_for_lateness():
    """A1 due on Monday and B1 on Tuesday: demoulded on Wednesday, 2 + 1 days late."""
    job = make_job({"A1": MONDAY, "B1": date(2026, 3, 3)})
    work = prepare_work(job, make_schedule((1, "table", None)), MONDAY).work
    assert work.late[0][:3] == (0, 1, 3)


def test_long_preparation_leads_the_cast():
    """Where set-out and cast do not fit one shift, the set-out has shifts of its own."""
    times = Times(set_out=600, reset=450)
    job = make_job(times=times, opens=time(7), closes=time(16))
    day = prepare_work(job, make_schedule((1, "table", None)), MONDAY)
    assert [day.work.lead[way] for way in Way] == [2, 0, 1, 0, 1]
    assert (preparing(times, Way.FIRST), preparing(times, Way.AGAIN)) == (600, 0)


def test_no_more_liners_than_casts_are_set_out():
    """A single cast needs one liner of three."""
    work = prepare_work(make_job(liners=3), make_schedule((1, "table", None)), MONDAY).work
    assert work.liners == 1
