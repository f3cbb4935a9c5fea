"""What each panel size asks of a motif's strips: choices along x, choices along y, and which match.

A choice along x and one along y match where every obstacle is then left out along one axis or
held along both, what must be shown is held, and what must be hidden is not.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from nesting.search.solver import Deadline
from nesting.shapes.convex import Bools
from nesting.values.bed import AXES
from nesting.values.bend import bend_of
from nesting.values.motif import Centring, Motif, Widths, segment_of, shifts
from nesting.values.panels import Panel
from nesting.zones.choices import Anchor, Choice, TotalLimits, list_choices
from nesting.zones.field import Field

SpanTotals = tuple[tuple[tuple[int, int], TotalLimits], ...]


@dataclass(frozen=True, slots=True)
class NeedWay:
    """One way to meet a need along one axis: a choice for each of its panels.

    Ways of several sizes in one cast hold none: only what they ask of the strips counts.
    """

    choices: tuple[Choice, ...]
    totals: SpanTotals


@dataclass(frozen=True, slots=True)
class Need:
    """One panel size, or several in one cast, with every way to give it a place.

    ``matches[i, j]`` says that way i along x goes with way j along y.
    """

    marks: tuple[str, ...]
    sizes: tuple[tuple[int, int], ...]
    ways: tuple[tuple[NeedWay, ...], tuple[NeedWay, ...]]
    matches: Bools

    @property
    def is_possible(self) -> bool:
        """Whether any two ways match."""
        return bool(self.matches.any())

    def ways_met(self, motif: Motif, widths: Widths) -> tuple[NeedWay, NeedWay] | None:
        """Return the first ways along x and y by which such strips meet the need, else None.

        ``widths`` are those of the strips [steps].
        """
        open_ways = []
        for axis, ways in enumerate(self.ways):
            moved = shifts(motif, widths, AXES[axis])
            open_ways.append(
                [
                    number
                    for number, way in enumerate(ways)
                    if all(low <= moved[j] - moved[i] <= high for (i, j), (low, high) in way.totals)
                ]
            )
        for first in open_ways[0]:
            for second in open_ways[1]:
                if self.matches[first, second]:
                    return self.ways[0][first], self.ways[1][second]
        return None


def find_need(motif: Motif, field: Field, panel: Panel, deadline: Deadline | None = None) -> Need:
    """Return what one panel size asks; without any match where nothing gives it a place.

    Raises TimeUpError where the deadline comes before.
    """
    deadline = deadline or Deadline()
    job = motif.job
    size = bend_of(job, panel.bed).flat_size(panel)
    index = {ornament.name: number for number, ornament in enumerate(job.liner.ornaments)}
    centred = [each.ornament for each in motif.centrings if each.mark == panel.mark]
    shown, hidden = (
        [spot for name in names for spot in field.ornaments[index[name]]]
        for names in ((*panel.must_show, *centred), panel.must_hide)
    )
    listed = [_list_along(motif, field, panel, axis, size[axis], deadline) for axis in (0, 1)]
    matches = _match(field, listed, shown, hidden, deadline)
    kept = [_best(listed[axis], matches if axis == 0 else matches.T, deadline) for axis in (0, 1)]
    ways = [
        tuple(NeedWay((choices[number],), choices[number].totals) for number in numbers)
        for choices, numbers in zip(listed, kept, strict=True)
    ]
    return Need((panel.mark,), (size,), (ways[0], ways[1]), matches[np.ix_(kept[0], kept[1])])


def _list_along(
    motif: Motif, field: Field, panel: Panel, axis: int, size: int, deadline: Deadline
) -> tuple[Choice, ...]:
    """Return the choices of a panel along one axis, centred where that is wished."""
    names = [ornament.name for ornament in motif.job.liner.ornaments]
    wishes = [
        each for each in motif.centrings if (each.mark, each.axis) == (panel.mark, AXES[axis])
    ]
    extra = [_centre(motif, wish, size) for wish in wishes]
    shown = [*(each.ornament for each in wishes), *panel.must_show]
    spots = [spot for name in shown for spot in field.ornaments[names.index(name)]]
    held = [field.spots[spot][axis] for spot in spots]
    dam = motif.job.rules.dam_width + motif.lay_tolerance
    return list_choices(field, axis, size, dam, held, extra, deadline)


def _centre(motif: Motif, wish: Centring, size: int) -> tuple[int, TotalLimits]:
    """Return the segment of an ornament, and limits of a panel's lower side in the drawing."""
    axis = AXES.index(wish.axis)
    outlines = {each.name: each.outline for each in motif.job.liner.ornaments}
    box = outlines[wish.ornament].bounds
    twice = box[axis] + box[axis + 2] - size
    segment = segment_of(box[axis], motif.cuts(wish.axis))
    return segment, TotalLimits(twice // 2 - wish.within, -(-twice // 2) + wish.within)


def _match(
    field: Field,
    listed: Sequence[Sequence[Choice]],
    shown: Sequence[int],
    hidden: Sequence[int],
    deadline: Deadline,
) -> Bools:
    """Return which choices along x and along y go together."""
    across, up = listed
    matches: Bools = np.ones((len(across), len(up)), dtype=bool)
    for number, (i, j) in enumerate(field.spots):
        deadline.check()
        x, y = (np.array([each.states[k] for each in axis]) for axis, k in ((across, i), (up, j)))
        if not len(x) or not len(y):
            continue
        held = np.logical_and.outer(x == "in", y == "in")
        out = np.logical_or.outer(x == "out", y == "out")
        matches &= held if number in shown else held | out
        matches &= out if number in hidden else True
    return matches


def _best(choices: Sequence[Choice], matches: Bools, deadline: Deadline) -> list[int]:
    """Return the numbers of the choices that no other one stands in for, in their order.

    One stands in for another where it asks no more of position and widths and matches all it does.
    """
    open_numbers = [int(number) for number in np.flatnonzero(matches.any(axis=1))]
    open_numbers.sort(key=lambda n: (len(choices[n].lower) + len(choices[n].upper), n))
    kept: list[int] = []
    for number in open_numbers:
        deadline.check()
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
