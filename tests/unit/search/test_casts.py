"""Fewest casts: the search, its bounds and what it keeps."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, fewest_casts, is_free, placed, strip

from nesting.search.casts import CastSearch
from nesting.search.instance import Certificate
from nesting.search.reduce import reduce_places
from nesting.search.solver import Deadline


def searched(instance, seconds=None, **options):
    """Return a search run to its end."""
    search = CastSearch(instance, Deadline(seconds), **options)
    search.run()
    return search


def check_search(search):
    """Assert that the best schedule is real and meets the demand."""
    instance = search.instance
    total = np.zeros(len(instance.items), dtype=int)
    for repeats, counts in search.best:
        layout = search.pool.layouts[counts]
        assert repeats >= 1
        assert instance.counts(layout) == counts
        assert is_free(instance, layout)
        total += repeats * np.array(counts)
    assert (total >= instance.demand).all()


@pytest.mark.parametrize("seed", range(25))
def test_the_fewest_casts_are_found_and_proved(seed):
    """As by trying all layouts in all numbers of casts."""
    instance = by_chance(random.Random(seed))
    search = searched(instance)
    check_search(search)
    assert search.casts == search.certificate.bound == fewest_casts(instance)


@pytest.mark.parametrize("seconds", [0, 0.001, 0.02])
@pytest.mark.parametrize("seed", range(6))
def test_a_deadline_loses_neither_schedule_nor_honesty(seconds, seed):
    """However early it comes there is a schedule, and no bound above the fewest casts."""
    instance = by_chance(random.Random(seed))
    search = searched(instance, seconds)
    check_search(search)
    assert search.certificate.bound <= fewest_casts(instance) <= search.casts


def with_a_gap():
    """Return pieces of 44, 33 and 12 on a strip of 132, at the places where they can be stopped."""
    stops = {44 * a + 33 * b + 12 * c for a in range(3) for b in range(4) for c in range(7)}
    order = (44, 2), (33, 3), (12, 6)
    pieces = [
        (width, 1, n, sorted((x, 0) for x in stops if x + width <= 132)) for width, n in order
    ]
    return reduce_places(placed(*pieces))[0]


def test_a_gap_that_fractions_leave_is_settled():
    """Fractions need less than 3 casts and 2 do not do: heavy layouts are listed, 3 is proved."""
    search = searched(with_a_gap())
    check_search(search)
    assert (search.casts, search.certificate.bound) == (3, 3)


@pytest.mark.parametrize("seed", [175, 394, 1001, 2684, 3266, 3412])
def test_where_prices_leave_a_gap_heavy_layouts_are_listed(seed):
    """On these sheets no prices prove the fewest casts; the list raises the bound to just that."""
    pick = random.Random(seed)
    instance = by_chance(pick, items=pick.choice([3, 4, 5]))
    search = searched(instance)
    check_search(search)
    certificate = search.certificate
    assert certificate.enumerated > 0
    assert -(-certificate.demand // certificate.heaviest) < certificate.bound
    assert certificate.bound == search.casts == fewest_casts(instance)


def test_a_pure_order_needs_no_search():
    """Ten pieces, three on a strip: 4 casts, of one layout cast three times and a last one."""
    search = searched(strip(10, (3, 10)))
    check_search(search)
    assert (search.casts, search.certificate.bound) == (4, 4)


def test_many_of_one_size_are_few_entries():
    """A million casts are a repeat, not a million entries."""
    search = searched(strip(10, (3, 3_000_000), (4, 7)))
    check_search(search)
    assert search.casts == search.certificate.bound
    assert len(search.best) < 10


def test_a_given_certificate_is_all_that_is_claimed():
    """Then the places are not all there are, so nothing is proved from them."""
    instance = strip(5, (3, 6))
    known = Certificate((1,), 3, 6)
    search = searched(instance, certificate=known)
    check_search(search)
    assert search.casts == 6
    assert search.certificate == known
    assert not search.is_whole


def test_progress_is_reported():
    """First what is known at the start, then after each step."""
    lines = []
    searched(with_a_gap(), report=lines.append)
    assert len(lines) > 1
    assert all(line.split()[1:4] == ["casts,", "at", "least"] for line in lines)
    assert lines[-1] == "3 casts, at least 3"


def test_items_that_share_no_layout_are_cast_apart():
    """Each place meets each other one."""
    search = searched(placed((3, 3, 4, [(0, 0)]), (2, 2, 3, [(1, 1)])))
    check_search(search)
    assert (search.casts, search.certificate.bound) == (7, 7)
