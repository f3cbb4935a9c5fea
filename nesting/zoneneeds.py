"""What each panel size asks of a motif's strips: choices along x, choices along y, and which match.

A choice along x and one along y match where every obstacle is then left out along one axis or
held along both, what must be shown is held, and what must be hidden is not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from numpy.typing import NDArray

from nesting.beds import flat_size
from nesting.motif import AXES, Motif, Widths, shifts
from nesting.panels import Panel
from nesting.zonechoices import Anchor, Choice, Limits, list_choices, meet
from nesting.zonefield import Field, Reach

Bools = NDArray[np.bool_]
Totals = tuple[tuple[tuple[int, int], Limits], ...]
_MOST_PAIRED = 4_000


@dataclass(frozen=True, slots=True)
class Way:
    """One way to meet a need along one axis: a choice for each of its panels.

    Ways of a pair hold none: only what they ask of the strips counts. ``order`` is the number of
    the panel that comes first where the two lie one beyond the other along this axis, else None.
    """

    choices: tuple[Choice, ...]
    totals: Totals
    order: int | None = None


@dataclass(frozen=True, slots=True)
class Need:
    """One panel size, or two that must share a cast, with every way to give it a place.

    ``matches[i, j]`` says that way i along x goes with way j along y.
    """

    marks: tuple[str, ...]
    sizes: tuple[tuple[int, int], ...]
    ways: tuple[tuple[Way, ...], tuple[Way, ...]]
    matches: Bools

    @property
    def is_possible(self) -> bool:
        """Whether any two ways match."""
        return bool(self.matches.any())

    def is_met(self, motif: Motif, widths: Widths) -> bool:
        """Whether strips of those widths [steps] meet the need."""
        open_ways = []
        for axis, ways in enumerate(self.ways):
            moved = shifts(motif, widths, AXES[axis])
            open_ways.append(
                [
                    all(low <= moved[j] - moved[i] <= high for (i, j), (low, high) in way.totals)
                    for way in ways
                ]
            )
        return bool(self.matches[np.ix_(*open_ways)].any())


def find_need(motif: Motif, field: Field, panel: Panel) -> Need:
    """Return what one panel size asks; without any match where nothing gives it a place."""
    job = motif.job
    size = flat_size(panel, job.bed(panel.bed), job.liner.thickness, job.as_cast.panel_shrink)
    index = {ornament.name: number for number, ornament in enumerate(job.liner.ornaments)}
    centred = [each.ornament for each in motif.centrings if each.mark == panel.mark]
    shown = [field.ornaments[index[name]] for name in (*panel.must_show, *centred)]
    hidden = [field.ornaments[index[name]] for name in panel.must_hide]
    listed = [_list_along(motif, field, panel, axis, size[axis]) for axis in (0, 1)]
    matches = _match(field, listed[0], listed[1], shown, hidden)
    kept = [_best(listed[axis], matches if axis == 0 else matches.T) for axis in (0, 1)]
    ways = [
        tuple(Way((choices[number],), choices[number].totals) for number in numbers)
        for choices, numbers in zip(listed, kept, strict=True)
    ]
    return Need((panel.mark,), (size,), (ways[0], ways[1]), matches[np.ix_(kept[0], kept[1])])


def pair_needs(field: Field, first: Need, second: Need, dam: int) -> Need | None:
    """Return the need of two panel sizes in one cast, a dam apart [steps].

    None where there are too many ways to go through.
    """
    ways = [list(_pair_ways(field, axis, first, second, dam)) for axis in (0, 1)]
    if max(map(len, ways)) > _MOST_PAIRED:
        return None
    grids = []
    for number, need in enumerate((first, second)):
        places = [{way.choices[0]: spot for spot, way in enumerate(each)} for each in need.ways]
        picks = [[places[axis][way.choices[number]] for way in ways[axis]] for axis in (0, 1)]
        grids.append(need.matches[np.ix_(*picks)])
    apart = np.logical_or.outer(*([way.order is not None for way in each] for each in ways))
    matches = grids[0] & grids[1] & apart
    across, matches = _merge(field.reaches[0], [way.totals for way in ways[0]], matches)
    up, turned = _merge(field.reaches[1], [way.totals for way in ways[1]], matches.T)
    return Need(
        (*first.marks, *second.marks),
        (*first.sizes, *second.sizes),
        (tuple(Way((), each) for each in across), tuple(Way((), each) for each in up)),
        turned.T,
    )


def _merge(reach: Reach, totals: Sequence[Totals], matches: Bools) -> tuple[list[Totals], Bools]:
    """Return what of many ways is different: totals, with all that any way of those matches.

    A way is left out where another asks no more of the strips and matches as much.
    """
    rows: dict[Totals, Bools] = {}
    for each, row in zip(totals, matches, strict=True):
        if row.any():
            rows[each] = rows[each] | row if each in rows else row
    order = sorted(rows, key=lambda each: (len(each), each))
    kept: list[Totals] = []
    for each in order:
        if not any(
            _asks_less(reach, other, each) and _has_all(rows, other, each) for other in kept
        ):
            kept = [
                other
                for other in kept
                if not (_asks_less(reach, each, other) and _has_all(rows, each, other))
            ]
            kept.append(each)
    empty = np.zeros((0, matches.shape[1]), dtype=bool)
    return kept, np.array([rows[each] for each in kept]) if kept else empty


def _has_all(rows: dict[Totals, Bools], first: Totals, second: Totals) -> bool:
    return not (rows[second] & ~rows[first]).any()


def _asks_less(reach: Reach, first: Totals, second: Totals) -> bool:
    """Whether widths that give the second what it asks give the first what it asks."""
    asked = dict(second)
    for (start, stop), limits in first:
        low, high = reach.low(start, stop), reach.high(start, stop)
        for (i, j), other in asked.items():
            if start <= i and j <= stop:
                low = max(low, other.low + reach.low(start, i) + reach.low(j, stop))
            if i <= start and stop <= j:
                high = min(high, other.high - reach.low(i, start) - reach.low(stop, j))
        if low < limits.low or high > limits.high:
            return False
    return True


def _list_along(
    motif: Motif, field: Field, panel: Panel, axis: int, size: int
) -> tuple[Choice, ...]:
    """Return the choices of a panel along one axis, centred where that is wished."""
    names = [ornament.name for ornament in motif.job.liner.ornaments]
    wishes = [
        each for each in motif.centrings if (each.mark, each.axis) == (panel.mark, AXES[axis])
    ]
    held = [field.spots[field.ornaments[names.index(each.ornament)]][axis] for each in wishes]
    extra = []
    for wish, interval in zip(wishes, held, strict=True):
        ornament = field.intervals[axis][interval]
        twice = ornament.high - ornament.low - size  # to the lower side of a centred panel
        extra.append(Limits(twice // 2 - wish.within, -(-twice // 2) + wish.within))
    held += [field.spots[field.ornaments[names.index(name)]][axis] for name in panel.must_show]
    dam = motif.job.rules.dam_width + motif.lay_tolerance
    return list_choices(field, axis, size, dam, held, extra)


def _match(
    field: Field,
    across: Sequence[Choice],
    up: Sequence[Choice],
    shown: Sequence[int],
    hidden: Sequence[int],
) -> Bools:
    """Return which choices along x and along y go together."""
    matches: Bools = np.ones((len(across), len(up)), dtype=bool)
    for number, (i, j) in enumerate(field.spots):
        x, y = (np.array([each.states[k] for each in axis]) for axis, k in ((across, i), (up, j)))
        if not len(x) or not len(y):
            continue
        held = np.logical_and.outer(x == "in", y == "in")
        out = np.logical_or.outer(x == "out", y == "out")
        matches &= held if number in shown else held | out
        matches &= out if number in hidden else True
    return matches


def _best(choices: Sequence[Choice], matches: Bools) -> list[int]:
    """Return the numbers of the choices that no other one stands in for, in their order.

    One stands in for another where it asks no more of position and widths and matches all it does.
    """
    open_numbers = [int(number) for number in np.flatnonzero(matches.any(axis=1))]
    open_numbers.sort(key=lambda n: (len(choices[n].lower) + len(choices[n].upper), n))
    kept: list[int] = []
    for number in open_numbers:
        if not any(_covers(choices, matches, other, number) for other in kept):
            kept = [k for k in kept if not _covers(choices, matches, number, k)]
            kept.append(number)
    return sorted(kept)


def _covers(choices: Sequence[Choice], matches: Bools, first: int, second: int) -> bool:
    if (matches[second] & ~matches[first]).any():
        return False
    one, other = choices[first], choices[second]
    return _weaker(one.lower, other.lower, 1) and _weaker(one.upper, other.upper, -1)


def _weaker(first: Sequence[Anchor], second: Sequence[Anchor], sign: int) -> bool:
    """Whether each limit of the first is one of the second's, or a slacker one of its segment."""
    return all(
        any(
            each.segment == other.segment and sign * each.offset <= sign * other.offset
            for other in second
        )
        for each in first
    )


def _pair_ways(field: Field, axis: int, first: Need, second: Need, dam: int) -> list[Way]:
    reach, found = field.reaches[axis], []
    for one, other in product(first.ways[axis], second.ways[axis]):
        pair = (one.choices[0], other.choices[0])
        base = _both_totals(one.totals, other.totals)
        for order in (None, 0, 1):
            totals = base
            if order is not None and totals is not None:
                size = (first, second)[order].sizes[0][axis]
                before, after = pair[order], pair[1 - order]
                moved = [at._replace(offset=at.offset + size + dam) for at in before.lower]
                apart = meet(reach, moved, after.upper)
                totals = None if apart is None else _both_totals(totals, tuple(apart.items()))
            if totals is not None:
                found.append(Way(pair, totals, order))
    return found


def _both_totals(first: Totals, second: Totals) -> Totals | None:
    found = dict(first)
    for span, limits in second:
        old = found.get(span, limits)
        found[span] = Limits(max(old.low, limits.low), min(old.high, limits.high))
        if found[span].low > found[span].high:
            return None
    return tuple(sorted(found.items()))


def without_wishes(panel: Panel) -> Panel:
    """Return the panel with nothing it must show or hide."""
    return replace(panel, must_show=(), must_hide=())
