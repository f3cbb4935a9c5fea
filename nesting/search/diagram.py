"""All layouts at once: the ways to fill a cast, as paths through a diagram.

Places are taken in the order of one end of their ground. A state is the set of places still free;
the first of them, or a place that excludes it, must be in every layout to which no place can be
added. So the layouts are the paths to the empty state. A sweep across the liner meets few states,
as what lies behind it matters no more, although the layouts are many. (Decision diagrams for
independent sets: Bergman, Cire, van Hoeve & Hooker 2016, from memory.)
"""

from dataclasses import dataclass

import numpy as np

from nesting.search.instance import Instance, Ints, as_bits

MOST_STATES = 100_000
MOST_ARCS = 1_000_000
"""A diagram that grows beyond these is given up."""
_LARGEST = 1_000
"""With more places than this none is begun."""


@dataclass(frozen=True)
class Level:
    """The states with the same first free place, and their arcs sorted by the state they leave."""

    states: Ints
    starts: Ints
    arc_to: Ints
    arc_place: Ints


@dataclass(frozen=True)
class Diagram:
    """The diagram of an instance: state 0 is all places free, state ``end`` none."""

    instance: Instance
    levels: tuple[Level, ...]
    level_of: Ints
    end: int

    def completions(self, prices: Ints) -> Ints:
        """Return the heaviest way on from each state at each of k prices (k, items): (states, k).

        The first row holds the weight of the heaviest layout, exactly.
        """
        worth = np.ascontiguousarray(prices.T[self.instance.owner])
        best = np.zeros((len(self.level_of), len(prices)), dtype=np.int64)
        for level in reversed(self.levels):
            ways = worth[level.arc_place] + best[level.arc_to]
            best[level.states] = np.maximum.reduceat(ways, level.starts, axis=0)
        return best


def draw_diagram(instance: Instance) -> Diagram | None:
    """Return the smaller of the diagrams along x and along y, or None where both are too large."""
    if not 0 < len(instance.owner) <= _LARGEST:
        return None
    _, _, x1, y1 = instance.boxes.T
    along_x = _draw(instance, np.lexsort((y1, x1)), MOST_STATES)
    most = MOST_STATES if along_x is None else len(along_x.level_of)
    return _draw(instance, np.lexsort((x1, y1)), most) or along_x


def _draw(instance: Instance, order: Ints, most_states: int) -> Diagram | None:
    """Return the diagram that takes the places in that order, or None where it is too large."""
    meeting = _find_meeting(instance, order)
    levels: list[Level] = []
    number = {(1 << len(order)) - 1: 0}
    waiting: list[list[int]] = [[] for _ in range(len(order) + 1)]
    waiting[0] = list(number)
    level_of = [0]
    arcs = 0
    for first, masks in enumerate(waiting[:-1]):
        starts: list[int] = []
        to: list[int] = []
        place: list[int] = []
        for free in masks:
            starts.append(len(to))
            others = meeting[first] & free
            while others:
                bit = others & -others
                others ^= bit
                chosen = bit.bit_length() - 1
                left = free & ~meeting[chosen]
                if left not in number:
                    number[left] = len(level_of)
                    after = (left & -left).bit_length() - 1 if left else len(order)
                    level_of.append(after)
                    waiting[after].append(left)
                to.append(number[left])
                place.append(chosen)
        arcs += len(to)
        if arcs > MOST_ARCS or len(number) > most_states:
            return None
        levels.append(_level([number[mask] for mask in masks], starts, to, order[place]))
    return Diagram(instance, tuple(levels), np.array(level_of), number[0])


def _level(states: list[int], starts: list[int], to: list[int], place: Ints) -> Level:
    first, begin, end = (np.array(values, dtype=np.int64) for values in (states, starts, to))
    return Level(first, begin, end, place.astype(np.int64))


def _find_meeting(instance: Instance, order: Ints) -> list[int]:
    """Return for each place, as bits of a whole number, those that it excludes, itself included."""
    boxes = instance.boxes[order]
    return as_bits(instance.gaps.meet(boxes, boxes))
