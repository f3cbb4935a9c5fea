"""Stock and strips as whole numbers: what is to be cut, how it is cut, and what proves it."""

from dataclasses import dataclass

from nesting.ordering.patterns import Pattern, Strips

Use = tuple[int, Pattern]
"""A length of stock, by its place in the list, and what is cut from it."""
Uses = dict[Use, int]
"""How often each is done."""


@dataclass(frozen=True, slots=True)
class Cutting:
    """What is to be cut: ``stock`` lengths, ascending; different strip ``lengths`` with ``counts``.

    ``kerf`` is what each cut takes, but for one that would end beyond the length of stock. Every
    strip fits the longest stock.
    """

    stock: tuple[int, ...]
    lengths: tuple[int, ...]
    counts: tuple[int, ...]
    kerf: int = 0

    @property
    def strips(self) -> Strips:
        """The strips, each with the cut that parts it from the next."""
        return Strips(tuple(length + self.kerf for length in self.lengths), self.counts)


@dataclass(frozen=True, slots=True)
class StockProof:
    """Why fewer lengths cannot do: the strips have points, no length holds more than ``heaviest``.

    ``listed``, where not 0, says that the bound is higher by one than the points show: that many
    patterns are all that a plan of fewer lengths could be made of, and it cannot.
    """

    points: tuple[int, ...]
    heaviest: int
    listed: int = 0


@dataclass(frozen=True, slots=True)
class CutPlan:
    """The cuts, longest stock first: (stock length, strips of each length, how often).

    ``bound`` is a number of lengths no plan stays below, ``length_bound`` a total length that no
    plan of as many lengths as this one stays below.
    """

    cuts: tuple[tuple[int, Pattern, int], ...]
    bound: int
    length_bound: int
    proof: StockProof

    @property
    def used(self) -> int:
        """How many lengths of stock it takes."""
        return sum(times for _, _, times in self.cuts)

    @property
    def length(self) -> int:
        """The total length of the stock it takes."""
        return sum(stock * times for stock, _, times in self.cuts)
