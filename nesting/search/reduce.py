"""Fewer places with nothing lost: a place that another of the same item can always stand in for.

If everything that excludes place b also excludes place a, any layout that uses a may use b
instead. So a can go. What is left excludes less, so the rule is applied until nothing changes.
"""

import numpy as np
from numpy.typing import NDArray

from nesting.search.instance import Instance, Ints

LARGEST = 6_000
"""With more places than this the instance is left as it is: the test is quadratic."""


def reduce_places(instance: Instance) -> tuple[Instance, Ints]:
    """Return the instance without replaceable places, and the old index of each place kept."""
    kept = np.arange(len(instance.owner))
    while len(kept) <= LARGEST:
        survivors = _irreplaceable(instance.only(kept))
        if len(survivors) == len(kept):
            break
        kept = kept[survivors]
    return instance.only(kept), kept


def _irreplaceable(instance: Instance) -> Ints:
    exclude = _exclusions(instance)
    gone = np.zeros(len(instance.owner), dtype=np.bool_)
    for item in range(len(instance.items)):
        members = np.flatnonzero(instance.owner == item)
        rows = exclude[members]
        sizes = np.bitwise_count(rows).sum(axis=1)
        for position in np.argsort(sizes, kind="stable"):
            if gone[members[position]]:
                continue
            covers = ~(rows[position] & ~rows).any(axis=1)
            covers[position] = False
            gone[members[covers]] = True
    return np.flatnonzero(~gone)


def _exclusions(instance: Instance) -> NDArray[np.uint64]:
    """Return, as bit sets, which places each place excludes, itself among them."""
    boxes = instance.boxes
    width = -(-len(boxes) // 64) * 8
    packed = np.zeros((len(boxes), width), dtype=np.uint8)
    for place in range(len(boxes)):
        bits = np.packbits(instance.gaps.meet(boxes[place : place + 1], boxes))
        packed[place, : len(bits)] = bits
    return packed.view(np.uint64)
