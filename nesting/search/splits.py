"""Ways to share casts out over layouts, and which of them can make up what is wanted.

T layouts share K casts in only so many ways, and T is small. In most of them some item's number is
no sum of these repeats, with as little to spare as there is.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from nesting.search.instance import Ints

Split = tuple[int, ...]
"""How often each layout is cast, falling."""


def split_casts(casts: int, layouts: int, most: int | None = None) -> Iterator[Split]:
    """Return every way to share out casts over exactly so many layouts, each at most ``most``.

    >>> list(split_casts(6, 3))
    [(4, 1, 1), (3, 2, 1), (2, 2, 2)]
    """
    most = casts if most is None else most
    if casts == layouts == 0:
        yield ()
    if not 0 < layouts <= casts:
        return
    for first in range(min(most, casts - layouts + 1), -(-casts // layouts) - 1, -1):
        for rest in split_casts(casts - first, layouts - 1, first):
            yield (first, *rest)


class Sums:
    """What numbers of each item given repeats make up.

    ``demand``, ``most`` in one layout and ``spare`` beyond the demand are given per item (items,).
    """

    def __init__(self, demand: Ints, most: Ints, spare: Ints) -> None:
        self.demand, self.most, self.spare = demand.tolist(), most.tolist(), spare.tolist()
        self.width = max(self.demand, default=0) + 1
        self._reach: dict[Split, list[int]] = {}
        self._tables: dict[Split, NDArray[np.bool_]] = {}

    def make_up(self, split: Split) -> bool:
        """Whether these repeats make up the demand of every item, each looked at alone."""
        first, after = split[0], self._reach_of(split[1:])
        return all(
            _completes(reach, wanted, first, most, spare)
            for reach, wanted, most, spare in zip(
                after, self.demand, self.most, self.spare, strict=True
            )
        )

    def table(self, split: Split) -> NDArray[np.bool_]:
        """Return whether these repeats make up 0, 1, 2 ... of each item, (items * width,)."""
        known = self._tables.get(split)
        if known is None:
            size = -(-self.width // 8)
            rows = [
                np.frombuffer(reach.to_bytes(size, "little"), dtype=np.uint8)
                for reach in self._reach_of(split)
            ]
            bits = np.unpackbits(np.array(rows), axis=1, count=self.width, bitorder="little")
            self._tables[split] = known = bits.astype(np.bool_).ravel()
        return known

    def _reach_of(self, split: Split) -> list[int]:
        """Return per item, as bits, the numbers that these repeats make up."""
        known = self._reach.get(split)
        if known is None:
            known = [
                _reach(split, wanted, most, spare)
                for wanted, most, spare in zip(self.demand, self.most, self.spare, strict=True)
            ]
            self._reach[split] = known
        return known


def _completes(reach: int, wanted: int, first: int, most: int, spare: int) -> bool:
    """Whether some of the first repeats leave what the others reach, or little enough over."""
    for count in range(most + 1):
        left = wanted - count * first
        if left <= 0:
            return -left <= spare
        if reach >> left & 1:
            return True
    return False


def _reach(split: Split, wanted: int, most: int, spare: int) -> int:
    """Return, as bits, the numbers up to ``wanted`` that are made up with little enough over."""
    reach, within = 1, (1 << (wanted + spare + 1)) - 1
    for times in split:
        added = reach
        for _ in range(most):
            added = (added << times) & within
            reach |= added
            if not added:
                break
    done = 1
    while done <= spare:
        step = min(done, spare + 1 - done)
        reach |= reach >> step
        done += step
    return reach & ((1 << (wanted + 1)) - 1)
