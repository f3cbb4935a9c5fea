"""Fewest layouts from a list: first how often each is cast, then what each holds.

For every way to share the casts out that can make up each item's number, layouts are chosen one by
one, those cast most often first; the choice goes no further where what is left of some item cannot
be made up, or is worth more than the casts left can hold.

T layouts share K casts in only so many ways, and T is small. In most of them some item's number is
no sum of these repeats, with as little to spare as there is.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from nesting.search.instance import Ints
from nesting.search.known import Slack
from nesting.search.solver import Deadline

Chosen = list[tuple[int, int]]
"""(repeats, index of the layout in the list) for each layout cast."""
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


Verdict = Literal["found", "refuted", "given up"]

MOST_SPLITS = 20_000
"""Where there are more ways to share the casts out, only so many are tried."""
_STEPS = (3_000, 30_000, 300_000, 3_000_000)
"""Layouts looked at for one way to share the casts out: first few for each, then more."""
_PER_LOOK = 200
"""What a look at the list costs beside its length."""


class RepeatSearch:
    """Chooses from ``counts`` (n, items); ``most`` (items,) is what any layout holds of each item.

    ``whole`` says whether the list has all layouts that the slack allows.
    """

    def __init__(self, counts: Ints, most: Ints, slack: Slack, *, whole: bool) -> None:
        self.counts, self.slack, self.whole = counts, slack, whole
        self.spare = slack.spare(most)
        self.sums = Sums(slack.demand, most, self.spare)
        self.repeatable = slack.most_repeats(counts)
        self.offsets = np.arange(len(slack.demand)) * self.sums.width

    def share(
        self, layouts: int, effort: int, deadline: Deadline, most_splits: int = MOST_SPLITS
    ) -> tuple[Chosen, Verdict]:
        """Return exactly so many layouts that meet the demand in all casts, if there are any.

        Gives up when about ``effort`` layouts were looked at.
        """
        splits = list(islice(split_casts(self.slack.casts, layouts), most_splits + 1))
        all_known = len(splits) <= most_splits
        splits = [split for split in splits if self.sums.make_up(split)]
        if all_known and not splits:
            return [], "refuted"
        for step in _STEPS:
            undecided = []
            for split in splits:
                if effort <= 0 or deadline.passed:
                    return [], "given up"
                attempt = _Attempt(self, split, min(step, effort))
                chosen = attempt.choose(0, self.slack.demand, 0)
                effort -= attempt.spent
                if chosen is not None:
                    return chosen, "found"
                if attempt.spent > attempt.effort:
                    undecided.append(split)
            splits = undecided
        return [], "refuted" if all_known and self.whole and not splits else "given up"


@dataclass
class _Attempt:
    """Chooses a layout for each of the repeats of one split, in depth first order."""

    search: RepeatSearch
    split: Split
    effort: int
    spent: int = 0

    def choose(self, slot: int, wanted: Ints, first: int) -> Chosen | None:
        """Return layouts for this slot and all after it, or None; equal repeats rise in index."""
        times, after = self.split[slot], self.split[slot + 1 :]
        fit, left = self._fitting(times, after, wanted, first)
        if not after:
            return [(times, int(fit[0]))] if len(fit) else None
        for index, rest in zip(fit.tolist(), left, strict=True):
            if self.spent > self.effort:
                return None
            further = self.choose(slot + 1, rest, index if after[0] == times else 0)
            if further is not None:
                return [(times, index), *further]
        return None

    def _fitting(self, times: int, after: Split, wanted: Ints, first: int) -> tuple[Ints, Ints]:
        """Return the layouts that may be cast so often, and what each leaves (n, items)."""
        search, slack = self.search, self.search.slack
        fit = np.flatnonzero(search.repeatable[first:] >= times) + first
        self.spent += _PER_LOOK + len(fit)
        left = wanted - times * search.counts[fit]
        still = np.maximum(left, 0)
        good = search.sums.table(after)[still + search.offsets].all(axis=1)
        good &= (left >= -search.spare).all(axis=1)
        worth = still[good] @ slack.prices.T
        held = (worth <= sum(after) * slack.heaviest).all(axis=1)
        order = np.argsort((worth[held] / slack.heaviest).sum(axis=1), kind="stable")
        return fit[good][held][order], left[good][held][order]
