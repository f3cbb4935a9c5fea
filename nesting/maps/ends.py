"""Where a panel of open size may end: the strips it keeps off, tied to its sides.

A strip of the dam ring, of the clearance or of the edge margin begins and ends at fixed distances
from the panel's near side (left, bottom) or its far side (right, top). Where the size is not known
yet, those distances still are. So each obstacle forbids, along one axis, either places of the near
side, or places of the far side, or pairs of both: where a strip reaches *across* the panel, an
obstacle must lie before the one or beyond the other.
"""

from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

import numpy as np

from nesting.maps.bans import OPEN_SIZE, list_bans, list_obstacles
from nesting.maps.ground import Ground, Rims
from nesting.maps.positions import Wish
from nesting.shapes.convex import Ints, Pieces, Run, free_runs, joined
from nesting.shapes.geometry import Box
from nesting.values.casts import Side, Sides

NEAR, FAR, ACROSS = 0, 1, 2
"""What the two ends of a strip are tied to: both near, both far, one each."""

_BEYOND = 2**60


class Ends(NamedTuple):
    """Where the near and the far side of a panel may lie along one axis, closed [steps].

    ``across`` limits the panel along the other axis, where a side lies on a stretch of the rim.
    """

    near_side: Side
    far_side: Side
    near: Run
    far: Run
    across: Run


def list_ends(low_rims: Rims, high_rims: Rims, low: int, high: int, dam: int) -> Iterator[Ends]:
    """Yield each way the two sides across one axis may be stopped, on a frame from low to high."""
    near, far, free = (low + dam, high), (low, high - dam), (-_BEYOND, _BEYOND)
    yield Ends("dam", "dam", near, far, free)
    for at, start, stop in low_rims:
        yield Ends("edge", "dam", (at, at), far, (start, stop))
    for at, start, stop in high_rims:
        yield Ends("dam", "edge", near, (at, at), (start, stop))
    for (at, start, stop), (end, from_, to) in product(low_rims, high_rims):
        if at < end:
            limits = max(start, from_), min(stop, to)
            yield Ends("edge", "edge", (at, at), (end, end), limits)


def list_all_ends(ground: Ground, wish: Wish) -> Iterator[tuple[Ends, Ends]]:
    """Yield the ends along x and along y of every combination of sides, the limits joined in."""
    frame, dam = ground.frame, ground.rules.dam_width
    across = list(list_ends(ground.left_rims, ground.right_rims, frame.x0, frame.x1, dam))
    up = list(list_ends(ground.bottom_rims, ground.top_rims, frame.y0, frame.y1, dam))
    shown = joined([ground.ornaments[index] for index in sorted(wish.show)]).boxes
    for x, y in product(across, up):
        ends = _limited(x, y.across, shown[:, [0, 2]]), _limited(y, x.across, shown[:, [1, 3]])
        if all(each.near[0] <= each.near[1] and each.far[0] <= each.far[1] for each in ends):
            yield ends


def _limited(ends: Ends, limits: Run, shown: Ints) -> Ends:
    """Return the ends within limits and around what the panel must show, (n, 2) from and to."""
    near_most = int(shown[:, 0].min(initial=_BEYOND))
    far_least = int(shown[:, 1].max(initial=-_BEYOND))
    near = max(ends.near[0], limits[0]), min(ends.near[1], near_most)
    far = max(ends.far[0], far_least), min(ends.far[1], limits[1])
    return ends._replace(near=near, far=far)


def open_bans(ground: Ground, x: Ends, y: Ends, wish: Wish) -> list[tuple[Pieces, Box]]:
    """Return every strip around a panel of open size that so ends, with what may not meet it."""
    sides = Sides(x.near_side, x.far_side, y.near_side, y.far_side)
    obstacles = list_obstacles(ground, wish.hide)
    bans = list_bans(OPEN_SIZE, OPEN_SIZE, sides, ground.rules)
    return [(obstacles[kind], strip) for kind, strip in bans]


def tie(low: int, high: int) -> tuple[int, int, int]:
    """Return what a strip's ends are tied to, and their distances from there.

    >>> tie(-25, 0), tie(OPEN_SIZE, OPEN_SIZE + 25), tie(-25, OPEN_SIZE + 25)
    ((0, -25, 0), (1, 0, 25), (2, -25, 25))
    """
    far_low, far_high = low > OPEN_SIZE // 2, high > OPEN_SIZE // 2
    kind = FAR if far_low else ACROSS if far_high else NEAR
    return kind, low - far_low * OPEN_SIZE, high - far_high * OPEN_SIZE


def extents_between(
    kind: Ints, first: Ints, last: Ints, near: Run, far: Run, least: int
) -> tuple[Ints, Ints]:
    """Return closed ranges of extents a panel may have along one axis; together all of them.

    Parameters
    ----------
    kind, first, last
        Per obstacle, (n,): the closed range of near sides, or of far sides, it forbids; for one
        ``ACROSS``, the panel must begin at ``last`` + 1 or beyond it, or end before ``first``.
    near, far
        Where the near and the far side may lie, closed [steps].
    least
        The least extent wanted [steps].
    """
    forbidden = np.stack([first, last], axis=1)
    near_runs = np.array(free_runs(*near, forbidden[kind == NEAR]), dtype=np.int64).reshape(-1, 2)
    far_runs = np.array(free_runs(*far, forbidden[kind == FAR]), dtype=np.int64).reshape(-1, 2)
    if not len(near_runs) or not len(far_runs):
        return _NONE, _NONE
    begin, end, most = _segments(near_runs, forbidden[kind == ACROSS])
    top = np.minimum(far_runs[None, :, 1], most[:, None])
    low = np.maximum(far_runs[None, :, 0] - end[:, None], least)
    high = top - begin[:, None]
    kept = (top >= far_runs[None, :, 0]) & (high >= low)
    return low[kept], high[kept]


_NONE = np.array([], dtype=np.int64)


def _segments(runs: Ints, across: Ints) -> tuple[Ints, Ints, Ints]:
    """Cut runs of near sides where an obstacle falls behind: (begin, end, most of the far side)."""
    after = across[:, 1] + 1
    order = np.argsort(after, kind="stable")
    before = np.minimum.accumulate((across[:, 0] - 1)[order][::-1])[::-1]
    cuts = after[order]
    lows = np.concatenate([[-_BEYOND], cuts])
    highs = np.concatenate([cuts, [_BEYOND]])
    most = np.append(before, _BEYOND)
    begin = np.maximum(runs[:, :1], lows[None, :])
    end = np.minimum(runs[:, 1:], highs[None, :])
    kept = begin <= end
    return begin[kept], end[kept], np.broadcast_to(most, begin.shape)[kept]
