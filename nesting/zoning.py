"""From a motif to the strips that must be left plain: the product, in one pure function.

Axes nearly separate: along each, less is wanted, and only what a panel shows or hides and ornaments
at a corner couple them. So the pairs (total along x, total along y) that nothing beats in both are
few; going through them, least total along x first, proves the least area, though width x
height is no straight-line function.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from nesting.errors import NoScheduleError, RefusedError
from nesting.job import Job
from nesting.motif import Motif, Widths, liner_size, make_job
from nesting.search.solver import INFINITY
from nesting.zonefield import Field, survey_motif
from nesting.zonemodel import Answer, Program
from nesting.zoneneeds import Need, find_need
from nesting.zoneplaces import Place, place_panels, refused_places, roomiest_ways
from nesting.zonereasons import explain_zones
from nesting.zonerooms import share_out

_FINEST = 1_000_000  # most grid units of a liner, so that the solver's arithmetic stays exact


@dataclass(frozen=True, slots=True)
class Zoning:
    """The strips of one liner that gives every size.

    ``widths`` [steps] are multiples of ``grid`` [steps]. ``frontier`` lists the liner sizes
    (width, height) [steps] that were found least in both together, of which the least area is one;
    ``together`` the pairs of sizes that were to fit into one cast.
    """

    motif: Motif
    grid: int
    widths: Widths
    places: tuple[Place, ...]
    frontier: tuple[tuple[int, int], ...]
    strips_used: int
    together: tuple[tuple[str, ...], ...] = ()

    @property
    def job(self) -> Job:
        """The job of the new liner, ready to be planned."""
        return make_job(self.motif, self.widths)

    @property
    def size(self) -> tuple[int, int]:
        """The liner's width and height [steps]."""
        return liner_size(self.motif, self.widths)

    @property
    def area(self) -> int:
        """The liner's area [square steps]."""
        return self.size[0] * self.size[1]

    @property
    def is_exact(self) -> bool:
        """Whether the proof holds for the true outlines of the ornaments, not for boxes only.

        On detail no dam comes between an ornament and its box.
        """
        liner = self.motif.job.liner
        return liner.unmarked == "detail" or all(each.outline.is_box for each in liner.ornaments)

    @property
    def added(self) -> int:
        """The area added to the drawing [square steps]."""
        return self.area - self.motif.frame.area


@dataclass(frozen=True, slots=True)
class Setting:
    """A motif made ready for questions: its obstacles, what each size needs, and the grid."""

    motif: Motif
    field: Field
    needs: tuple[Need, ...]
    grid: int


def plan_zones(setting: Setting) -> Zoning:
    """Return the strips of least liner area, then fewest strips, then most room for the dams.

    Every size has its place by the exact position maps.

    Raises
    ------
    NoScheduleError
        With the reasons, where no liner within the greatest size gives every size.
    """
    found = zone_for(setting)
    if found is None:
        raise NoScheduleError(explain_zones(setting.motif, setting.needs))
    return found


def prepare(motif: Motif) -> Setting:
    """Return the motif ready for questions, on whole set-out divisions where these have an answer.

    Raises NoScheduleError where no width of the strips gives every size.
    """
    field = survey_motif(motif)
    needs = tuple(find_need(motif, field, panel) for panel in motif.job.panels)
    for grid in _grids(motif, needs):
        program = Program(motif, needs, grid)
        if program.is_possible and program.is_met((INFINITY, INFINITY)):
            return Setting(motif, field, needs, grid)
    raise NoScheduleError(explain_zones(motif, needs))


def zone_for(
    setting: Setting, together: Sequence[Need] = (), most_nodes: int | None = None
) -> Zoning | None:
    """Return the zoning of least area that meets some needs beside those of the sizes, or None.

    ``together`` are pairs of sizes that must fit into one cast; ``most_nodes`` as for `Program`.
    """
    program = Program(setting.motif, (*setting.needs, *together), setting.grid, most_nodes)
    points = list(_frontier(program)) if program.is_possible else []
    if not points:
        return None
    sizes = [_size(program, totals) for totals, _ in points]
    least = min(width * height for width, height in sizes)
    ties = [
        found
        for (totals, _), (width, height) in zip(points, sizes, strict=True)
        if width * height == least and (found := program.fewest_used(totals)) is not None
    ]
    used, answer = min(ties, key=lambda entry: entry[0])
    widths, places = _settle(setting, answer, program.needs)
    marks = tuple(need.marks for need in together)
    return Zoning(setting.motif, setting.grid, widths, places, tuple(sizes), used, marks)


def _grids(motif: Motif, needs: Iterable[Need]) -> list[int]:
    """Return the grids to try [steps]: set-out divisions, then what all lengths are multiples of.

    Never so fine that the liner has more units than whole-number programs are exact for.
    """
    division = motif.job.rules.set_out
    sides = [side for need in needs for size in need.sizes for side in size]
    lengths = [value for strip in motif.strips for value in (strip.at, strip.least)]
    finest = math.gcd(division, motif.frame.width, motif.frame.height, *sides, *lengths)
    coarse = -(-max(motif.greatest) // _FINEST)
    finest = next(n for n in range(max(finest, coarse), division + 1) if division % n == 0)
    return [division] if finest == division else [division, finest]


def _frontier(program: Program) -> Iterable[tuple[tuple[int, int], Answer]]:
    """Yield the totals (along x, along y) that nothing beats in both and that can be of least area.

    Ends where even the least height makes every wider liner too large.
    """
    lowest = program.least_total(1, (INFINITY, INFINITY))
    if lowest is None:
        return
    floor, best = lowest[0], math.inf
    high: float = INFINITY
    wide = 0.0
    while (first := program.least_total(0, (INFINITY, high), floor=wide)) is not None:
        if math.prod(_size(program, (first[0], floor))) > best:
            return
        second = program.least_total(1, (first[0], INFINITY), floor=floor)
        assert second is not None
        totals = (first[0], second[0])
        best = min(best, math.prod(_size(program, totals)))
        yield totals, second[1]
        if second[0] == floor:
            return
        wide, high = first[0] + 1.0, second[0] - 1.0


def _size(program: Program, totals: tuple[int, int]) -> tuple[int, int]:
    frame = program.motif.frame
    return frame.width + totals[0] * program.grid, frame.height + totals[1] * program.grid


def _settle(
    setting: Setting, answer: Answer, needs: Sequence[Need]
) -> tuple[Widths, tuple[Place, ...]]:
    """Return the widths [steps] with the most room found for the dams, and the places."""
    motif, grid = setting.motif, setting.grid

    def in_steps(widths: Widths) -> Widths:
        return tuple(width * grid for width in widths)

    widths = answer.widths
    if all(len(need.marks) == 1 for need in needs):  # pairs hold the widths where they are
        ways = roomiest_ways(motif, in_steps(widths), setting.needs)
        widths = share_out(motif, widths, ways, grid)
    places = place_panels(motif, setting.field, in_steps(widths), setting.needs)
    if places is None:
        widths = answer.widths
        places = place_panels(motif, setting.field, in_steps(widths), setting.needs)
    job = make_job(motif, in_steps(widths))
    refused = ["a size has no place"] if places is None else refused_places(motif, job, places)
    if refused or places is None:
        raise RefusedError(refused)
    return in_steps(widths), places
