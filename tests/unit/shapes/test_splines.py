"""B-splines come apart into Bezier curves without a change."""

import pytest
from ezdxf.math import BSpline

from nesting.shapes.splines import split_spline

POINTS = [(0, 0), (3, 8), (6, -4), (9, 5), (12, 2), (15, 9), (17, 0)]


def weigh(points, weights=None):
    """Return the points with weights."""
    return [(x, y, w) for (x, y), w in zip(points, weights or [1] * len(points), strict=True)]


@pytest.mark.parametrize("degree", [1, 2, 3, 5])
@pytest.mark.parametrize("weights", [None, [1, 2, 0.5, 1, 3, 1, 1]])
def test_the_parts_run_where_another_library_evaluates_the_spline(degree, weights):
    """At every knot and between, against the DXF library's own evaluation."""
    theirs = BSpline([(x, y, 0) for x, y in POINTS], order=degree + 1, weights=weights)
    knots = list(theirs.knots())
    parts = split_spline(degree, knots, weigh(POINTS, weights))
    spans = sorted(set(knots))
    assert len(parts) == len(spans) - 1
    for part, low, high in zip(parts, spans, spans[1:], strict=False):
        for t in (0.0, 0.31, 0.5, 1.0):
            x, y, _ = theirs.point(low + t * (high - low))
            assert part.point(t) == pytest.approx((x, y), abs=1e-9)


def test_a_spline_that_starts_within_its_knots_is_cut_to_its_domain():
    """Without repeated knots the curve lies within them and begins off the first point."""
    (part,) = split_spline(3, range(8), weigh(POINTS[:4]))
    assert part.start == pytest.approx(((0 + 4 * 3 + 6) / 6, (0 + 4 * 8 - 4) / 6))


@pytest.mark.parametrize(
    ("degree", "knots", "points"),
    [
        (3, [0] * 8, weigh(POINTS[:4])),
        (3, [0, 0, 0, 0, 1, 1, 1], weigh(POINTS[:4])),
        (3, [0, 0, 0, 0, 1, 1, 1, 0.5], weigh(POINTS[:4])),
        (3, [0, 0, 1, 1], weigh(POINTS[:2])),
        (0, [0, 1, 2], weigh(POINTS[:2])),
    ],
)
def test_numbers_that_make_no_spline_are_refused(degree, knots, points):
    """Knots all the same, too few, falling, or too few points."""
    with pytest.raises(ValueError, match="the knots of a spline"):
        split_spline(degree, knots, points)


def test_a_weight_of_nought_is_refused():
    """Such a point has no place on the curve."""
    with pytest.raises(ValueError, match="weights of a spline must be above 0"):
        split_spline(1, [0, 0, 1, 1], weigh(POINTS[:2], [1, 0]))
