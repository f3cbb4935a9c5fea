"""What sizes that are to share a cast ask of a motif's strips.

Panels of one cast lie a dam apart along x or along y. So along each axis every panel has a choice,
and every two of them an order or none; those along x and those along y match where each panel's
choices do and each two panels have an order along either. What choices and orders ask is exact: the
panels' positions are unknowns beside the shifts of the segments, and shortest paths leave them out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from nesting.shapes.convex import Bools, Ints
from nesting.zones.choices import Anchor, TotalLimits
from nesting.zones.field import Field, Reach
from nesting.zones.needs import Need, NeedWay, SpanTotals
from nesting.zones.spans import spread, tighten

MOST_ROWS = 40_000
"""Most ways along one axis that are gone through for one set of sizes."""
_MOST_CELLS = 20_000_000
_MOST_LIMITS = 8_000_000  # most limits of all those ways together
_MOST_COMPARED = 400  # most ways along one axis that are all held against each other
_FAR = 1 << 40  # steps; no limit


@dataclass(frozen=True, slots=True)
class _Rows:
    """Ways along an axis, a row each: choice of each panel, which two are in order, the limits.

    ``far`` are those on the segments, then on the panels' lower sides, as in `spans`.
    """

    picks: Ints
    apart: Bools
    far: Ints

    def __len__(self) -> int:
        return len(self.far)

    def only(self, mask: Bools) -> _Rows:
        return _Rows(self.picks[mask], self.apart[mask], self.far[mask])


def join_needs(field: Field, needs: Sequence[Need], dam: int) -> Need | None:
    """Return the need of sizes in one cast, a dam apart [steps], one of ``needs`` for each panel.

    None where there are too many ways to go through.
    """
    bases = [_base(reach) for reach in field.reaches]
    ways = [_list_rows(bases[axis], axis, needs, dam) for axis in (0, 1)]
    if ways[0] is None or ways[1] is None or len(ways[0]) * len(ways[1]) > _MOST_CELLS:
        return None
    matches: Bools = np.ones((len(ways[0]), len(ways[1])), dtype=bool)
    for number, need in enumerate(needs):
        matches &= need.matches[np.ix_(ways[0].picks[:, number], ways[1].picks[:, number])]
    for pair in range(ways[0].apart.shape[1]):
        matches &= np.logical_or.outer(ways[0].apart[:, pair], ways[1].apart[:, pair])
    first, matches = _merge(bases[0], ways[0].far, matches)
    second, turned = _merge(bases[1], ways[1].far, matches.T)
    return Need(
        tuple(mark for need in needs for mark in need.marks),
        tuple(size for need in needs for size in need.sizes),
        (tuple(NeedWay((), each) for each in first), tuple(NeedWay((), each) for each in second)),
        turned.T,
    )


def has_all(first: Sequence[int], second: Sequence[int]) -> bool:
    """Whether the first set of panels holds the second, each as often.

    >>> has_all((0, 1, 1), (1, 1)), has_all((0, 1), (1, 1))
    (True, False)
    """
    held = Counter(first)
    return all(held[number] >= count for number, count in Counter(second).items())


def _base(reach: Reach) -> Ints:
    """Return the limits that the strips' own come to."""
    far = spread(reach.least, reach.greatest)
    far[0, -1] = min(far[0, -1], reach.most)
    tighten(far)
    return far


