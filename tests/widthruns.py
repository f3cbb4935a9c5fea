"""Which sizes have a place when one side is given: all widths at a height, or all heights.

With the height given, a panel can be pushed down until something stops it, so only the lines at
which that can happen need looking at; on each of them the widths follow from where its two upright
sides may lie. Exact among axis-parallel obstacles. Between slopes also every multiple of 1 mm is
looked at, as position maps do: a pocket lower than that may be missed, and every width found has a
place.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from nesting.maps.bans import OPEN_SIZE, list_bans, list_obstacles
from nesting.maps.ends import Ends, extents_between, list_all_ends, tie
from nesting.maps.ground import Ground, turn_ground_over
from nesting.maps.positions import NO_WISH, Wish
from nesting.shapes.convex import Ints, Pieces, Run, joined, merged
from nesting.shapes.geometry import Box
from nesting.units import STEPS_PER_MM
from nesting.values.casts import Sides

_LINES_AT_ONCE = 256
_ANYWHERE = 2**60


def widths_at(ground: Ground, height: int, wish: Wish = NO_WISH) -> tuple[Run, ...]:
    """Return the closed runs of flat widths a panel of flat ``height`` can have, all in [steps]."""
    found = [
        run for ends in list_all_ends(ground, wish) for run in _runs(ground, *ends, height, wish)
    ]
    return tuple(merged(found))


def heights_at(ground: Ground, width: int, wish: Wish = NO_WISH) -> tuple[Run, ...]:
    """Return the closed runs of flat heights a panel of flat ``width`` can have, all in [steps]."""
    return widths_at(turn_ground_over(ground), width, wish)


def _runs(ground: Ground, x: Ends, y: Ends, height: int, wish: Wish) -> Iterator[Run]:
    """Yield runs of widths for one combination of sides."""
    low = max(y.near[0], y.far[0] - height)
    high = min(y.near[1], y.far[1] - height)
    if low > high:
        return
    pieces, ties = _swept_up(_bans(ground, x, y, height, wish), low, high)
    least = max(1, ground.rules.edge_margin)
    lines = _lines(pieces, low, high)
    for batch in np.split(lines, range(_LINES_AT_ONCE, len(lines), _LINES_AT_ONCE)):
        first, last = pieces.ranges(batch[:, None])
        for from_, to in zip(first, last, strict=True):
            meets = from_ <= to
            kind, before, after = ties[:, meets]
            runs = extents_between(
                kind, from_[meets] - after, to[meets] - before, x.near, x.far, least
            )
            yield from zip(*(ends.tolist() for ends in runs), strict=True)


def _bans(ground: Ground, x: Ends, y: Ends, height: int, wish: Wish) -> list[tuple[Pieces, Box]]:
    """Return the strips around a panel of open width and that height, with what may not meet it."""
    sides = Sides(x.near_side, x.far_side, y.near_side, y.far_side)
    obstacles = list_obstacles(ground, wish.hide)
    bans = list_bans(OPEN_SIZE, height, sides, ground.rules)
    return [(obstacles[kind], strip) for kind, strip in bans]


def _swept_up(bans: list[tuple[Pieces, Box]], low: int, high: int) -> tuple[Pieces, Ints]:
    """Return the obstacles swept by their strips along y, and (3, n) what ties each along x.

    Those are kind, low and high of `tie`. Obstacles no strip can meet are left out.
    """
    parts, ties = [], []
    for pieces, strip in bans:
        part = pieces.swept(Box(0, strip.y0, 0, strip.y1))
        part = part.near(Box(-_ANYWHERE, low, _ANYWHERE, high))
        parts.append(part)
        ties.append(np.tile(np.array([tie(strip.x0, strip.x1)]).T, len(part)))
    return joined(parts), np.concatenate(ties, axis=1)


def _lines(pieces: Pieces, low: int, high: int) -> Ints:
    """Return the y at which a panel pushed down may come to rest."""
    tops = pieces.boxes[:, 3]
    lines = [np.array([low]), tops[(low < tops) & (tops <= high)]]
    if pieces.is_slanted().any():
        lines.append(np.arange(-(-low // STEPS_PER_MM) * STEPS_PER_MM, high + 1, STEPS_PER_MM))
    return np.unique(np.concatenate(lines))
