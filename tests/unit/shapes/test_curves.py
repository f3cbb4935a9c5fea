"""Curves: where they run, where they bend, and that maps and turns change nothing else."""

import math

import pytest

from nesting.shapes.curves import (
    Arc,
    Bezier,
    Segment,
    apply,
    bulge_arc,
    combined,
    cubic,
)

CURVES = {
    "segment": Segment((1.0, 2.0), (5.0, -3.0)),
    "arc": Arc((3.0, 4.0), (2.0, 1.0), (-0.5, 3.0), 0.3, -2.5),
    "cubic": cubic((0.0, 0.0), (3.0, 5.0), (4.0, -4.0), (9.0, 1.0)),
    "conic": Bezier(((1.0, 0.0, 1.0), (1.0, 1.0, math.sqrt(0.5)), (0.0, 1.0, 1.0))),
}
MOVE = (2.0, 0.5, -1.0, 1.5, 30.0, -7.0)


@pytest.fixture(params=CURVES)
def curve(request):
    """Return one of each kind."""
    return CURVES[request.param]


def test_a_map_moves_every_point(curve):
    """The moved curve runs through the moved points, at the same parameters."""
    for t in (0.0, 0.3, 0.7, 1.0):
        assert curve.moved(MOVE).point(t) == pytest.approx(apply(MOVE, curve.point(t)))


def test_a_turned_curve_runs_back(curve):
    """Its points are those of the other in reverse, its headings opposite."""
    turned = curve.turned()
    for t in (0.0, 0.25, 1.0):
        assert turned.point(t) == pytest.approx(curve.point(1 - t))
        x, y = curve.heading(1 - t, ahead=False)
        assert turned.heading(t) == pytest.approx((-x, -y))


def test_the_heading_is_the_limit_of_chords(curve):
    """A short chord from a point runs the same way."""
    for t in (0.2, 0.5, 0.9):
        (x0, y0), (x1, y1) = curve.point(t - 1e-6), curve.point(t + 1e-6)
        length = math.hypot(x1 - x0, y1 - y0)
        assert curve.heading(t) == pytest.approx(((x1 - x0) / length, (y1 - y0) / length), abs=1e-4)


def test_a_circle_bends_at_its_quarters():
    """It runs along x or y at three places besides its start."""
    circle = Arc((0.0, 0.0), (5.0, 0.0), (0.0, 5.0), 0.0, math.tau)
    assert circle.bends() == pytest.approx((0.25, 0.5, 0.75))
    assert circle.end == (5.0, 0.0)


def test_a_curve_is_cut_where_it_changes_its_bend():
    """An S has its turning point in the middle; it is level at neither end nor there."""
    s_curve = cubic((0.0, 0.0), (1.0, 2.0), (2.0, -2.0), (3.0, 0.0))
    assert any(cut == pytest.approx(0.5) for cut in s_curve.bends())


def test_a_conic_is_the_quarter_circle_it_stands_for():
    """A rational curve of degree 2 with the half root of 2 in the middle is round."""
    for t in (0.1, 0.5, 0.8):
        assert math.hypot(*CURVES["conic"].point(t)) == pytest.approx(1.0)


def test_where_a_curve_stands_still_it_has_the_heading_of_its_limit():
    """A control point on an end leaves no velocity there, yet a direction."""
    still = cubic((0.0, 0.0), (0.0, 0.0), (1.0, 2.0), (3.0, 2.0))
    assert still.heading(0.0) == pytest.approx((1 / math.sqrt(5), 2 / math.sqrt(5)))
    cusp = cubic((0.0, 0.0), (2.0, 2.0), (0.0, 2.0), (2.0, 0.0))
    ahead, behind = cusp.heading(0.5), cusp.heading(0.5, ahead=False)
    assert ahead == pytest.approx((0.0, -1.0), abs=1e-6)
    assert behind == pytest.approx((0.0, 1.0), abs=1e-6)
    assert cubic((1.0, 1.0), (1.0, 1.0), (1.0, 1.0), (1.0, 1.0)).heading(0.5) == (0.0, 0.0)


def test_a_bulge_of_one_is_a_half_circle():
    """Clockwise where it is below 0; no bulge is a straight line."""
    assert bulge_arc((0.0, 0.0), (2.0, 0.0), -1.0).point(0.5) == pytest.approx((1.0, 1.0))
    assert bulge_arc((0.0, 0.0), (2.0, 0.0), 0.0) == Segment((0.0, 0.0), (2.0, 0.0))
    quarter = bulge_arc((1.0, 0.0), (0.0, 1.0), math.tan(math.pi / 8))
    assert quarter.point(0.5) == pytest.approx((math.sqrt(0.5), math.sqrt(0.5)))


def test_maps_are_combined_from_within():
    """The inner map is applied first."""
    both = combined(MOVE, (0.0, 1.0, -1.0, 0.0, 5.0, 5.0))
    assert apply(both, (3.0, 4.0)) == pytest.approx(apply(MOVE, (1.0, 8.0)))


@pytest.mark.parametrize("bulge", [1e-7, 1e-9, 1e-12, 1e-15])
def test_an_arc_next_to_straight_keeps_to_its_ends(bulge):
    """However far away its centre, it stays between its chord and its rise."""
    arc = bulge_arc((100.0, 100.0), (500.0, 400.0), bulge)
    for part in range(5):
        x, y = arc.point(part / 4)
        off = abs((x - 100) * 300 - (y - 100) * 400) / 500
        assert off <= bulge * 250 + 1e-5
        assert (x, y) == pytest.approx((100 + 100 * part, 100 + 75 * part), abs=bulge * 250 + 1e-5)
