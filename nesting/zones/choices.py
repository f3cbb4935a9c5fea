"""Every way a panel can lie along one axis of a motif whose strips have no widths yet.

A *choice* says of each interval of the axis whether the panel holds it, leaves it out, or meets it
with a dam (then it must be left out along the other axis). What that asks of the widths is that
totals of neighbouring strips lie between two limits, which is exact in whole steps: the panel has
a position wherever every lower limit of it is at most every upper one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Literal, NamedTuple

from nesting.search.solver import Deadline
from nesting.values.casts import Side
from nesting.zones.field import Field, Interval, Reach

State = Literal["in", "out", "met"]


class Anchor(NamedTuple):
    """A limit of a panel's lower side: the shift of ``segment`` plus ``offset`` [steps].

    ``by_dam`` where it is a dam's keep-off distance that sets it.
    """

    segment: int
    offset: int
    by_dam: bool = True


class TotalLimits(NamedTuple):
    """From ``low`` to ``high`` [steps]."""

    low: int
    high: int


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to lie along an axis.

    The panel's lower side is at or beyond every ``lower`` anchor and at or before every ``upper``
    one. ``totals`` is what that asks of the strips from a start up to a stop.
    """

    sides: tuple[Side, Side]
    states: tuple[State, ...]
    lower: tuple[Anchor, ...]
    upper: tuple[Anchor, ...]
    totals: tuple[tuple[tuple[int, int], TotalLimits], ...]


@dataclass(frozen=True, slots=True)
class _Face:
    """One side of a panel: where it may be, and what it makes of each interval."""

    side: Side
    states: tuple[State, ...]
    lower: tuple[Anchor, ...]
    upper: tuple[Anchor, ...]
    first: int
    last: int


def list_choices(
    field: Field,
    axis: int,
    size: int,
    dam: int,
    held: Sequence[int],
    extra: Sequence[tuple[int, TotalLimits]] = (),
    deadline: Deadline | None = None,
) -> tuple[Choice, ...]:
    """Return every choice along an axis (0 is x) for a panel of that size [steps].

    Parameters
    ----------
    field
        The motif's obstacles.
    axis
        0 along x, 1 along y.
    size
        The panel's flat extent along the axis [steps].
    dam
        Dam width and lay tolerance together [steps].
    held
        Intervals that must be inside.
    extra
        Further limits of the panel's lower side in the drawing [steps], each with the segment it
        moves with.
    deadline
        Where it comes before the end, TimeUpError is raised.
    """
    deadline = deadline or Deadline()
    reach, intervals = field.reaches[axis], field.intervals[axis]
    lows = _faces(reach, intervals, dam, deadline, is_low=True)
    highs = _faces(reach, intervals, dam, deadline, is_low=False)
    found: dict[tuple[object, ...], Choice] = {}
    wished = (
        [Anchor(segment, limits.low, False) for segment, limits in extra],
        [Anchor(segment, limits.high, False) for segment, limits in extra],
    )
    for low, high in product(lows, highs):
        deadline.check()
        if high.first - low.last > size or high.last - low.first < size:
            continue
        choice = _join(reach, low, high, size, wished)
        if choice is not None and all(choice.states[index] == "in" for index in held):
            found[(choice.states, choice.lower, choice.upper)] = choice
    return tuple(found.values())


def meet(
    reach: Reach, lower: Sequence[Anchor], upper: Sequence[Anchor]
) -> dict[tuple[int, int], TotalLimits] | None:
    """Return what the strips' totals must be for every lower limit to be at most every upper one.

    Only what the strips' own limits do not give already; None where those rule it out.
    """
    totals: dict[tuple[int, int], TotalLimits] = {}
    for low, high in product(lower, upper):
        need = low.offset - high.offset
        if low.segment == high.segment:
            if need > 0:
                return None
            continue
        start, stop = sorted((low.segment, high.segment))
        old = totals.get(
            (start, stop), TotalLimits(reach.low(start, stop), reach.high(start, stop))
        )
        if high.segment > low.segment:
            new = TotalLimits(max(old.low, need), old.high)
        else:
            new = TotalLimits(old.low, min(old.high, -need))
        if new.low > new.high:
            return None
        totals[start, stop] = new
    return {
        (start, stop): limits
        for (start, stop), limits in totals.items()
        if limits != (reach.low(start, stop), reach.high(start, stop))
    }


def _join(
    reach: Reach, low: _Face, high: _Face, size: int, wished: tuple[list[Anchor], list[Anchor]]
) -> Choice | None:
    """Return the choice two faces come to, None where no widths allow it."""
    lower = [*low.lower, *(_back(each, size) for each in high.lower), *wished[0]]
    upper = [*low.upper, *(_back(each, size) for each in high.upper), *wished[1]]
    lowest, highest = _binding(reach, lower, 1), _binding(reach, upper, -1)
    totals = meet(reach, lowest, highest)
    if totals is None:
        return None
    states = tuple(
        _both(first, second) for first, second in zip(low.states, high.states, strict=True)
    )
    sides = (low.side, high.side)
    return Choice(sides, states, tuple(lowest), tuple(highest), tuple(sorted(totals.items())))


