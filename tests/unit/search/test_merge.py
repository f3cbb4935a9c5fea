"""Fewer layouts by exchange."""

import pytest
from tinysheets import is_free, sheet, strip, yields

from nesting.search.merge import merge_layouts
from nesting.search.solver import Deadline


def check_merged(instance, before, after):
    """Assert that the demand is still met, in no more casts."""
    assert sum(times for times, _ in after) <= sum(times for times, _ in before)
    assert all(is_free(instance, layout) for _, layout in after)
    got = yields(instance, after)
    assert all(made >= wanted for made, wanted in zip(got, instance.demand, strict=True))


def test_two_layouts_become_one():
    """A mixed layout and one of two 2s, cast twice each, are the mixed one cast four times."""
    instance = strip(5, (3, 4), (2, 4))
    three, two = instance.owner.tolist().index(0), instance.boxes.tolist().index([3, 0, 5, 1])
    left = instance.boxes.tolist().index([0, 0, 2, 1])
    before = [(2, (three, two)), (2, (three + 2, left))]
    after = merge_layouts(instance, before, Deadline())
    check_merged(instance, before, after)
    assert len(after) == 1


def test_three_layouts_become_two():
    """One mixed, two pure; two mixed layouts do the same in as many casts."""
    instance = strip(6, (2, 9), (3, 4))
    boxes = instance.boxes.tolist()
    pure = tuple(boxes.index([x, 0, x + 2, 1]) for x in (0, 2, 4))
    other = tuple(boxes.index([x, 0, x + 3, 1]) for x in (0, 3))
    before = [(1, pure), (2, pure), (2, other)]
    after = merge_layouts(instance, before, Deadline())
    check_merged(instance, before, after)
    assert len(after) == 2


def test_layouts_that_must_differ_are_left():
    """A 3 and a 4 share no strip of 5."""
    instance = strip(5, (3, 6), (4, 2))
    before = [(6, (0,)), (2, (3,))]
    assert merge_layouts(instance, before, Deadline()) == before


@pytest.mark.parametrize("casts", [[], [(3, (0,))]])
def test_none_and_one_cannot_be_fewer(casts):
    """They are returned as they are."""
    assert merge_layouts(strip(5, (3, 3)), casts, Deadline()) == casts


def test_a_layout_that_is_not_needed_goes():
    """What the others leave of the demand may be nothing."""
    instance = strip(5, (3, 2))
    before = [(2, (0,)), (1, (1,)), (1, (2,))]
    after = merge_layouts(instance, before, Deadline())
    check_merged(instance, before, after)
    assert len(after) == 1


def test_without_time_nothing_is_exchanged():
    """What is known is kept."""
    instance = sheet(5, 1, (3, 1, 4), (2, 1, 4))
    before = [(2, (0,)), (2, (1,))]
    assert merge_layouts(instance, before, Deadline(0)) == before
