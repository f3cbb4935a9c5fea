"""What sizes that are to share a cast ask of a motif's strips.

Panels of one cast lie a dam apart along x or along y. So along each axis every panel has a choice,
and every two of them an order or none; those along x and those along y match where each panel's
choices do and each two panels have an order along either.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from nesting.zones.zonechoices import Limits, meet
from nesting.zones.zonefield import Field, Reach
from nesting.zones.zoneneeds import Bools, Need, Totals, Way

MOST_ROWS = 40_000
"""Most ways along one axis that are gone through for one set of sizes."""
_MOST_CELLS = 20_000_000


@dataclass(frozen=True, slots=True)
class _Row:
    """One way along an axis: the choice of each panel, whether each two are in order, totals."""

    picks: tuple[int, ...]
    apart: tuple[bool, ...]
    totals: Totals


def join_needs(field: Field, needs: Sequence[Need], dam: int) -> Need | None:
    """Return the need of sizes in one cast, a dam apart [steps], one of ``needs`` for each panel.

    None where there are too many ways to go through.
    """
    ways = [_rows(field.reaches[axis], axis, needs, dam) for axis in (0, 1)]
    if ways[0] is None or ways[1] is None or len(ways[0]) * len(ways[1]) > _MOST_CELLS:
        return None
    matches: Bools = np.ones((len(ways[0]), len(ways[1])), dtype=bool)
    for number, need in enumerate(needs):
        picks = [[row.picks[number] for row in rows] for rows in (ways[0], ways[1])]
        matches &= need.matches[np.ix_(*picks)] if all(picks) else False
    for pair in range(len(needs) * (len(needs) - 1) // 2):
        across, up = ([row.apart[pair] for row in rows] for rows in (ways[0], ways[1]))
        matches &= np.logical_or.outer(across, up)
    first, matches = _merge(field.reaches[0], [row.totals for row in ways[0]], matches)
    second, turned = _merge(field.reaches[1], [row.totals for row in ways[1]], matches.T)
    return Need(
        tuple(mark for need in needs for mark in need.marks),
        tuple(size for need in needs for size in need.sizes),
        (tuple(Way((), each) for each in first), tuple(Way((), each) for each in second)),
        turned.T,
    )


def or_nothing(need: Need) -> Need:
    """Return the need with one more way along each axis, the last, that asks nothing.

    Those two go with each other only, so taking either leaves the need unmet.
    """
    rows, columns = need.matches.shape
    matches: Bools = np.zeros((rows + 1, columns + 1), dtype=bool)
    matches[:rows, :columns] = need.matches
    matches[rows, columns] = True
    idle = Way((), ())
    return Need(need.marks, need.sizes, ((*need.ways[0], idle), (*need.ways[1], idle)), matches)


def has_all(first: Sequence[int], second: Sequence[int]) -> bool:
    """Whether the first set of panels holds the second, each as often.

    >>> has_all((0, 1, 1), (1, 1)), has_all((0, 1), (1, 1))
    (True, False)
    """
    held = Counter(first)
    return all(held[number] >= count for number, count in Counter(second).items())


def _rows(reach: Reach, axis: int, needs: Sequence[Need], dam: int) -> list[_Row] | None:
    """Return every way of all panels along an axis, None where they are too many."""
    found = [_Row((), (), ())]
    for count in range(len(needs)):
        found = [row for base in found for row in _add(reach, axis, needs, base, count, dam)]
        if len(found) > MOST_ROWS:
            return None
    return found


def _add(
    reach: Reach, axis: int, needs: Sequence[Need], base: _Row, count: int, dam: int
) -> Iterator[_Row]:
    """Yield a way of the panels before number ``count`` with each choice and order of that one.

    Panels of one size may be exchanged, so along x their choices are taken in rising order.
    """
    alike = [pick for need, pick in zip(needs, base.picks, strict=False) if need is needs[count]]
    first = max(alike, default=0) if axis == 0 else 0
    for pick, way in enumerate(needs[count].ways[axis]):
        if pick < first:
            continue
        totals = _both_totals(base.totals, way.totals)
        open_ways = [] if totals is None else [_Row((*base.picks, pick), base.apart, totals)]
        for other in range(count):
            old, new = (needs[other], base.picks[other]), (needs[count], pick)
            asked = [_apart(reach, axis, *pair, dam) for pair in ((old, new), (new, old))]
            open_ways = [
                row
                for each in open_ways
                for row in (
                    _Row(each.picks, (*each.apart, False), each.totals),
                    *_ordered(each, asked),
                )
            ]
        yield from open_ways


def _ordered(row: _Row, asked: Sequence[Totals | None]) -> Iterator[_Row]:
    for totals in asked:
        both = None if totals is None else _both_totals(row.totals, totals)
        if both is not None:
            yield _Row(row.picks, (*row.apart, True), both)


def _apart(
    reach: Reach, axis: int, first: tuple[Need, int], second: tuple[Need, int], dam: int
) -> Totals | None:
    """Return what it asks that the second panel lies a dam beyond the first, None for never."""
    before, after = (need.ways[axis][pick].choices[0] for need, pick in (first, second))
    size = first[0].sizes[0][axis]
    moved = [at._replace(offset=at.offset + size + dam) for at in before.lower]
    asked = meet(reach, moved, after.upper)
    return None if asked is None else tuple(sorted(asked.items()))


def _merge(reach: Reach, totals: Sequence[Totals], matches: Bools) -> tuple[list[Totals], Bools]:
    """Return what of many ways is different: totals, with all that any way of those matches.

    A way is left out where another asks no more of the strips and matches as much.
    """
    rows: dict[Totals, Bools] = {}
    for each, row in zip(totals, matches, strict=True):
        if row.any():
            rows[each] = rows[each] | row if each in rows else row
    order = sorted(rows, key=lambda each: (len(each), each))
    kept: list[Totals] = []
    for each in order:
        if not any(
            _asks_less(reach, other, each) and _matches_all(rows, other, each) for other in kept
        ):
            kept = [
                other
                for other in kept
                if not (_asks_less(reach, each, other) and _matches_all(rows, each, other))
            ]
            kept.append(each)
    empty = np.zeros((0, matches.shape[1]), dtype=bool)
    return kept, np.array([rows[each] for each in kept]) if kept else empty


def _matches_all(rows: dict[Totals, Bools], first: Totals, second: Totals) -> bool:
    return not (rows[second] & ~rows[first]).any()


def _asks_less(reach: Reach, first: Totals, second: Totals) -> bool:
    """Whether widths that give the second what it asks give the first what it asks."""
    asked = dict(second)
    for (start, stop), limits in first:
        low, high = reach.low(start, stop), reach.high(start, stop)
        for (i, j), other in asked.items():
            if start <= i and j <= stop:
                low = max(low, other.low + reach.low(start, i) + reach.low(j, stop))
            if i <= start and stop <= j:
                high = min(high, other.high - reach.low(i, start) - reach.low(stop, j))
        if low < limits.low or high > limits.high:
            return False
    return True


def _both_totals(first: Totals, second: Totals) -> Totals | None:
    """Return what asks both, None where no total can."""
    found = dict(first)
    for span, limits in second:
        old = found.get(span, limits)
        found[span] = Limits(max(old.low, limits.low), min(old.high, limits.high))
        if found[span].low > found[span].high:
            return None
    return tuple(sorted(found.items()))