def _both(first: State, second: State) -> State:
    if "out" in (first, second):
        return "out"
    return "in" if first == second == "in" else "met"


def _back(anchor: Anchor, size: int) -> Anchor:
    return anchor._replace(offset=anchor.offset - size)


def _faces(
    reach: Reach, intervals: Sequence[Interval], dam: int, deadline: Deadline, *, is_low: bool
) -> list[_Face]:
    """Return every kind of place for one side of a panel: on the rim, then with a dam."""
    last = len(reach.cuts)
    at = Anchor(0, 0, False) if is_low else Anchor(last, reach.extent, False)
    rim = _face("edge", tuple("in" for _ in intervals), [at], [at], reach)
    start = [Anchor(0, dam)] if is_low else []
    stop = [] if is_low else [Anchor(last, reach.extent - dam)]
    found: dict[tuple[State, ...], _Face] = {}
    for states in _walk(reach, intervals, 0, start, stop, is_low):
        deadline.check()
        lower, upper = list(start), list(stop)
        for state, interval in zip(states, intervals, strict=True):
            if state != "met":
                more_lower, more_upper = _anchors(interval, state, is_low)
                lower, upper = lower + more_lower, upper + more_upper
        found[states] = _face("dam", states, lower, upper, reach)
    return [rim, *found.values()]


def _face(
    side: Side,
    states: tuple[State, ...],
    lower: Sequence[Anchor],
    upper: Sequence[Anchor],
    reach: Reach,
) -> _Face:
    lowest, highest = _binding(reach, lower, 1), _binding(reach, upper, -1)
    first = max((at.offset + reach.low(0, at.segment) for at in lowest), default=0)
    end = reach.extent + reach.most
    last = min((at.offset + reach.high(0, at.segment) for at in highest), default=end)
    return _Face(side, states, tuple(lowest), tuple(highest), first, last)


def _walk(
    reach: Reach,
    intervals: Sequence[Interval],
    index: int,
    lower: list[Anchor],
    upper: list[Anchor],
    is_low: bool,
) -> Iterator[tuple[State, ...]]:
    """Yield what a side can make of the intervals from ``index`` on, each only where widths allow.

    The three states of an interval exclude each other here, so that each way is met once.
    """
    if index == len(intervals):
        yield ()
        return
    states: tuple[State, ...] = ("in", "out", "met")
    for state in states:
        more_lower, more_upper = _anchors(intervals[index], state, is_low)
        if _can_meet(reach, more_lower, [*upper, *more_upper]) and _can_meet(
            reach, lower, more_upper
        ):
            lowest = _binding(reach, [*lower, *more_lower], 1)
            highest = _binding(reach, [*upper, *more_upper], -1)
            for rest in _walk(reach, intervals, index + 1, lowest, highest, is_low):
                yield (state, *rest)


def _anchors(interval: Interval, state: State, is_low: bool) -> tuple[list[Anchor], list[Anchor]]:
    """Return the limits of a side that put the interval in that state."""
    segment = interval.segment
    if is_low:
        inside, outside = interval.low - interval.inner, interval.high + interval.outer
        if state == "in":
            return [], [Anchor(segment, inside)]
        if state == "out":
            return [Anchor(segment, outside)], []
        return [Anchor(segment, inside + 1)], [Anchor(segment, outside - 1)]
    inside, outside = interval.high + interval.inner, interval.low - interval.outer
    if state == "in":
        return [Anchor(segment, inside)], []
    if state == "out":
        return [], [Anchor(segment, outside)]
    return [Anchor(segment, outside + 1)], [Anchor(segment, inside - 1)]


def _can_meet(reach: Reach, lower: Sequence[Anchor], upper: Sequence[Anchor]) -> bool:
    for low, high in product(lower, upper):
        need = low.offset - high.offset
        if high.segment >= low.segment:
            if reach.high(low.segment, high.segment) < need:
                return False
        elif reach.low(high.segment, low.segment) > -need:
            return False
    return True


def _binding(reach: Reach, anchors: Sequence[Anchor], sign: int) -> list[Anchor]:
    """Return the anchors that no other one implies; ``sign`` 1 for lower ones, -1 for upper."""
    kept: list[Anchor] = []
    for anchor in sorted(set(anchors), key=lambda each: (-sign * each.offset, each)):
        if not any(_implies(reach, other, anchor, sign) for other in kept):
            kept = [other for other in kept if not _implies(reach, anchor, other, sign)]
            kept.append(anchor)
    return sorted(kept)


def _implies(reach: Reach, first: Anchor, second: Anchor, sign: int) -> bool:
    """Whether keeping the first limit keeps the second, whatever the widths.

    Limits of dams and other limits are kept apart, for only the former move where dams may miss.
    """
    if first.by_dam != second.by_dam:
        return False
    gap = second.offset - first.offset  # of a lower limit: shift of first - shift of second >= gap
    start, stop = sorted((first.segment, second.segment))
    low, high = reach.low(start, stop), reach.high(start, stop)
    least = low if first.segment >= second.segment else -high
    most = high if first.segment >= second.segment else -low
    return least >= gap if sign == 1 else most <= gap
