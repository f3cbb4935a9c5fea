"""What the search is given and what it answers."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tinysheets import placed, sheet, strip

from nesting.search.instance import Certificate, Instance

TWO = placed((3, 2, 4, [(0, 0), (5, -2)]), (1, 1, 2, [(9, 9)]))


def test_places_are_numbered_item_by_item():
    """Each with the ground it takes and the item it belongs to."""
    assert TWO.boxes.tolist() == [[0, 0, 3, 2], [5, -2, 8, 0], [9, 9, 10, 10]]
    assert TWO.owner.tolist() == [0, 0, 1]
    assert TWO.demand == (4, 2)


def test_a_layout_is_counted_by_item():
    """Items without a panel in it count 0."""
    assert TWO.counts((0, 1)) == (2, 0)
    assert TWO.counts((2,)) == (0, 1)
    assert TWO.counts(()) == (0, 0)


def test_some_places_only_keep_their_items_and_order():
    """An item may be left without a place; all places give the instance itself."""
    few = TWO.only(np.array([1, 2]))
    assert few.boxes.tolist() == [[5, -2, 8, 0], [9, 9, 10, 10]]
    assert few.demand == TWO.demand
    assert TWO.only(np.array([2])).owner.tolist() == [1]
    assert TWO.only(np.array([0, 1, 2])) is TWO


def test_an_instance_without_items_or_places_is_empty():
    """Its arrays keep their shapes."""
    assert Instance(()).boxes.shape == (0, 4)
    assert Instance(()).counts(()) == ()
    none = placed((3, 2, 1, []))
    assert none.boxes.shape == (0, 4)
    assert none.owner.shape == (0,)


@pytest.mark.parametrize(
    ("demand", "heaviest", "bound"),
    [
        (0, 1, 0),
        (1, 1, 1),
        (6, 3, 2),
        (7, 3, 3),
        (9_999_999, 3_333_333, 3),
        (10**18 + 1, 10**18, 2),
    ],
)
def test_a_certificate_proves_its_quotient_rounded_up(demand, heaviest, bound):
    """In whole numbers, however large."""
    assert Certificate((1,), heaviest, demand).bound == bound


def test_enumeration_may_raise_a_bound_but_not_lower_it():
    """The quotient holds in any case."""
    assert Certificate((1,), 3, 6, enumerated=5, raised_to=3).bound == 3
    assert Certificate((1,), 3, 9, enumerated=5, raised_to=2).bound == 3


@settings(max_examples=40)
@given(st.lists(st.integers(0, 50), min_size=1), st.integers(1, 50), st.integers(1, 999))
def test_reducing_a_certificate_changes_no_bound(prices, heaviest, times):
    """The smallest whole numbers prove as much."""
    demand = 3 * sum(prices)
    points = ((0, 0, times * heaviest),)
    big = Certificate(
        tuple(times * p for p in prices), times * heaviest, times * demand, points, 4, 2
    )
    small = big.reduced()
    assert small.bound == big.bound
    assert small.demand * big.heaviest == big.demand * small.heaviest
    assert sum(weight for *_, weight in small.points) == small.heaviest
    assert (small.enumerated, small.raised_to) == (4, 2)


def test_sheets_of_the_tests_are_what_they_say():
    """A strip of 4 holds a piece of 3 at two places."""
    assert strip(4, (3, 1)) == sheet(4, 1, (3, 1, 1))
    assert strip(4, (3, 1)).boxes.tolist() == [[0, 0, 3, 1], [1, 0, 4, 1]]
