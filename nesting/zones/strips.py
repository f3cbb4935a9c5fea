"""From a motif to the strips that must be left plain: the product, in one pure function.

Axes nearly separate: along each, less is wanted, and only what a panel shows or hides and ornaments
at a corner couple them. So the pairs (total along x, total along y) that nothing beats in both are
few; going through them, least total along x first, proves the least area, though width x
height is no straight-line function.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field

from nesting.errors import NoScheduleError, RefusedError
from nesting.search.solver import INFINITY, Deadline, TimeUpError
from nesting.values.job import Job
from nesting.values.motif import Motif, Widths, liner_size, make_job
from nesting.zones.field import Field, count_stairs, survey_motif
from nesting.zones.model import Program, Solution
from nesting.zones.needs import Need, find_need
from nesting.zones.places import RoomyPlace, place_panels, refused_places, roomiest_ways
from nesting.zones.reasons import explain_zones
from nesting.zones.region import in_steps
from nesting.zones.rooms import Held, share_out

GridTotals = tuple[int, int]
"""The strips' total widths along x and along y [grid]."""
IN_STEPS = (
    "That there is none is NOT PROVED: ornaments with slanted sides are taken as stairs around "
    "them, and a dam may lie closer."
)
"""Said where slanted ornaments may be why nothing was found."""
_MOST_LOOSE = 6  # most ornaments taken as stairs for which a bound without those is looked for
_FINEST = 1_000_000  # most grid units of a liner, so that the solver's arithmetic stays exact


@dataclass(frozen=True, slots=True)
class Zoning:
    """The strips of one liner that gives every size.

    ``widths`` [steps] are multiples of ``grid`` [steps]. ``frontier`` lists the liner sizes
    (width, height) [steps] that were found least in both together, of which the least area is one.
    ``is_exact`` where no less area is possible for the true outlines of slanted ornaments either.
    """

    motif: Motif
    grid: int
    widths: Widths
    places: tuple[RoomyPlace, ...]
    frontier: tuple[tuple[int, int], ...]
    strips_used: int
    is_exact: bool = True

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
    def added(self) -> int:
        """The area added to the drawing [square steps]."""
        return self.area - self.motif.frame.area


@dataclass(frozen=True, slots=True)
class ReadyMotif:
    """A motif made ready for questions: its obstacles, what each size needs, and the grid.

    ``deadline`` is that of all answers.
    """

    motif: Motif
    field: Field
    needs: tuple[Need, ...]
    grid: int
    deadline: Deadline = dataclass_field(default_factory=Deadline)


def plan_zones(setting: ReadyMotif) -> Zoning:
    """Return the strips of least liner area, then fewest strips, then most room for the dams.

    Every size has its place by the exact position maps.

    Raises
    ------
    NoScheduleError
        With the reasons, where no liner within the greatest size gives every size.
    TimeUpError
        Where the deadline comes before.
    """
    found = zone_for(setting)
    if found is None:
        raise NoScheduleError(explain_zones(setting.motif, setting.needs, setting.deadline))
    return found


def prepare(motif: Motif, deadline: Deadline | None = None) -> ReadyMotif:
    """Return the motif ready for questions, on whole set-out divisions where these have an answer.

    Raises NoScheduleError where no width of the strips gives every size, and TimeUpError where the
    deadline comes before that is known.
    """
    deadline = deadline or Deadline()
    field = survey_motif(motif)
    needs = tuple(find_need(motif, field, panel, deadline) for panel in motif.job.panels)
    for grid in _grids(motif, needs):
        program = Program(motif, needs, grid, deadline)
        if program.has_answer:
            return ReadyMotif(motif, field, needs, grid, deadline)
    reasons = explain_zones(motif, needs, deadline)
    stairs = count_stairs(motif)
    if stairs > _MOST_LOOSE or (stairs and _loose_program(motif, grid, deadline).has_answer):
        reasons.append(IN_STEPS)
    raise NoScheduleError(reasons)


