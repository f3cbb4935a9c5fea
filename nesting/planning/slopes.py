"""From position maps to the search and back: exact on axis-parallel ground, bracketed on slopes.

Where obstacles have slanted edges the places that suffice are not finitely many. There the search
runs twice: on narrow layers, where every place is real, and on wide layers, where no real place is
missing, so that their bound holds. Layouts found on the wide layers are then moved off the slopes
they cut, by a linear program on the exact obstacles; where that succeeds they are real, and their
places join the real ones. Finer and finer layers, until bound and schedule meet or time is up.
"""

from collections.abc import Sequence
from dataclasses import replace

from nesting.maps.candidates import Place, PlaceMap, find_candidates
from nesting.maps.ground import Ground
from nesting.maps.layers import LayeredMap, layer_map
from nesting.maps.sizes import SizedPanel
from nesting.planning.settle import Seat, realise
from nesting.search.fewest import FewestCasts, find_casts, find_fewest, find_layouts, refute_layouts
from nesting.search.instance import Answer, Certificate, Instance, Item, PlaceSet
from nesting.search.solver import Deadline, Report
from nesting.units import STEPS_PER_MM
from nesting.values.casts import Placement, Sides

LAYER_STEPS = tuple(STEPS_PER_MM * quarters // 4 for quarters in (32, 8, 2, 1))
"""Heights of the layers tried in turn: 8, 2, 1/2 and 1/4 mm."""


def search_casts(
    ground: Ground, sizes: Sequence[SizedPanel], deadline: Deadline, report: Report
) -> tuple[Instance, Answer, Certificate]:
    """Return the places searched, the schedule found on them, and the proof that holds for all."""
    if ground.is_stepped:
        instance = _instance([size.map for size in sizes], sizes, ground)
        answer = find_fewest(instance, deadline, report)
        return instance, answer, answer.certificate
    return _Bracket(ground, sizes, deadline, report).close()


def seat_at(size: SizedPanel, x: int, y: int, sides: Sides) -> Seat:
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
    """The search between narrow and wide layers."""

    def __init__(
        self, ground: Ground, sizes: Sequence[SizedPanel], deadline: Deadline, report: Report
    ) -> None:
        self.ground, self.sizes, self.deadline, self.report = ground, sizes, deadline, report
        self.places: list[set[Place]] = [{size.place} for size in sizes]
        self.real: tuple[Instance, FewestCasts] | None = None
        self.relaxed: FewestCasts | None = None
        self.certificate: Certificate | None = None

    def close(self) -> tuple[Instance, Answer, Certificate]:
        """Refine the layers until bound and schedule meet or time is up."""
        for step in LAYER_STEPS:
            narrow = self._maps(step, wide=False)
            self._add(find_candidates(narrow, self.ground.rules.dam_width, self.ground.frame))
            self._search()
            self._relax(step)
            if self.is_closed or self.deadline.passed:
                break
        assert self.real is not None
        assert self.relaxed is not None
        assert self.certificate is not None
        instance, found = self.real
        answer = find_layouts(found, self.deadline, self.report)
        fewest = refute_layouts(self.relaxed, found.casts, len(answer.layouts), self.deadline)
        return instance, replace(answer, layouts_bound=fewest), self.certificate

    @property
    def is_closed(self) -> bool:
        """Whether bound and schedule meet."""
        return (
            self.real is not None
            and self.certificate is not None
            and self.certificate.bound == self.real[1].casts
        )

    def _relax(self, step: int) -> None:
        """Search on wide layers: for the bound, and for layouts that can be made real."""
        maps = self._maps(step, wide=True)
        relaxed = _instance(maps, self.sizes, self.ground)
        found = self.relaxed = find_casts(relaxed, self.deadline, self.report)
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

    def _realise(self, relaxed: Instance, maps: list[LayeredMap], layout: PlaceSet) -> None:
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

    def _maps(self, step: int, *, wide: bool) -> list[LayeredMap]:
        return [layer_map(size.map, step, wide=wide) for size in self.sizes]

    def _add(self, found: Sequence[Sequence[Place]]) -> None:
        for known, new in zip(self.places, found, strict=True):
            known.update(new)


def _instance(maps: Sequence[PlaceMap], sizes: Sequence[SizedPanel], ground: Ground) -> Instance:
    return _with_places(sizes, find_candidates(maps, ground.rules.dam_width, ground.frame), ground)


def _with_places(
    sizes: Sequence[SizedPanel], places: Sequence[Sequence[Place] | set[Place]], ground: Ground
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
