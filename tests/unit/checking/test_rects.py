"""Gaps, dam rings and strips along a panel's sides."""

import pytest
from handjob import MM, place
from hypothesis import given
from hypothesis import strategies as st

from nesting.checking.rects import (
    StepRect,
    apart,
    close_pairs,
    grown,
    has_area,
    inner_strips,
    ring_strips,
)

SMALL = st.integers(0, 12)
RECTS = st.builds(
    lambda x, y, width, height: StepRect(x, y, x + width, y + height),
    SMALL,
    SMALL,
    st.integers(1, 6),
    st.integers(1, 6),
)


def cells(rect):
    """Return the unit squares of a small rectangle."""
    return {(x, y) for x in range(rect.x0, rect.x1) for y in range(rect.y0, rect.y1)}


@given(RECTS, RECTS, st.integers(0, 5))
def test_apart_is_the_square_growth_that_makes_two_rectangles_meet(one, other, by):
    """Grown by less than the gap they do not meet, by more they do; negative when they overlap."""
    gap = apart(one, other)
    assert bool(cells(one) & cells(other)) == (gap < 0)
    if gap >= 0:
        assert bool(cells(grown(one, by)) & cells(other)) == (by > gap)


@given(st.lists(RECTS, max_size=8), st.integers(0, 4))
def test_close_pairs_are_all_pairs_nearer_than_the_gap(rects, gap):
    """The sweep along x leaves none out and says none twice."""
    expected = [
        (i, j) for j in range(len(rects)) for i in range(j) if apart(rects[i], rects[j]) < gap
    ]
    assert sorted(close_pairs(rects, gap)) == sorted(expected)


def test_a_ring_has_its_corner_square_only_where_two_dam_sides_meet():
    """Dams right and top: both strips hold the corner above right, none reaches past a rim."""
    strips = ring_strips(place("A1", 0, 0, 4, 3, "rt"), MM)
    assert strips == {
        "right": StepRect(4 * MM, 0, 5 * MM, 4 * MM),
        "top": StepRect(0, 3 * MM, 5 * MM, 4 * MM),
    }


@pytest.mark.parametrize("kind", ["dam", "edge"])
def test_inner_strips_follow_the_sides_of_their_kind(kind):
    """Left and bottom are of one kind, right and top of the other."""
    panel = place("A1", 0, 0, 4, 3, "lb" if kind == "dam" else "rt")
    assert inner_strips(panel, kind, MM) == {
        "left": StepRect(0, 0, MM, 3 * MM),
        "bottom": StepRect(0, 0, 4 * MM, MM),
    }


@pytest.mark.parametrize(("width", "height", "has"), [(1, 1, True), (0, 1, False), (1, 0, False)])
def test_a_panel_of_one_step_has_area(width, height, has):
    """Of no width or no height it has none."""
    assert has_area(place("A1", 0, 0, width / MM, height / MM, "")) == has