def zone_for(setting: ReadyMotif) -> Zoning | None:
    """Return the zoning of least area, of those one with fewest strips; None where none does."""
    program = Program(setting.motif, setting.needs, setting.grid, setting.deadline)
    sizes = {totals: _size(program, totals) for totals, _ in _frontier(program)}
    if not sizes:
        return None
    least = min(map(math.prod, sizes.values()))
    found = [program.fewest_used(each) for each, size in sizes.items() if math.prod(size) == least]
    used, answer = min((each for each in found if each is not None), key=lambda entry: entry[0])
    zoning = settle_strips(setting, answer.widths, tuple(sizes.values()), used)
    return replace(zoning, is_exact=_is_least(setting, zoning.area))


def _is_least(setting: ReadyMotif, area: int) -> bool:
    """Whether less of every slanted ornament than there is still asks for that area."""
    stairs = count_stairs(setting.motif)
    if not 0 < stairs <= _MOST_LOOSE:
        return not stairs
    try:
        program = _loose_program(setting.motif, setting.grid, setting.deadline)
        areas = [math.prod(_size(program, totals)) for totals, _ in _frontier(program)]
    except TimeUpError:
        return False
    return bool(areas) and min(areas) >= area


def _loose_program(motif: Motif, grid: int, deadline: Deadline) -> Program:
    field = survey_motif(motif, loosely=True)
    needs = [find_need(motif, field, panel, deadline) for panel in motif.job.panels]
    return Program(motif, needs, grid, deadline)


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


def _frontier(program: Program) -> Iterable[tuple[GridTotals, Solution]]:
    """Yield the totals (along x, along y) that can be of least area, with an answer for each.

    Nothing beats any of them in both. Least total along x first; ends where even the least height
    makes every wider liner too large.
    """
    if not program.is_possible:
        return
    lowest = program.least_total(1, (INFINITY, INFINITY))
    if lowest is None:
        return
    wide, floor = 0, lowest[0]
    best = math.inf
    high: float = INFINITY
    while (first := program.least_total(0, (INFINITY, high), floor=wide)) is not None:
        if math.prod(_size(program, (first[0], floor))) > best:
            return
        second: tuple[int, Solution] | None = floor, first[1]
        if sum(first[1].widths[number] for number in program.orders[1]) > floor:
            second = program.least_total(1, (first[0], INFINITY), floor=floor)
        assert second is not None
        totals = (first[0], second[0])
        best = min(best, math.prod(_size(program, totals)))
        yield totals, second[1]
        if second[0] == floor:
            return
        wide, high = first[0] + 1, second[0] - 1.0


def _size(program: Program, totals: tuple[int, int]) -> tuple[int, int]:
    frame = program.motif.frame
    return frame.width + totals[0] * program.grid, frame.height + totals[1] * program.grid


def settle_strips(
    setting: ReadyMotif,
    counts: Widths,
    frontier: tuple[tuple[int, int], ...],
    used: int,
    held: Sequence[Held] = (),
    *,
    shared: bool = True,
) -> Zoning:
    """Return the zoning of widths [grid], ``shared`` out for the most room found for the dams.

    Every panel has a place by the exact position maps. ``held`` is what totals of strips must keep
    to beside. Sharing is repeated as long as the least room grows.

    Raises
    ------
    RefusedError
        Where the exact position maps object.
    """
    motif, grid = setting.motif, setting.grid
    places = _place(setting, counts)
    while shared and places is not None and not setting.deadline.passed:
        ways = roomiest_ways(motif, in_steps(counts, grid), setting.needs)
        fresh = share_out(motif, counts, ways, grid, held, setting.deadline)
        found = _place(setting, fresh)
        if found is None or _roominess(found) <= _roominess(places):
            break
        counts, places = fresh, found
    widths = in_steps(counts, grid)
    job = make_job(motif, widths)
    refused = ["a size has no place"] if places is None else refused_places(motif, job, places)
    if refused or places is None:
        raise RefusedError(refused)
    return Zoning(motif, grid, widths, places, frontier, used)


def _place(setting: ReadyMotif, counts: Widths) -> tuple[RoomyPlace, ...] | None:
    widths = in_steps(counts, setting.grid)
    return place_panels(setting.motif, setting.field, widths, setting.needs)


def _roominess(places: Sequence[RoomyPlace]) -> tuple[int, int]:
    """Return the least room of all dams, and the sum of each panel's least."""
    rooms = [place.least_room for place in places if place.least_room is not None]
    return min(rooms, default=0), sum(rooms)
