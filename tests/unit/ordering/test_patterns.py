"""Patterns: what is cut from one length of stock."""

import random
from itertools import product

import pytest

from nesting.ordering.patterns import Strips, TooManyError


def make(seed):
    """Return strips, points and a room, small enough to try all patterns."""
    chance = random.Random(seed)
    kinds = chance.randint(1, 5)
    sizes = tuple(chance.randint(1, 12) for _ in range(kinds))
    strips = Strips(sizes, tuple(chance.randint(1, 3) for _ in sizes))
    return strips, [chance.randint(0, 9) for _ in sizes], chance.randint(1, 25)


def every(strips, room):
    """Return all patterns within the room."""
    patterns = product(*(range(count + 1) for count in strips.counts))
    return [each for each in patterns if strips.size_of(each) <= room]


def value(points, pattern):
    """Return the points of a pattern."""
    return sum(p * n for p, n in zip(points, pattern, strict=True))


@pytest.mark.parametrize("seed", range(60))
def test_no_pattern_is_heavier(seed):
    """The heaviest is that of trying all, and its points are the limit."""
    strips, points, room = make(seed)
    found = strips.heaviest(points, room, 10_000)
    assert found.points == found.limit == max(value(points, each) for each in every(strips, room))
    assert found.points == value(points, found.pattern)
    assert found.pattern in every(strips, room)
    assert strips.split(points, room) >= found.limit


@pytest.mark.parametrize("seed", range(60))
def test_every_full_heavy_pattern_is_listed(seed):
    """Those into which nothing more goes, with enough points, and little enough left over."""
    strips, points, room = make(seed)
    least, spare = max(1, strips.heaviest(points, room, 10_000).points - 5), 4
    patterns = set(every(strips, room))

    def is_full(pattern):
        more = (tuple(n + (i == at) for i, n in enumerate(pattern)) for at in range(len(pattern)))
        return not any(each in patterns for each in more)

    wanted = {
        each
        for each in patterns
        if is_full(each) and value(points, each) >= least and room - strips.size_of(each) <= spare
    }
    found = strips.list_heavy(points, room, least, spare, 10_000, 100_000)
    assert set(found) == wanted
    assert len(found) == len(wanted)


def test_a_search_that_is_cut_short_says_what_split_strips_hold():
    """The limit holds, but may not be reached."""
    strips = Strips((5, 5, 5), (1, 1, 1))
    found = strips.heaviest([10, 10, 10], 12, 1)
    assert (found.points, found.limit) == (0, 24)


def test_too_many_patterns_are_refused():
    """So a list never grows without end."""
    strips = Strips((1, 2, 3), (9, 9, 9))
    with pytest.raises(TooManyError):
        strips.list_heavy([1, 2, 3], 12, 12, 0, 3, 10_000)
