"""The bound from sharing casts out over liners."""

import pytest
from shiftwork import make_work

from nesting.ordering.sharing import share_end
from nesting.search.solver import Deadline


@pytest.mark.parametrize(("changes", "end"), [(1, 5), (2, 4), (9, 4)])
def test_fewer_changes_end_later(changes, end):
    """A x 5, B x 1, C x 2 on two liners: A alone takes 5 shifts, A shared out 4."""
    work = make_work([0, 1, 2], [5, 1, 2], [0, 0, 0], liners=2, beds=[2])
    assert share_end(work, changes, Deadline()) == end


def test_without_time_it_says_nothing():
    """No time leaves a bound that every order keeps."""
    work = make_work([0], [4], [0])
    assert share_end(work, 0, Deadline(0)) <= 4
