"""From position maps to the search and back: exact on axis-parallel ground, bracketed on slopes.

Where obstacles have slanted edges the places that suffice are not finitely many. There the search
runs twice: on outer stairs, where every place is real, and on inner stairs, where no real place is
missing, so that their bound holds. Layouts found on the inner stairs are then moved off the slopes
they cut, by a linear program on the exact obstacles; where that succeeds they are real, and their
places join the real ones. Finer and finer stairs, until bound and schedule meet or time is up.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from nesting.candidates import Place, find_candidates
from nesting.casts import Placement, Sides
from nesting.convex import Pieces
from nesting.geometry import Polygon
from nesting.ground import Ground, survey
from nesting.positions import PositionMap, map_positions
from nesting.search.fewest import FewestCasts, find_casts, find_fewest, find_layouts
from nesting.search.instance import Answer, Certificate, Instance, Item, Layout
from nesting.search.solver import Deadline, Report
from nesting.settle import Seat, realise
from nesting.sizes import Size
from nesting.staircase import inner_stairs, outer_stairs
from nesting.units import STEPS_PER_MM

STAIR_STEPS = tuple(STEPS_PER_MM * mm // 4 for mm in (40, 20, 8, 4, 2, 1))
"""Steps of the stairs tried in turn: 10, 5, 2, 1, 1/2 and 1/4 mm."""


def search_casts(
    ground: Ground, sizes: Sequence[Size], deadline: Deadline, report: Report
) -> tuple[Instance, Answer, Certificate]:
    """Return the places searched, the schedule found on them, and the proof that holds for all."""
    if ground.is_stepped:
        instance = _instance([size.map for size in sizes], sizes, ground)
        answer = find_fewest(instance, deadline, report)
        return instance, answer, answer.certificate
    return _Bracket(ground, sizes, deadline, report).close()


def seat_at(size: Size, x: int, y: int, sides: Sides) -> Seat:
    """Return a panel of that size put down at (x, y)."""
    spot = Placement(
        size.panel.mark,
        x,
        y,
        size.map.width,
        size.map.height,
        sides,
        off_nominal=size.off_nominal,
    )
    return Seat(spot, size.map, size.wish)


class _Bracket:
    """The search between outer and inner stairs."""

    def __init__(
        self, ground: Ground, sizes: Sequence[Size], deadline: Deadline, report: Report
    ) -> None:
        self.ground, self.sizes, self.deadline, self.report = ground, sizes, deadline, report
        self.places: list[set[Place]] = [set(_first_places(size)) for size in sizes]
        self.real: tuple[Instance, FewestCasts] | None = None
        self.certificate: Certificate | None = None

    def close(self) -> tuple[Instance, Answer, Certificate]:
        """Refine the stairs until bound and schedule meet or time is up."""
        for step in STAIR_STEPS:
            outer = self._maps(partial(outer_stairs, step=step))
            self._add(find_candidates(outer, self.ground.rules.dam_width, self.ground.frame))
            self._search()
            self._relax(step)
            if self.is_closed or self.deadline.passed:
                break
        assert self.real is not None and self.certificate is not None
        instance, found = self.real
        return instance, find_layouts(found, self.deadline, self.report), self.certificate

    @property
    def is_closed(self) -> bool:
        """Whether bound and schedule meet."""
        return (
            self.real is not None
            and self.certificate is not None
            and self.certificate.bound == self.real[1].casts
        )

    def _relax(self, step: int) -> None:
        """Search on inner stairs: for the bound, and for layouts that can be made real."""
        maps = self._maps(partial(inner_stairs, step=step))
        relaxed = _instance(maps, self.sizes, self.ground)
        found = find_casts(relaxed, self.deadline, self.report)
        if self.certificate is None or found.certificate.bound > self.certificate.bound:
            self.certificate = found.certificate
        if self.is_closed:
            return
        for layout in found.layouts():
            self._realise(relaxed, maps, layout)
        self._search()

    def _search(self) -> None:
        """Search on all places known to be real."""
        instance = _with_places(self.sizes, self.places, self.ground)
        found = find_casts(instance, self.deadline, self.report)
        if self.real is None or found.casts < self.real[1].casts:
            self.real = instance, found

    def _realise(self, relaxed: Instance, maps: list[PositionMap], layout: Layout) -> None:
        seats = []
        for bay in layout:
            item = int(relaxed.owner[bay])
            x, y = (int(value) for value in relaxed.boxes[bay, :2])
            sheet = maps[item].sheet_at(x, y)
            if sheet is None:
                return
            seats.append(seat_at(self.sizes[item], x, y, sheet.sides))
        for bay, spot in zip(layout, realise(self.ground, seats) or (), strict=False):
            self.places[int(relaxed.owner[bay])].add((spot.x, spot.y))

    def _maps(self, shape: Callable[[Polygon], Pieces]) -> list[PositionMap]:
        stepped = survey(self.ground.liner, self.ground.rules, shape)
        return [map_positions(stepped, s.map.width, s.map.height, s.wish) for s in self.sizes]

    def _add(self, found: Sequence[Sequence[Place]]) -> None:
        for known, new in zip(self.places, found, strict=True):
            known.update(new)


def _first_places(size: Size) -> list[Place]:
    place = size.map.first_place()
    return [] if place is None else [place]


def _instance(maps: list[PositionMap], sizes: Sequence[Size], ground: Ground) -> Instance:
    return _with_places(sizes, find_candidates(maps, ground.rules.dam_width, ground.frame), ground)


def _with_places(
    sizes: Sequence[Size], places: Sequence[Sequence[Place] | set[Place]], ground: Ground
) -> Instance:
    dam = ground.rules.dam_width
    return Instance(
        tuple(
            Item(
                size.map.width + dam, size.map.height + dam, size.panel.quantity, tuple(sorted(at))
            )
            for size, at in zip(sizes, places, strict=True)
        )
    )
