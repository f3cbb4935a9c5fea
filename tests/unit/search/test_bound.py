"""The instant bound: weights on points that anyone can add up."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, casts_of, fewest_casts, placed, sheet, strip

from nesting.search import bound, fewest
from nesting.search.bound import SCALE, certify, cover_weight, point_bound, thin_places
from nesting.search.conflicts import find_points
from nesting.search.fewest import find_casts, find_fewest
from nesting.search.solver import Deadline


def bound_of(instance, seconds=None):
    """Return the certificate of an instance and the value of the linear program."""
    return point_bound(instance, find_points(instance), Deadline(seconds))


def check_certificate(instance, certificate):
    """Assert by adding up that no place covers less than its price, and the sums."""
    for (x0, y0, x1, y1), item in zip(instance.boxes.tolist(), instance.owner, strict=True):
        covered = sum(w for x, y, w in certificate.points if x0 <= x < x1 and y0 <= y < y1)
        assert covered >= certificate.prices[item]
    assert sum(w for *_, w in certificate.points) == certificate.heaviest
    assert all(w > 0 for *_, w in certificate.points)
    priced = zip(certificate.prices, instance.demand, strict=True)
    assert certificate.demand == sum(price * quantity for price, quantity in priced)


def test_a_point_that_all_must_cover_is_the_bottleneck():
    """Pieces longer than half the strip all cover its middle: as many casts as pieces."""
    instance = strip(7, (4, 3), (5, 2))
    certificate, value = bound_of(instance)
    check_certificate(instance, certificate)
    assert value == pytest.approx(5)
    assert certificate.bound == 5
    assert certificate.prices == (certificate.heaviest,) * 2


def test_the_bound_rounds_the_linear_program_up():
    """Seven pieces of 2 on a strip of 5, two a cast: 3.5 casts, so 4."""
    instance = strip(5, (2, 7))
    certificate, value = bound_of(instance)
    check_certificate(instance, certificate)
    assert value == pytest.approx(3.5)
    assert certificate.bound == 4


def test_weights_may_favour_small_ground():
    """The larger item lies in two corners only, where the smaller may lie too."""
    instance = placed((3, 3, 5, [(0, 0), (7, 0)]), (1, 1, 1, [(x, 0) for x in range(10)]))
    certificate, value = bound_of(instance)
    check_certificate(instance, certificate)
    assert value == pytest.approx(2.5)
    assert certificate.bound == 3


@pytest.mark.parametrize("seed", range(40))
def test_the_bound_is_never_above_the_fewest_casts(seed):
    """On sheets where all layouts can be tried, with and without time to find weights."""
    instance = by_chance(random.Random(seed))
    fewest = fewest_casts(instance)
    for seconds in (None, 0):
        certificate, _ = bound_of(instance, seconds)
        check_certificate(instance, certificate)
        assert certificate.bound <= fewest


def test_without_time_there_is_still_a_certificate():
    """Equal weights everywhere prove something, and the value says that nothing was solved."""
    instance = sheet(9, 9, (5, 5, 4), (4, 4, 3), (2, 3, 9))
    certificate, value = bound_of(instance, 0)
    check_certificate(instance, certificate)
    assert value in (0, pytest.approx(bound_of(instance)[1]))


def test_any_weights_give_a_certificate():
    """Prices are the least that any place of an item covers; weights become parts of a million."""
    instance = strip(4, (2, 3), (3, 1))
    certificate = certify(instance, np.array([[1, 0], [2, 0], [9, 9]]), np.array([1.0, 1.0, 2.0]))
    check_certificate(instance, certificate)
    assert certificate.heaviest == SCALE
    assert certificate.prices == (SCALE // 4, SCALE // 2)
    assert certificate.demand == 3 * SCALE // 4 + SCALE // 2


def test_no_weight_proves_nothing():
    """Then nothing is dear and nothing heavy; the bound is 0 casts."""
    certificate = certify(strip(4, (2, 3)), np.array([[1, 0]]), np.zeros(1))
    assert (certificate.prices, certificate.demand, certificate.bound) == ((0,), 0, 0)
    assert certificate.points == ()


def test_covered_weight_is_that_of_the_points_inside():
    """The left and lower side count, the right and upper one do not; points may coincide."""
    at = np.array([[0, 0], [2, 0], [0, 3], [1, 1], [1, 1], [-5, 7]])
    weights = np.array([1, 10, 100, 1000, 1000, 5])
    boxes = np.array([[0, 0, 2, 3], [0, 0, 3, 4], [1, 1, 2, 2], [-9, -9, 9, 9], [4, 4, 5, 5]])
    assert cover_weight(boxes, at, weights).tolist() == [2001, 2111, 2000, 2116, 0]


@pytest.fixture
def thin(monkeypatch):
    """Thin to a place or two of each item, so that small sheets show it."""
    monkeypatch.setattr(bound, "_FIRST", 1)
    monkeypatch.setattr(bound, "_ADDED", 1)
    monkeypatch.setattr(bound, "_ROUNDS", 2)
    monkeypatch.setattr(fewest, "MOST", 3)


def test_a_spread_of_places_is_kept_of_every_item():
    """Sorted, each item with at least one, all of them places of the instance."""
    instance = sheet(40, 20, (7, 5, 4), (9, 8, 6), (14, 12, 2))
    working, certificate = thin_places(instance, Deadline())
    assert working.tolist() == sorted(set(working.tolist()))
    assert set(instance.owner[working].tolist()) == {0, 1, 2}
    assert len(working) < len(instance.owner)
    assert certificate.bound >= 1


def test_the_certificate_holds_for_every_place():
    """Those left out too cover at least their price."""
    instance = sheet(40, 20, (7, 5, 4), (9, 8, 6), (14, 12, 2))
    _, certificate = thin_places(instance, Deadline())
    for (x0, y0, x1, y1), item in zip(instance.boxes.tolist(), instance.owner, strict=True):
        covered = sum(w for x, y, w in certificate.points if x0 <= x < x1 and y0 <= y < y1)
        assert covered >= certificate.prices[item]
    assert sum(w for *_, w in certificate.points) == certificate.heaviest


@pytest.mark.usefixtures("thin")
@pytest.mark.parametrize("seed", range(20))
def test_a_thinned_search_claims_no_more_casts_than_are_needed(seed):
    """However few places it looks at, its bound is that of all, its schedule is real."""
    instance = by_chance(random.Random(seed))
    found = find_casts(instance, Deadline())
    least = fewest_casts(instance)
    assert found.certificate.bound <= least <= found.casts
    assert not found.search.is_whole
    total = np.zeros(len(instance.items), dtype=int)
    for repeats, counts in found.search.best:
        layout = found.original(found.search.pool.layouts[counts])
        assert instance.counts(layout) == counts
        total += repeats * np.array(counts)
    assert (total >= instance.demand).all()


@pytest.mark.usefixtures("thin")
@pytest.mark.parametrize(("seed", "layouts"), [(7, 1), (104, 1), (158, 1)])
def test_a_thinned_search_claims_no_more_layouts_than_are_needed(seed, layouts):
    """One layout does when all places are looked at, so no bound on layouts is above 1."""
    answer = find_fewest(by_chance(random.Random(seed)), Deadline())
    assert casts_of(answer) == answer.certificate.bound
    assert answer.layouts_bound <= layouts
