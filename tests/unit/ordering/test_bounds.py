"""How late casts must be at least, against every order of small work and by hand."""

from dataclasses import replace

import pytest
from shiftwork import late_after, make_work, random_work, try_every_order

from nesting.ordering.bounds import least_late, share_end
from nesting.ordering.shifts import Way
from nesting.search.solver import Deadline

SEEDS = 36


@pytest.mark.long
def test_no_order_is_less_late():
    """On small work every order is tried: the bound is never above the best, and mostly it."""
    works = [random_work(seed) for seed in range(SEEDS)]
    pairs = [(least_late(work, Deadline()), try_every_order(work)[0]) for work in works]
    assert all(bound <= best for bound, best in pairs)
    assert (
        sum(bound == best for bound, best in pairs if best)
        > sum(1 for _, best in pairs if best) / 2
    )


def test_one_liner_is_late_by_what_cannot_be_cast_in_time():
    """Five casts due after two: one, two and three days late, 6 in all; the other layout waits."""
    work = make_work([0, 1], [5, 3], [0, 0], late=(late_after(2), late_after(50)))
    assert least_late(work, Deadline()) == 6


@pytest.mark.parametrize(("beds", "late"), [(2, 1), (1, 6)])
def test_beds_of_a_kind_are_shared(beds, late):
    """Two liners cast five by shift 3 on two beds, one of them a shift late; on one bed by 5."""
    work = make_work([0], [5], [0], liners=2, beds=[beds], late=(late_after(2),))
    assert least_late(work, Deadline()) == late


def test_set_out_before_the_first_cast_counts():
    """Two shifts of set-out put the one cast due at once two days later."""
    lead = tuple(2 if way == Way.FIRST else 0 for way in Way)
    work = make_work([0], [1], [0], late=(late_after(1),))
    assert least_late(replace(work, lead=lead), Deadline()) == 2


def test_no_casts_and_no_time_are_not_late():
    """Nothing to cast, or no time to say."""
    assert least_late(make_work([0], [0], [0]), Deadline()) == 0
    work = make_work([0], [5], [0], late=(late_after(2),))
    assert least_late(work, Deadline(0)) == 0


@pytest.mark.parametrize(("changes", "end"), [(1, 5), (2, 4), (9, 4)])
def test_fewer_changes_end_later(changes, end):
    """A x 5, B x 1, C x 2 on two liners: A alone takes 5 shifts, A shared out 4."""
    work = make_work([0, 1, 2], [5, 1, 2], [0, 0, 0], liners=2, beds=[2])
    assert share_end(work, changes, Deadline()) == end


def test_without_time_it_says_nothing():
    """No time leaves a bound that every order keeps."""
    work = make_work([0], [4], [0])
    assert share_end(work, 0, Deadline(0)) <= 4
