"""Conflicts: a few points say which places exclude each other."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, every_layout, excludes, placed, sheet, strip

from nesting.search import conflicts
from nesting.search.conflicts import find_points
from nesting.search.instance import Instance


def covered(instance, points):
    """Return the matrix of which places cover which points, lower and left sides included."""
    x0, y0, x1, y1 = instance.boxes.T
    x, y = points.at.T[:, :, None]
    return (x0 <= x) & (x < x1) & (y0 <= y) & (y < y1)


@pytest.mark.parametrize("compare_all", [3000, 0])
def test_places_conflict_exactly_when_they_share_a_point(compare_all, monkeypatch):
    """For all pairs, whether points are compared with all others or with neighbours only."""
    monkeypatch.setattr(conflicts, "_COMPARE_ALL", compare_all)
    for seed in range(60):
        instance = by_chance(random.Random(seed), items=4)
        points = find_points(instance)
        shared = np.any(points.cover[:, :, None] & points.cover[:, None, :], axis=0)
        assert (shared == excludes(instance)).all()
        assert (points.cover == covered(instance, points)).all()


def test_no_point_is_covered_twice_by_a_layout():
    """A set of places is free of conflicts when no point is used more than once."""
    instance = sheet(4, 3, (2, 2, 1), (3, 1, 1))
    points = find_points(instance)
    layouts = set(every_layout(instance))
    assert all(points.cover[:, list(layout)].sum(axis=1).max() <= 1 for layout in layouts if layout)


def test_points_held_by_others_are_left_out():
    """No row is part of another, and none is there twice."""
    for seed in range(30):
        cover = find_points(by_chance(random.Random(seed), items=4)).cover
        held = ~(cover[:, None, :] & ~cover[None, :, :]).any(axis=2)
        assert held.sum() == len(cover)


def test_pieces_on_a_strip_need_a_point_per_end():
    """Places of 2 on a strip of 4: [0,2), [1,3), [2,4) meet at 1 and at 2."""
    points = find_points(strip(4, (2, 1)))
    assert points.at.tolist() == [[1, 0], [2, 0]]
    assert points.cover.tolist() == [[True, True, False], [False, True, True]]
    assert [row.tolist() for row in points.rows()] == [[0, 1], [1, 2]]


def test_places_that_only_touch_do_not_conflict():
    """Each has a point of its own; so has a place that meets nothing."""
    points = find_points(placed((2, 2, 1, [(0, 0), (2, 0), (0, 2)]), (1, 1, 1, [(-9, -9)])))
    assert points.cover.sum(axis=1).tolist() == [1, 1, 1, 1]
    assert len(points.at) == 4


def test_no_places_have_no_points():
    """Neither without items nor with items that lie nowhere."""
    for empty in (Instance(()), placed((2, 2, 1, []))):
        points = find_points(empty)
        assert points.cover.shape == (0, 0)
        assert points.rows() == []
