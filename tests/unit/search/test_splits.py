"""Ways to share casts out, and what they make up."""

from itertools import product

import numpy as np
import pytest

from nesting.search.splits import Sums, split_casts


@pytest.mark.parametrize(("casts", "layouts", "ways"), [(6, 3, 3), (10, 4, 9), (30, 5, 377)])
def test_all_ways_are_told_once(casts, layouts, ways):
    """As many as there are partitions (OEIS A026810 and A026811 at 4 and 5 parts, from memory)."""
    splits = list(split_casts(casts, layouts))
    assert len(splits) == len(set(splits)) == ways
    assert all(sum(split) == casts and len(split) == layouts for split in splits)
    assert all(list(split) == sorted(split, reverse=True) and split[-1] > 0 for split in splits)


@pytest.mark.parametrize(("casts", "layouts"), [(2, 3), (0, 1)])
def test_more_layouts_than_casts_share_nothing(casts, layouts):
    """Each layout is cast at least once; no casts are shared by no layouts."""
    assert list(split_casts(0, 0)) == [()]
    assert list(split_casts(casts, layouts)) == []


@pytest.mark.parametrize("spare", [0, 1, 3])
@pytest.mark.parametrize("split", [(7, 4, 1), (5, 5), (3,), (8, 2, 2, 1)])
def test_what_is_made_up_is_what_trying_everything_makes_up(split, spare):
    """For demands up to forty, with up to two in a layout."""
    made = {
        sum(r * c for r, c in zip(split, counts, strict=True))
        for counts in product(range(3), repeat=len(split))
    }
    for wanted in range(1, 41):
        sums = Sums(np.array([wanted]), np.array([2]), np.array([spare]))
        does = any(wanted <= total <= wanted + spare for total in made)
        assert sums.make_up(split) == does
        assert sums.table(split)[wanted] == does


def test_each_item_must_be_made_up():
    """One that cannot be is enough to refuse; the table has the items in turn."""
    sums = Sums(np.array([4, 3]), np.array([2, 2]), np.array([0, 0]))
    assert sums.make_up((2, 1))
    assert not sums.make_up((2, 2))
    assert np.flatnonzero(sums.table((2,))).tolist() == [0, 2, 4, 5, 7]
    assert np.flatnonzero(sums.table(())).tolist() == [0, 5]
