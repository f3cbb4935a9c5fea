"""Which panels of a schedule look alike."""

from dataclasses import replace

import pytest
from handjob import change_layout, change_panel, hand_job, hand_schedule, place

from nesting.fronts.kinds import list_kinds, list_pieces, name_panels


@pytest.fixture
def job():
    """Return the job of three panels."""
    return hand_job()


def blank(job):
    """Return the job with a liner plain between its ornaments."""
    return replace(job, liner=replace(job.liner, unmarked="blank"))


def with_panels(job, *panels, repeats=1):
    """Return the schedule with those panels in its first layout, where they may overlap."""
    areas = hand_schedule().layouts[0].areas
    return change_layout(job, hand_schedule(), 1, panels=panels, repeats=repeats, areas=areas)


def test_a_mark_of_one_look_has_one_kind_without_number(job):
    """Three panels make three kinds, in the order of the job."""
    kinds = list_kinds(job, hand_schedule())
    assert [(kind.name, kind.layouts, kind.pieces) for kind in kinds] == [
        ("A1", (1,), 1),
        ("B1", (1,), 1),
        ("C1", (2,), 1),
    ]


def test_panels_that_show_an_ornament_elsewhere_are_another_kind(job):
    """The heron 10 mm further left on the face is another look."""
    panels = place("A1", 0, 0, 800, 650, "rt", "heron"), place("A1", 10, 0, 800, 650, "rt", "heron")
    kinds = [each for each in list_kinds(job, with_panels(job, *panels)) if each.face.mark == "A1"]
    assert [kind.name for kind in kinds] == ["A1 (1)", "A1 (2)"]


def test_plain_panels_are_one_kind_wherever_they_are_cast(job):
    """With no detail between the ornaments, nothing tells the places apart."""
    panels = place("B1", 600, 0, 375, 800, "l"), place("B1", 825, 0, 375, 800, "l")
    schedule = with_panels(job, *panels, repeats=3)
    (plain,) = [each for each in list_kinds(blank(job), schedule) if each.face.mark == "B1"]
    assert (plain.name, plain.layouts, plain.pieces) == ("B1", (1, 1), 6)
    assert len([each for each in list_kinds(job, schedule) if each.face.mark == "B1"]) == 2


def test_a_panel_cast_turned_on_detail_is_another_kind(job):
    """Its ground is upside down."""
    once = place("B1", 825, 0, 375, 800, "l")
    schedule = with_panels(job, once, replace(once, turned=True))
    assert len([each for each in list_kinds(job, schedule) if each.face.mark == "B1"]) == 2
    assert len([each for each in list_kinds(blank(job), schedule) if each.face.mark == "B1"]) == 1


def test_each_panel_of_a_layout_is_named_by_its_kind(job):
    """Two that look alike have one name; on detail the place tells them apart."""
    panels = place("B1", 600, 0, 375, 800, "l"), place("B1", 825, 0, 375, 800, "l")
    schedule = with_panels(job, *panels)
    assert name_panels(blank(job), schedule, schedule.layouts[0]) == ["B1", "B1"]
    assert name_panels(job, schedule, schedule.layouts[0]) == ["B1 (1)", "B1 (2)"]


def test_all_casts_yield_what_the_kinds_say(job):
    """Pieces of the kinds of a mark sum to those of the schedule."""
    job, schedule = (
        change_panel(job, "A1", quantity=5),
        with_panels(job, place("A1", 0, 0, 800, 650, "rt", "heron"), repeats=5),
    )
    counts = {kind.face.mark: kind.pieces for kind in list_kinds(job, schedule)}
    assert counts == schedule.panels


def test_pieces_come_in_the_order_of_the_casts(job):
    """Cast by cast, and in each cast kind by kind."""
    panels = place("A1", 0, 0, 800, 650, "rt", "heron"), place("A1", 10, 0, 800, 650, "rt", "heron")
    schedule = with_panels(job, *panels, repeats=2)
    pieces = list_pieces(list_kinds(job, schedule), schedule)
    assert [kind.number for kind in pieces["A1"]] == [1, 2, 1, 2]
    assert [kind.pieces for kind in pieces["C1"]] == [1]
