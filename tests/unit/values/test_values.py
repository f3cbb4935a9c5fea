"""The value types: casts, jobs, liners, beds and panels."""

from dataclasses import FrozenInstanceError, fields, replace
from fractions import Fraction

import pytest
from handjob import MM, dam, hand_job, hand_schedule, masked_bay, place, rect, sides

from nesting.shapes.geometry import Box
from nesting.values.bed import Bed
from nesting.values.casts import Areas, Layout, Schedule, Sides
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament
from nesting.values.panels import Panel


@pytest.mark.parametrize(
    ("dams", "widths"),
    [("", (0, 0, 0, 0)), ("l", (25, 0, 0, 0)), ("rb", (0, 25, 25, 0)), ("lrbt", (25,) * 4)],
)
def test_a_ring_is_a_dam_wide_on_dam_sides_only(dams, widths):
    """In the order left, right, bottom, top."""
    assert sides(dams).widths(25) == widths


def test_a_placement_knows_its_ground():
    """It is turned and off its size only where that is said."""
    spot = place("A1", 100, 50, 300, 200, "rt")
    assert spot.box == Box(100 * MM, 50 * MM, 400 * MM, 250 * MM)
    assert (spot.shows, spot.turned, spot.off_nominal) == ((), False, (0, 0))


def test_a_dam_is_as_long_as_its_longer_side():
    """However it lies."""
    assert dam("dam 1", 0, 0, 25, 800, "", None).length == 800 * MM
    assert dam("dam 1", 0, 0, 800, 25, "", None).length == 800 * MM
    assert dam("dam 1", 5, 6, 800, 25, "", None).box == Box(5 * MM, 6 * MM, 805 * MM, 31 * MM)


def test_idle_is_what_yields_no_panel():
    """Masks and dam footprints; the share is of the whole liner."""
    areas = Areas(liner=960_000, panels=820_000, dams=40_000, masked=100_000)
    assert areas.idle == 140_000
    layout = Layout(1, 2, "table", (), (), areas)
    assert layout.idle_share == pytest.approx(140 / 960)
    assert layout.same_dams_as is None


def test_a_schedule_counts_casts_and_panels_by_repeats():
    """Panels in order of first appearance; a layout cast five times yields five of each."""
    schedule = hand_schedule()
    layouts = (replace(schedule.layouts[0], repeats=5), schedule.layouts[1])
    many = replace(schedule, layouts=layouts)
    assert many.casts == 6
    assert list(many.panels.items()) == [("A1", 5), ("B1", 5), ("C1", 1)]


def test_a_schedule_is_proved_when_bound_and_casts_meet():
    """Neither before nor, should a bound be wrong, after."""
    schedule = hand_schedule()
    assert schedule.proved
    assert not replace(schedule, lower_bound=1).proved
    assert not replace(schedule, lower_bound=3).proved


def test_dams_kept_in_place_are_no_new_layout():
    """The masked bay's entry reuses the dams of layout 1."""
    _, schedule = masked_bay()
    assert len(schedule.layouts) == 3
    assert schedule.different_layouts == 2
    assert schedule.casts == 3


def test_an_empty_schedule_counts_nothing():
    """It claims nothing either."""
    empty = Schedule("nothing", 0, ())
    assert (empty.casts, empty.different_layouts, empty.panels) == (0, 0, {})
    assert not empty.layouts_proved
    assert not empty.dam_length_proved


def test_a_job_finds_beds_and_panels_by_name():
    """KeyError names what was asked for."""
    job = hand_job()
    assert job.bed("table") is job.beds[0]
    assert job.panel("B1") is job.panels[1]
    with pytest.raises(KeyError, match="drum"):
        job.bed("drum")
    with pytest.raises(KeyError, match="Z9"):
        job.panel("Z9")


def test_what_is_not_said_has_these_values():
    """Detail where unmarked, a flat bed of plain rubber, a panel measured on its face as it is."""
    liner = Liner("reeds", rect(0, 0, 10, 10), 13 * MM)
    assert (liner.unmarked, liner.ornaments, liner.zones) == ("detail", (), ())
    assert Ornament("heron", rect(0, 0, 1, 1)).relief == 0
    bed = Bed("table")
    assert (bed.form, bed.neutral, bed.curved_axis) == ("flat", Fraction(1, 2), "x")
    panel = Panel("A1", 1, 2, 3, "table")
    assert (panel.measured_on, panel.turn, panel.tolerance) == ("face", "none", (0, 0))
    assert (panel.must_show, panel.must_hide, panel.thickness) == ((), (), 0)


@pytest.mark.parametrize(
    "value",
    [
        hand_job(),
        hand_job().liner,
        hand_job().rules,
        hand_job().beds[0],
        hand_job().panels[0],
        hand_schedule(),
        hand_schedule().layouts[0],
        hand_schedule().proofs[0],
    ],
    ids=lambda value: type(value).__name__,
)
def test_values_are_frozen_and_equal_by_what_they_hold(value):
    """They are changed by copy, may be keys of a table, and take no attribute by mistake."""
    assert replace(value) == value
    assert hash(replace(value)) == hash(value)
    with pytest.raises(FrozenInstanceError):
        setattr(value, fields(value)[0].name, "other")
    assert not hasattr(value, "__dict__")


def test_rules_and_sides_stand_in_the_order_of_the_page():
    """Readers of tuples rely on it."""
    assert Rules(25, 6, 12, 1) == Rules(dam_width=25, dam_clearance=6, edge_margin=12, set_out=1)
    assert Sides._fields == ("left", "right", "bottom", "top")
