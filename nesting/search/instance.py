"""What the search is given and what it answers, in whole numbers only."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from functools import cached_property
from math import gcd

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
Counts = tuple[int, ...]
PlaceSet = tuple[int, ...]
"""Sorted indexes into the instance's places: a set that is free of conflicts."""


@dataclass(frozen=True)
class Item:
    """One size: its extent with the dam allowance, how many are wanted, where it may lie."""

    width: int
    height: int
    quantity: int
    places: tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Gaps:
    """Which gaps two boxes of one cast may have: one of ``exact``, or ``least`` and more.

    Two boxes are apart where the gap between them along x, or the one along y, is allowed. With 0
    for ``least`` boxes need only not overlap.
    """

    exact: tuple[int, ...] = ()
    least: int = 0

    def allow(self, gaps: Ints) -> NDArray[np.bool_]:
        """Tell of each gap whether it keeps two boxes apart."""
        allowed: NDArray[np.bool_] = (gaps >= self.least) | np.isin(gaps, self.exact)
        return allowed

    def meet(self, boxes: Ints, others: Ints) -> NDArray[np.bool_]:
        """Tell which boxes (n, 4) cannot lie in one cast with which others (m, 4): (n, m)."""
        x0, y0, x1, y1 = (boxes[:, side, None] for side in range(4))
        a0, b0, a1, b1 = others.T
        found: NDArray[np.bool_]
        if self.least:
            apart = self.allow(a0 - x1) | self.allow(x0 - a1)
            found = ~(apart | self.allow(b0 - y1) | self.allow(y0 - b1))
        else:
            found = (a0 < x1) & (x0 < a1) & (b0 < y1) & (y0 < b1)
        return found


ANY_GAP = Gaps()


def as_bits(flags: NDArray[np.bool_]) -> list[int]:
    """Return each row of flags as the bits of a whole number, the first flag the lowest bit."""
    packed = np.packbits(flags, axis=1, bitorder="little")
    return [int.from_bytes(row.tobytes(), "little") for row in packed]


@dataclass(frozen=True)
class Instance:
    """Sizes and their places; two boxes of one cast must lie apart as ``gaps`` say.

    ``items`` keep their order; places are numbered through, item by item.
    """

    items: tuple[Item, ...]
    gaps: Gaps = ANY_GAP

    @cached_property
    def boxes(self) -> Ints:
        """The ground of every place as x0, y0, x1, y1, shape (places, 4)."""
        rows = [
            (x, y, x + item.width, y + item.height) for item in self.items for x, y in item.places
        ]
        return np.array(rows, dtype=np.int64).reshape(-1, 4)

    @cached_property
    def owner(self) -> Ints:
        """The item of every place, shape (places,)."""
        return np.repeat(
            np.arange(len(self.items)), [len(item.places) for item in self.items]
        ).astype(np.int64)

    @cached_property
    def demand(self) -> Counts:
        """How many of each item are wanted."""
        return tuple(item.quantity for item in self.items)

    def only(self, places: Ints) -> Instance:
        """Return the instance with these of its places only, sorted indexes; items keep theirs."""
        if len(places) == len(self.owner):
            return self
        items = []
        for index, item in enumerate(self.items):
            rows = self.boxes[places[self.owner[places] == index], :2]
            items.append(replace(item, places=tuple((int(x), int(y)) for x, y in rows)))
        return Instance(tuple(items), self.gaps)

    def counts(self, layout: PlaceSet) -> Counts:
        """Return how many of each item a layout holds."""
        found = Counter(int(self.owner[place]) for place in layout)
        return tuple(found[index] for index in range(len(self.items)))


@dataclass(frozen=True)
class Certificate:
    """Why no fewer casts can do: casts >= ceil(sum(price * quantity) / heaviest).

    No single cast holds more than ``heaviest`` worth of items at these prices. ``points`` are
    weights (x, y, weight) that total ``heaviest``, each place of an item covering at least its
    price; empty where ``heaviest`` was proved by solving for the heaviest layout. ``raised_to``,
    where not 0, is a higher bound, proved by listing every layout heavy enough to occur in a
    schedule of fewer casts: ``enumerated`` layouts hold them all, and whole casts of those do not
    meet the demand.
    """

    prices: Counts
    heaviest: int
    demand: int
    points: tuple[tuple[int, int, int], ...] = ()
    enumerated: int = 0
    raised_to: int = 0

    def reduced(self) -> Certificate:
        """Return the same certificate in the smallest whole numbers."""
        weights = [weight for *_, weight in self.points]
        common = gcd(self.heaviest, *self.prices, *weights) or 1
        return replace(
            self,
            prices=tuple(price // common for price in self.prices),
            heaviest=self.heaviest // common,
            demand=self.demand // common,
            points=tuple((x, y, weight // common) for x, y, weight in self.points),
        )

    @property
    def bound(self) -> int:
        """The least number of casts this proves."""
        by_prices = -(-self.demand // self.heaviest) if self.demand else 0
        return max(by_prices, self.raised_to)


@dataclass(frozen=True)
class Answer:
    """Layouts with repeats, and what is proved of them.

    ``layouts`` holds (repeats, layout) pairs; they yield at least the demand.
    ``layouts_bound`` is a lower bound on the number of different layouts at this many casts.
    """

    layouts: tuple[tuple[int, PlaceSet], ...]
    certificate: Certificate
    layouts_bound: int
    stopped_early: bool = False

    @property
    def casts(self) -> int:
        """Number of casts."""
        return sum(repeats for repeats, _ in self.layouts)

    @property
    def proved(self) -> bool:
        """Whether fewer casts are proved impossible."""
        return self.casts == self.certificate.bound
