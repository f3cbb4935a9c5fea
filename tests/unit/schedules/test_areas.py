"""Areas to six decimals and back: `nesting.schedules.areas`."""

from hypothesis import given
from hypothesis import strategies as st

from nesting.schedules.areas import area_number, exact_areas, round_areas
from nesting.values.casts import Areas

areas = st.integers(0, 2**56)


@given(areas, areas, areas)
def test_rounded_figures_add_up_as_exact_ones_do(masked, panels, dams):
    """Liner is panels, dams and masks in the rounded figures too, each within two millionths."""
    exact = Areas(masked + panels + dams, panels, dams, masked)
    rounded = round_areas(exact)
    assert rounded["liner"] == rounded["panels"] + rounded["dams"] + rounded["masked"]
    assert rounded["idle"] == rounded["dams"] + rounded["masked"]
    assert all(abs(64 * rounded[part] - getattr(exact, part)) <= 96 for part in rounded)


@given(areas, areas, areas, st.integers(-5, 5))
def test_figures_come_back_exactly_where_geometry_agrees(masked, panels, dams, amiss):
    """An account reads back to the square step, and one that is off stays off."""
    exact = Areas(masked + panels + dams, panels, dams, masked + 64 * amiss)
    geometry = {"liner": exact.liner, "panels": panels, "dams": dams}
    assert exact_areas(round_areas(exact), geometry) == exact


def test_figures_stay_as_written_where_geometry_differs():
    """Where geometry gives another area, the figure written is taken as it is."""
    rounded = {"liner": 100, "panels": 60, "dams": 10, "masked": 30}
    geometry = {"liner": 6400, "panels": 6400, "dams": 643}
    assert exact_areas(rounded, geometry) == Areas(6400, 3840, 643, 6400 - 3840 - 643)


def test_numbers_are_whole_where_they_can_be():
    """Whole square millimetres are written without decimals."""
    assert (area_number(2_000_000), area_number(2_500_001)) == (2, 2.500001)
    assert isinstance(area_number(2_000_000), int)
