"""Pairs of least total cost, exactly: the assignment problem by shortest augmenting paths.

Every row is given a column of its own, one row after another; each time the cheapest path of
exchanges is taken, found with prices that keep every remaining cost at or above 0 (Kuhn 1955 and
Munkres 1957, in the form of Jonker & Volgenant 1987). All in whole numbers.
"""

from collections.abc import Sequence

_FREE = -1


def match_cheapest(costs: Sequence[Sequence[int]]) -> tuple[tuple[int, int], ...]:
    """Return (row, column) pairs, as many as the shorter side has, of the least total cost.

    In rising order of the rows; none for no rows or no columns.

    >>> match_cheapest([[4, 1, 3], [2, 0, 5]])
    ((0, 1), (1, 0))
    >>> match_cheapest([[7], [5]])
    ((1, 0),)
    """
    if not costs or not costs[0]:
        return ()
    if len(costs) > len(costs[0]):
        turned = match_cheapest(list(zip(*costs, strict=True)))
        return tuple(sorted((row, column) for column, row in turned))
    row_of = [_FREE] * len(costs[0])
    row_prices, prices = [0] * len(costs), [0] * len(costs[0])
    for row in range(len(costs)):
        _give_column(costs, row, row_of, row_prices, prices)
    return tuple(sorted((row, column) for column, row in enumerate(row_of) if row != _FREE))


def _give_column(
    costs: Sequence[Sequence[int]],
    start: int,
    row_of: list[int],
    row_prices: list[int],
    prices: list[int],
) -> None:
    """Give one more row a column, along the cheapest path of exchanges; keep the prices right."""
    reach: dict[int, int] = {}  # the cost of the cheapest path to each column that is not settled
    came: dict[int, int] = {}  # the row before each column on it
    settled: dict[int, int] = {}
    row, spent = start, 0
    while True:
        for column, cost in enumerate(costs[row]):
            if column not in settled:
                length = spent + cost - row_prices[row] - prices[column]
                if column not in reach or length < reach[column]:
                    reach[column], came[column] = length, row
        column = min(reach, key=lambda each: (reach[each], each))
        spent = settled[column] = reach.pop(column)
        row = row_of[column]
        if row == _FREE:
            break
    row_prices[start] += spent
    for passed, cost in settled.items():
        if row_of[passed] != _FREE:
            row_prices[row_of[passed]] += spent - cost
            prices[passed] -= spent - cost
    while True:
        row = came[column]
        previous = next((each for each, its in enumerate(row_of) if its == row), _FREE)
        row_of[column] = row
        column = previous
        if row == start:
            return
