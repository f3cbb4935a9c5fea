"""Patterns: what is cut from one length of stock, as how many of each strip; exact, by search.

Strips are known by their sizes, a cut's kerf counted in, and by points, both whole numbers. What
remains of a length could hold no more points than if strips could be split; where that cannot
reach what is sought, nothing further is tried (branch and bound for the knapsack problem, Martello
& Toth 1990, section 3.6).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate

Pattern = tuple[int, ...]
"""How many of each strip, in the order of the strips."""


class TooManyError(Exception):
    """More would have to be tried than is allowed."""


@dataclass(frozen=True, slots=True)
class Heaviest:
    """The pattern with the most points that was found; none has more than ``limit``."""

    pattern: Pattern
    points: int
    limit: int


@dataclass(frozen=True, slots=True)
class Strips:
    """The strips to be cut: size and count of each; every size is above 0."""

    sizes: tuple[int, ...]
    counts: tuple[int, ...]

    def heaviest(self, points: Sequence[int], room: int, most_nodes: int) -> Heaviest:
        """Return the pattern within the room that has the most points.

        ``limit`` is its points; where the search ends after ``most_nodes``, what split strips hold.

        >>> Strips((5, 4, 3), (1, 2, 9)).heaviest([50, 41, 30], 12, 100)
        Heaviest(pattern=(1, 1, 1), points=121, limit=121)
        """
        best, found = 0, dict[int, int]()
        climb = _Climb(self, points, 1, most_nodes)
        try:
            for value in climb.find(room):
                best, found, climb.least = value, dict(climb.chosen), value + 1
        except TooManyError:
            return Heaviest(self._whole(found), best, self.split(points, room))
        return Heaviest(self._whole(found), best, best)

    def split(self, points: Sequence[int], room: int) -> int:
        """Return the most points within the room if strips could be split, rounded down."""
        total = 0
        for index in _by_worth(self, points):
            taken = min(self.counts[index] * self.sizes[index], room)
            total += -(-taken * points[index] // self.sizes[index])
            room -= taken
        return total

    def list_heavy(
        self, points: Sequence[int], room: int, least: int, spare: int, most: int, most_nodes: int
    ) -> list[Pattern]:
        """Return every full pattern of at least so many points that leaves no more than ``spare``.

        A pattern is full where no further strip goes in. TooManyError where there are more than
        ``most``, or more than ``most_nodes`` would have to be tried.
        """
        found = []
        climb = _Climb(self, points, least, most_nodes)
        for _ in climb.find(room):
            left = room - sum(self.sizes[index] * taken for index, taken in climb.chosen.items())
            pattern = self._whole(climb.chosen) if left <= spare else ()
            if pattern and self._is_full(pattern, left):
                found.append(pattern)
                if len(found) > most:
                    raise TooManyError
        return found

    def size_of(self, pattern: Pattern) -> int:
        """Return the room a pattern takes."""
        return sum(size * taken for size, taken in zip(self.sizes, pattern, strict=True))

    def _is_full(self, pattern: Pattern, left: int) -> bool:
        strips = zip(self.sizes, self.counts, pattern, strict=True)
        return not any(size <= left and taken < count for size, count, taken in strips)

    def _whole(self, chosen: dict[int, int]) -> Pattern:
        return tuple(chosen.get(index, 0) for index in range(len(self.sizes)))


def _by_worth(strips: Strips, points: Sequence[int]) -> list[int]:
    """Return the strips by how many points they have for their size, the most first."""
    worth = [Fraction(-each, size) for each, size in zip(points, strips.sizes, strict=True)]
    return sorted(range(len(worth)), key=lambda index: (worth[index], index))


class _Climb:
    """One search through patterns of at least so many points, which may rise on the way."""

    def __init__(self, strips: Strips, points: Sequence[int], least: int, most_nodes: int) -> None:
        self.least = least
        self.chosen: dict[int, int] = {}
        self._order = _by_worth(strips, points)
        self._each = [
            (strips.sizes[index], points[index], strips.counts[index]) for index in self._order
        ]
        sizes = [size for size, _, _ in self._each]
        self._smallest = [*accumulate(reversed(sizes), min)][::-1]  # from each place on
        self._left = most_nodes

    def find(self, room: int, first: int = 0, value: int = 0) -> Iterator[int]:
        """Yield the points of each pattern within the room, which is then what is ``chosen``."""
        self._left -= 1
        if self._left < 0:
            raise TooManyError
        if value >= self.least:
            yield value
        for place in range(first, len(self._each)):
            size, points, count = self._each[place]
            if room < self._smallest[place] or value + room * points // size < self.least:
                return  # strips further on do not go in, or have fewer points for their size
            for taken in range(min(count, room // size), 0, -1):
                self.chosen[self._order[place]] = taken
                yield from self.find(room - taken * size, place + 1, value + taken * points)
                del self.chosen[self._order[place]]
