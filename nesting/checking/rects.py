"""The checker's own rectangles: gaps between them, dam rings and strips along a panel's sides.

All in whole steps, so exact. Nothing here is shared with the search.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from nesting.values.casts import Dam, Placement, Side
from nesting.values.job import Job

_NEAR = 400  # steps, 0.05 mm


class StepRect(NamedTuple):
    """The checker's own rectangle, [x0, x1] x [y0, y1] in steps."""

    x0: int
    y0: int
    x1: int
    y1: int


def rect_of(item: Dam | Placement) -> StepRect:
    """Return the ground a panel or a dam covers."""
    return StepRect(item.x, item.y, item.x + item.width, item.y + item.height)


def grown(rect: StepRect, by: int) -> StepRect:
    """Return all points within ``by`` [steps] of the rectangle, measured square to it."""
    return StepRect(rect.x0 - by, rect.y0 - by, rect.x1 + by, rect.y1 + by)


def apart(one: StepRect, other: StepRect) -> int:
    """Return the gap [steps] along x or along y, whichever is wider; negative where they overlap.

    >>> apart(StepRect(0, 0, 10, 10), StepRect(13, 5, 20, 20))
    3
    >>> apart(StepRect(0, 0, 4, 4), StepRect(3, 1, 9, 9))
    -1
    """
    return max(gaps_of(one, other))


def gaps_of(one: StepRect, other: StepRect) -> tuple[int, int]:
    """Return the gap [steps] along x and the one along y, negative where they overlap there."""
    across = max(other.x0 - one.x1, one.x0 - other.x1)
    return across, max(other.y0 - one.y1, one.y0 - other.y1)


def square_of_gap(one: StepRect, other: StepRect) -> int:
    """Return the square of the straight distance [square steps]; 0 where they touch or overlap.

    >>> square_of_gap(StepRect(0, 0, 10, 10), StepRect(13, 14, 20, 20))
    25
    """
    across = max(0, other.x0 - one.x1, one.x0 - other.x1)
    up = max(0, other.y0 - one.y1, one.y0 - other.y1)
    return across**2 + up**2


def close_pairs(rects: Sequence[StepRect], gap: int) -> Iterator[tuple[int, int]]:
    """Yield the index pairs of rectangles less than ``gap`` [steps] apart along x and along y."""
    order = sorted(range(len(rects)), key=lambda index: rects[index])
    for place, one in enumerate(order):
        for other in order[place + 1 :]:
            if rects[other].x0 >= rects[one].x1 + gap:
                break
            if apart(rects[one], rects[other]) < gap:
                yield min(one, other), max(one, other)


def ring_strips(panel: Placement, width: int) -> dict[str, StepRect]:
    """Return the panel's dam ring as one strip per dam side, corner squares in both that meet."""
    rect = rect_of(panel)
    dams = {side for side, kind in panel.sides._asdict().items() if kind == "dam"}
    outer = StepRect(
        rect.x0 - width * ("left" in dams),
        rect.y0 - width * ("bottom" in dams),
        rect.x1 + width * ("right" in dams),
        rect.y1 + width * ("top" in dams),
    )
    strips = {
        "left": outer._replace(x1=rect.x0),
        "right": outer._replace(x0=rect.x1),
        "bottom": outer._replace(y1=rect.y0),
        "top": outer._replace(y0=rect.y1),
    }
    return {side: strip for side, strip in strips.items() if side in dams}


def inner_strips(panel: Placement, kind: Side, depth: int) -> dict[str, StepRect]:
    """Return the strip of that depth inside the panel along each side of that kind."""
    rect = rect_of(panel)
    strips = {
        "left": rect._replace(x1=rect.x0 + depth),
        "right": rect._replace(x0=rect.x1 - depth),
        "bottom": rect._replace(y1=rect.y0 + depth),
        "top": rect._replace(y0=rect.y1 - depth),
    }
    kinds = panel.sides._asdict()
    return {side: strip for side, strip in strips.items() if kinds[side] == kind}


def has_width(job: Job, extent: int) -> bool:
    """Whether a strip is of a width the shop has, to 0.05 mm."""
    return any(abs(extent - width) <= _NEAR for width in job.dam_widths)


def has_area(item: Dam | Placement) -> bool:
    """Whether a dam or a panel covers any ground at all."""
    return item.width > 0 and item.height > 0