def _list_rows(base: Ints, axis: int, needs: Sequence[Need], dam: int) -> _Rows | None:
    """Return every way of all panels along an axis, None where they are too many."""
    rows = _Rows(np.zeros((1, 0), dtype=np.int64), np.zeros((1, 0), dtype=bool), base[None])
    for count, need in enumerate(needs):
        most = min(MOST_ROWS, _MOST_LIMITS // (len(base) + count + 1) ** 2)
        if len(rows) * len(need.ways[axis]) > most:
            return None
        alike = [other for other in range(count) if needs[other] is need]
        rows = _add_panel(rows, base, need, axis, alike)
        for other in range(count):
            rows = _add_order(rows, len(base), (other, needs[other]), (count, need), axis, dam)
            if len(rows) > most:
                return None
    return rows


def _add_panel(rows: _Rows, base: Ints, need: Need, axis: int, alike: Sequence[int]) -> _Rows:
    """Return the rows with each choice of one panel more.

    Panels of one size may be exchanged, so along x their choices are taken in rising order.
    """
    ways = need.ways[axis]
    size, old = rows.far.shape[1], len(rows)
    picks = np.tile(np.arange(len(ways)), old)
    far = np.full((old * len(ways), size + 1, size + 1), _FAR, dtype=np.int64)
    far[:, :size, :size] = np.repeat(rows.far, len(ways), axis=0)
    far[:, size, size] = 0
    lower = np.array([_limits(way.choices[0].lower, len(base), -1) for way in ways])
    upper = np.array([_limits(way.choices[0].upper, len(base), 1) for way in ways])
    for segment in range(len(base)):
        low, high = lower.reshape(-1, len(base)), upper.reshape(-1, len(base))
        beyond = low[picks, segment, None] + far[:, segment, :size]
        far[:, size, :size] = np.minimum(far[:, size, :size], beyond)
        before = far[:, :size, segment] + high[picks, segment, None]
        far[:, :size, size] = np.minimum(far[:, :size, size], before)
    grown = _Rows(
        np.column_stack([np.repeat(rows.picks, len(ways), axis=0), picks]),
        np.repeat(rows.apart, len(ways), axis=0),
        np.minimum(far, far[:, :, [size]] + far[:, [size], :]),
    )
    possible = _keeps(grown.far)
    if alike and axis == 0:
        possible &= picks >= grown.picks[:, alike].max(axis=1)
    return grown.only(possible)


def _add_order(
    rows: _Rows, first: int, old: tuple[int, Need], new: tuple[int, Need], axis: int, dam: int
) -> _Rows:
    """Return the rows with two panels in no order, and in either; ``first`` is the first panel.

    Where the choices put them in order already, nothing else need be looked at.
    """
    edges = []
    for (before, need), (after, _) in ((old, new), (new, old)):
        edges.append((first + after, first + before, need.sizes[0][axis] + dam))
    given = np.zeros(len(rows), dtype=bool)
    for start, stop, gap in edges:
        given |= rows.far[:, start, stop] <= -gap
    found = [_Rows(rows.picks, np.column_stack([rows.apart, given]), rows.far)]
    rest = rows.only(~given)
    for start, stop, gap in edges:
        far = np.minimum(rest.far, rest.far[:, :, [start]] - gap + rest.far[:, [stop], :])
        apart = np.column_stack([rest.apart, np.ones(len(rest), dtype=bool)])
        found.append(_Rows(rest.picks, apart, far).only(_keeps(far)))
    return _Rows(
        np.concatenate([each.picks for each in found]),
        np.concatenate([each.apart for each in found]),
        np.concatenate([each.far for each in found]),
    )


def _limits(anchors: Sequence[Anchor], segments: int, sign: int) -> list[int]:
    """Return the tightest limit to each segment; ``sign`` is -1 for those of least distance."""
    found = [_FAR] * segments
    for anchor in anchors:
        found[anchor.segment] = min(found[anchor.segment], sign * anchor.offset)
    return found


def _keeps(far: Ints) -> Bools:
    return np.asarray((np.diagonal(far, axis1=1, axis2=2) >= 0).all(axis=1))


def _merge(base: Ints, far: Ints, matches: Bools) -> tuple[list[SpanTotals], Bools]:
    """Return what of many ways is different: totals, with all that any way of those matches.

    A way is left out where another asks no more of the strips and matches as much.
    """
    size = len(base)
    open_ways = matches.any(axis=1)
    asked, same = np.unique(
        far[open_ways][:, :size, :size].reshape(-1, size * size), axis=0, return_inverse=True
    )
    joined: Bools = np.zeros((len(asked), matches.shape[1]), dtype=bool)
    np.logical_or.at(joined, same.reshape(-1), matches[open_ways])
    kept = _undominated(asked, joined)
    totals = [_totals(base, row.reshape(size, size)) for row in asked[kept]]
    return totals, joined[kept]


def _undominated(asked: Ints, joined: Bools) -> list[int]:
    """Return the ways that no other stands in for: all, of those that match alike, if many."""
    if len(asked) <= _MOST_COMPARED:
        groups = [list(range(len(asked)))]
    else:
        _, alike = np.unique(joined, axis=0, return_inverse=True)
        groups = [list(np.flatnonzero(alike.reshape(-1) == n)) for n in range(alike.max() + 1)]
    kept: list[int] = []
    for group in groups:
        mine = sorted(group, key=lambda n: (-int(asked[n].sum()), n))
        chosen: list[int] = []
        for way in mine:
            slacker = (asked[chosen] >= asked[way]).all(axis=1)
            if not (slacker & (joined[chosen] >= joined[way]).all(axis=1)).any():
                chosen.append(way)
        kept += chosen
    return sorted(kept)


def _totals(base: Ints, far: Ints) -> SpanTotals:
    """Return the limits on totals of strips beyond those the strips' own come to."""
    return tuple(
        ((i, j), TotalLimits(-int(far[j, i]), int(far[i, j])))
        for i in range(len(base))
        for j in range(i + 1, len(base))
        if far[j, i] < base[j, i] or far[i, j] < base[i, j]
    )
