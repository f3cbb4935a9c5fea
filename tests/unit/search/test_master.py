"""How often to cast each known layout."""

import pytest

from nesting.search.master import Pool, count_casts, mix_layouts
from nesting.search.solver import Deadline


def pool(*counts):
    """Return a pool of layouts with these counts, numbered for their places."""
    found = Pool()
    for number, each in enumerate(counts):
        found.add(each, (number,))
    return found


def test_a_pool_keeps_one_layout_per_counts():
    """The first one, and none that holds nothing; it tells what was new."""
    known = Pool()
    assert known.add((1, 2), (0, 3, 4))
    assert not known.add((1, 2), (9, 9, 9))
    assert not known.add((0, 0), ())
    assert known.layouts == {(1, 2): (0, 3, 4)}


def test_the_cheapest_mix_of_the_roll_problem():
    """Rolls of 100 in: 97 of 45, 610 of 36, 395 of 31, 211 of 14 take 452.25 (Chvatal, memory)."""
    patterns = pool(
        (2, 0, 0, 0), (0, 2, 0, 2), (0, 2, 0, 1), (0, 1, 2, 0), (0, 0, 3, 0), (0, 0, 0, 7)
    )
    mix = mix_layouts(patterns, (97, 610, 395, 211))
    assert mix.value == pytest.approx(452.25)
    assert sum(mix.uses.values()) == pytest.approx(452.25)
    priced = zip(mix.prices, (97, 610, 395, 211), strict=True)
    assert sum(price * wanted for price, wanted in priced) == pytest.approx(452.25)


def test_no_layout_of_the_pool_is_worth_more_than_a_cast():
    """Prices are those at which every known layout costs at least what it yields."""
    known = pool((2, 0), (1, 1), (0, 3))
    mix = mix_layouts(known, (7, 5))
    for counts in known.layouts:
        assert sum(p * c for p, c in zip(mix.prices, counts, strict=True)) <= 1 + 1e-9
    assert all(price >= 0 for price in mix.prices)


def test_a_mix_that_cannot_meet_the_demand_is_an_error_of_ours():
    """The search gives every item a layout first."""
    with pytest.raises(RuntimeError, match="no solution although every item has a layout"):
        mix_layouts(pool((1, 0)), (3, 1))


def test_whole_casts_are_counted():
    """Three of 2 and one mixed cast make 7 and 1, in 4 casts where fractions need 3.75."""
    casts = count_casts(pool((2, 0), (1, 1), (0, 2)), (7, 1), 1, Deadline())
    assert sum(repeats for repeats, _ in casts) == 4
    assert sum(repeats * counts[0] for repeats, counts in casts) >= 7
    assert sum(repeats * counts[1] for repeats, counts in casts) >= 1


def test_the_count_stops_at_its_target():
    """As soon as a schedule is that good; the target is met or the fewest are found."""
    known = pool((2, 0), (1, 1), (0, 2))
    assert sum(r for r, _ in count_casts(known, (7, 1), 9, Deadline())) <= 9
    assert sum(r for r, _ in count_casts(known, (7, 1), 4, Deadline())) == 4


def test_no_known_layouts_that_do_mean_no_count():
    """Nothing is made up."""
    assert count_casts(pool((1, 0)), (3, 1), 1, Deadline()) is None
