"""Fewer layouts by exchange."""

import numpy as np
import pytest
from tinysheets import fewest_casts, is_free, sheet, strip, yields

from nesting.search.exchange import exchange_layouts
from nesting.search.fewest import find_casts
from nesting.search.known import list_known
from nesting.search.solver import Deadline


def known_of(instance):
    """Return what is known of an instance at its fewest casts."""
    found = find_casts(instance)
    return list_known(found.search, found.casts, Deadline())


def starting(known, *entries):
    """Return the choice of (repeats, counts) and what is known with it."""
    vectors = np.array([counts for _, counts in entries])
    known, indexes = known.holding([()] * len(entries), vectors)
    return known, [(times, index) for (times, _), index in zip(entries, indexes, strict=True)]


def check_exchanged(instance, known, chosen, casts):
    """Assert that the demand is met, in no more casts."""
    assert sum(times for times, _ in chosen) <= casts
    got = sum(times * known.counts[index] for times, index in chosen)
    assert (got >= np.array(instance.demand)).all()


def test_two_layouts_become_one():
    """A mixed layout and one of two 2s, cast twice each, are the mixed one cast four times."""
    instance = strip(5, (3, 4), (2, 4))
    known, before = starting(known_of(instance), (2, (1, 1)), (2, (0, 2)))
    after = exchange_layouts(known, before, Deadline())
    check_exchanged(instance, known, after, 4)
    assert len(after) == 1


def test_three_layouts_become_two():
    """One mixed, two pure; two mixed layouts do the same in as many casts."""
    instance = strip(6, (2, 9), (3, 4))
    known, before = starting(known_of(instance), (1, (3, 0)), (2, (3, 0)), (2, (0, 2)))
    after = exchange_layouts(known, before, Deadline())
    check_exchanged(instance, known, after, 5)
    assert len(after) == 2


def test_a_layout_that_is_not_needed_goes():
    """What the others leave of the demand may be nothing."""
    instance = strip(5, (3, 2))
    known, before = starting(known_of(instance), (2, (1,)), (1, (1,)), (1, (1,)))
    after = exchange_layouts(known, before, Deadline())
    check_exchanged(instance, known, after, 4)
    assert len(after) == 1


@pytest.mark.parametrize("entries", [[(6, (1, 0)), (2, (0, 1))], [(6, (1, 0))], []])
def test_layouts_that_must_differ_are_left(entries):
    """A 3 and a 4 share no strip of 5; one layout and none cannot be fewer."""
    known = known_of(strip(5, (3, 6), (4, 2)))
    before = [(times, known.counts.tolist().index(list(counts))) for times, counts in entries]
    assert exchange_layouts(known, before, Deadline()) == before


def test_without_time_nothing_is_exchanged():
    """What is known is kept."""
    known, before = starting(known_of(strip(5, (3, 4), (2, 4))), (2, (1, 1)), (2, (0, 2)))
    assert exchange_layouts(known, before, Deadline(0)) == before


def test_what_is_known_leads_to_layouts():
    """Each entry to one that is real."""
    instance = sheet(6, 4, (3, 2, 7), (2, 2, 5))
    found = find_casts(instance)
    known = list_known(found.search, fewest_casts(instance), Deadline())
    for index, counts in enumerate(known.counts):
        layout = known.layout(index)
        assert is_free(found.search.instance, layout)
        assert all(
            a >= b
            for a, b in zip(yields(found.search.instance, [(1, layout)]), counts, strict=True)
        )
