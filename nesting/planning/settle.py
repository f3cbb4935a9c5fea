"""Where panels come to rest: as far from ornament as they can, on the division a person marks to.

The search pushes panels together; nobody would lay dams there. With what lies left or right of,
below or above what held fixed, every distance is a straight-line function of the positions, so the
least clearance of a cast is made as large as possible by a small linear program, then the next
least, and so on. A last, whole-number program puts every free coordinate on the set-out division.
The result is tested on the exact position maps before it is believed.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from nesting.maps.bans import list_bans, list_obstacles
from nesting.maps.ground import Ground
from nesting.maps.positions import PositionMap, Sheet, Wish
from nesting.planning.strips import StripRule
from nesting.search.solver import INFINITY, Floats, rows_of, solve
from nesting.shapes.convex import Pieces, separations
from nesting.shapes.geometry import Box
from nesting.units import STEPS_PER_MM
from nesting.values.casts import Placement

_MOST_NODES = 2_000
_ROUNDS = 6
"""How many least clearances are made as large as possible one after the other."""


@dataclass(frozen=True, slots=True)
class Seat:
    """A panel to settle: its placement, its map, and what it must show and hide."""

    placement: Placement
    map: PositionMap
    wish: Wish

    @property
    def sheet(self) -> Sheet:
        """The sheet of the map for the present sides whose domain holds the present place."""
        spot = self.placement
        point = Box(spot.x, spot.y, spot.x, spot.y)
        return next(
            sheet
            for sheet in self.map.sheets
            if sheet.sides == spot.sides and sheet.domain.contains(point)
        )


@dataclass(frozen=True, slots=True)
class _Row:
    """low <= sum(coefficient * variable) + slack * (clearance of the group) [mm]."""

    columns: tuple[int, ...]
    values: tuple[float, ...]
    low: float
    high: float = INFINITY
    is_clearance: bool = False
    is_slanted: bool = False


def settle(ground: Ground, seats: Sequence[Seat], rule: StripRule) -> tuple[Placement, ...]:
    """Return the placements of one cast moved to their best places, in the same order.

    Panels lie apart as the rule has it, and a dam that fills the gap between two keeps its width.
    """
    start = [seat.placement for seat in seats]
    if not seats:
        return ()
    rows = _limits(ground, seats, rule)
    relaxed = _widen(rows, len(seats))
    settled = _mark(rows, relaxed, ground, seats)
    return tuple(settled if settled is not None and _holds(seats, settled, rule) else start)


def realise(ground: Ground, seats: Sequence[Seat], rule: StripRule) -> tuple[Placement, ...] | None:
    """Return placements near the given ones that break no rule, or None where none is found.

    The given ones may cut slanted obstacles a little, as places beside inner stairs do; what lies
    left or right of, below or above what is kept.
    """
    limits = _limits(ground, seats, rule, is_held=not rule.others)
    rows = [row for row in limits if not row.is_clearance]
    room = 2 * len(seats)
    entries = [
        ((*row.columns, room), (*row.values, -1.0), row.low, INFINITY)
        if row.is_slanted
        else (row.columns, row.values, row.low, row.high)
        for row in rows
    ]
    cost = np.append(np.zeros(room), 1.0)
    lower = np.append(np.full(room, -1e6), 0.0)
    upper = np.append(np.full(room, 1e6), 1.0)
    found = solve(cost, rows_of(entries), upper, lower=lower, integer=False, maximise=True)
    if found.values is None:
        return None
    steps = [round(value * STEPS_PER_MM) for value in found.values]
    spots = tuple(
        replace(seat.placement, x=steps[2 * k], y=steps[2 * k + 1]) for k, seat in enumerate(seats)
    )
    return spots if _holds(seats, spots, rule) else None


def _limits(
    ground: Ground, seats: Sequence[Seat], rule: StripRule, *, is_held: bool = True
) -> list[_Row]:
    rows = [row for index, seat in enumerate(seats) for row in _seat_rows(ground, index, seat)]
    return rows + [
        _pair_row((a, b), (seats[a].placement, seats[b].placement), rule, is_held=is_held)
        for a, b in combinations(range(len(seats)), 2)
    ]


def _seat_rows(ground: Ground, index: int, seat: Seat) -> list[_Row]:
    """Return the limits on one panel: its domain, its obstacles, and its clearances."""
    spot = seat.placement
    domain = seat.sheet.domain
    rows = [
        _Row((2 * index,), (1.0,), domain.x0 / STEPS_PER_MM, domain.x1 / STEPS_PER_MM),
        _Row((2 * index + 1,), (1.0,), domain.y0 / STEPS_PER_MM, domain.y1 / STEPS_PER_MM),
    ]
    obstacles = list_obstacles(ground, seat.wish.hide)
    for kind, strip in list_bans(spot.width, spot.height, spot.sides, ground.rules):
        rows += _clear_rows(index, spot, strip, obstacles[kind], is_clearance=False)
        if kind == "no_dam":
            rows += _clear_rows(index, spot, strip, obstacles["ornament"], is_clearance=True)
    return rows


def _clear_rows(
    index: int, spot: Placement, strip: Box, pieces: Pieces, *, is_clearance: bool
) -> list[_Row]:
    """Return 'the strip stays on its side of each piece', the tightest row per direction."""
    if not len(pieces):
        return []
    box = strip.moved(spot.x, spot.y)
    apart = separations(pieces, box)
    side = apart.argmax(axis=1)
    rows: list[_Row] = []
    x, y = 2 * index, 2 * index + 1
    for face, (column, sign) in enumerate(((x, 1.0), (x, -1.0), (y, 1.0), (y, -1.0))):
        mine = apart[side == face, face]
        if len(mine):
            at = spot.x if column == x else spot.y
            least = (sign * at - int(mine.min())) / STEPS_PER_MM
            rows.append(_Row((column,), (sign,), least, is_clearance=is_clearance))
    for piece in np.flatnonzero(side >= 4):
        a, b, c = (float(v) for v in pieces.cuts[piece, side[piece] - 4])
        size = abs(a) + abs(b)
        reach = min(a * strip.x0, a * strip.x1) + min(b * strip.y0, b * strip.y1)
        low = (c - reach) / size / STEPS_PER_MM
        slope = a / size, b / size
        rows.append(_Row((x, y), slope, low, is_clearance=is_clearance, is_slanted=True))
    return rows


def _pair_row(
    pair: tuple[int, int],
    spots: tuple[Placement, Placement],
    rule: StripRule,
    *,
    is_held: bool,
) -> _Row:
    """Return 'the two panels stay apart as they are'; ``is_held``: what one dam fills stays so."""
    axis, lower, gap = rule.between(*spots)
    low, high = pair[lower], pair[1 - lower]
    size = spots[lower].box
    extent = size.width if axis == 0 else size.height
    is_filled = is_held and rule.is_filled(gap) and rule.allows(gap)
    least = gap if is_filled else 2 * rule.dam if is_held else rule.dam
    low_mm = (extent + least) / STEPS_PER_MM
    high_mm = low_mm if is_filled else INFINITY
    return _Row((2 * high + axis, 2 * low + axis), (1.0, -1.0), low_mm, high_mm)


def _widen(rows: Sequence[_Row], panels: int) -> np.ndarray:
    """Return, per clearance row, the clearance it can be held to [mm], least first (leximax)."""
    clearance = [row for row in rows if row.is_clearance]
    held = np.zeros(len(clearance))
    fixed = np.zeros(len(clearance), dtype=np.bool_)
    for _ in range(_ROUNDS):
        if fixed.all():
            break
        found = _solve(rows, held, ~fixed, panels)
        if found is None:
            break
        least, tight = found
        newly = ~fixed & tight
        held[~fixed] = least
        fixed |= newly if newly.any() else ~fixed
    return held


def _solve(
    rows: Sequence[_Row], held: np.ndarray, rising: np.ndarray, panels: int
) -> tuple[float, np.ndarray] | None:
    """Raise the clearance of the rising rows together: (that clearance, which rows stopped it)."""
    t = 2 * panels
    entries, clearances = [], []
    number = 0
    for row in rows:
        if not row.is_clearance:
            entries.append((row.columns, row.values, row.low, row.high))
            continue
        clearances.append(len(entries))
        if rising[number]:
            entries.append(((*row.columns, t), (*row.values, -1.0), row.low, INFINITY))
        else:
            entries.append((row.columns, row.values, row.low + held[number] - 1e-7, INFINITY))
        number += 1
    cost = np.zeros(t + 1)
    cost[t] = 1.0
    upper = np.full(t + 1, 1e6)
    lower = np.concatenate([np.full(t, -1e6), [0.0]])
    found = solve(cost, rows_of(entries), upper, lower=lower, integer=False, maximise=True)
    if found.status != "optimal" or found.values is None or found.duals is None:
        return None
    return found.objective, np.abs(found.duals[clearances]) > 1e-7


def _mark(
    rows: Sequence[_Row], held: np.ndarray, ground: Ground, seats: Sequence[Seat]
) -> list[Placement] | None:
    """Put coordinates on the set-out division, giving up as little clearance as may be.

    Columns: x and y of each panel, its whole number of divisions, whether it is off the division,
    and last the clearance lost.
    """
    division = ground.rules.set_out / STEPS_PER_MM
    n = 2 * len(seats)
    lost = 3 * n
    entries = []
    number = 0
    for row in rows:
        low = row.low
        if row.is_clearance:
            low += held[number]
            number += 1
            entries.append(((*row.columns, lost), (*row.values, 1.0), low, INFINITY))
        else:
            entries.append((row.columns, row.values, low, row.high))
    for k in range(n):
        off = ((k, n + k, 2 * n + k), (1.0, -division, -division))
        entries.append((*off, -INFINITY, 0.0))
        entries.append(((k, n + k), (1.0, -division), 0.0, INFINITY))
    cost = np.concatenate([np.zeros(2 * n), np.full(n, 1e4), [1.0]])
    lower = np.concatenate([np.full(2 * n, -1e6), np.zeros(n + 1)])
    upper = np.concatenate([np.full(2 * n, 1e6), np.ones(n), [1e6]])
    whole = np.repeat([False, True, True, False], [n, n, n, 1])
    found = solve(cost, rows_of(entries), upper, lower=lower, integer=whole, most_nodes=_MOST_NODES)
    if found.values is None:
        return None
    at = [_steps(found.values, k, n, ground.rules.set_out) for k in range(n)]
    return [replace(seat.placement, x=at[2 * k], y=at[2 * k + 1]) for k, seat in enumerate(seats)]


def _steps(values: Floats, k: int, n: int, set_out: int) -> int:
    if values[2 * n + k] < 0.5:
        return round(float(values[n + k])) * set_out
    return round(float(values[k]) * STEPS_PER_MM)


def _holds(seats: Sequence[Seat], settled: Sequence[Placement], rule: StripRule) -> bool:
    on_map = all(_same_sides(seat, spot) for seat, spot in zip(seats, settled, strict=True))
    return on_map and rule.keeps(settled)


def _same_sides(seat: Seat, spot: Placement) -> bool:
    sheet = seat.map.sheet_at(spot.x, spot.y)
    return sheet is not None and sheet.sides == spot.sides
