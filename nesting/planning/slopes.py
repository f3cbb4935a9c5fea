"""From position maps to the search and back: exact on axis-parallel ground, bracketed on slopes.

Where obstacles have slanted edges the places that suffice are not finitely many. There the search
runs twice: on narrow layers, where every place is real, and on wide layers, where no real place is
missing, so that their bound holds. Layouts found on the wide layers are then moved off the slopes
they cut, by a linear program on the exact obstacles; where that succeeds they are real, and their
places join the real ones. Finer and finer layers, until bound and schedule meet or time is up.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from nesting.maps.candidates import Place, find_candidates
from nesting.maps.ground import Ground
from nesting.maps.held import find_held
from nesting.maps.layers import LayeredMap, layer_map
from nesting.maps.sizes import SizedPanel
from nesting.planning.settle import Seat, realise
from nesting.planning.strips import StripRule, keeps_gaps, restrict
from nesting.search.fewest import FewestCasts, find_casts, find_layouts, refute_layouts
from nesting.search.instance import ANY_GAP, Answer, Certificate, Gaps, Instance, Item, PlaceSet
from nesting.search.solver import Deadline, Report
from nesting.units import STEPS_PER_MM
from nesting.values.casts import Placement, Sides

LAYER_STEPS = tuple(STEPS_PER_MM * quarters // 4 for quarters in (32, 8, 2, 1))
"""Heights of the layers tried in turn: 8, 2, 1/2 and 1/4 mm."""


@dataclass(frozen=True, slots=True)
class Found:
    """The places searched, the schedule found on them, and the proof that holds for all places.

    ``saving`` is by how many casts fewer are known to do if gaps between panels are free, and the
    most by which fewer can do.
    """

    instance: Instance
    answer: Answer
    certificate: Certificate
    saving: tuple[int, int] = (0, 0)


def search_casts(
    ground: Ground, sizes: Sequence[SizedPanel], rule: StripRule, deadline: Deadline, report: Report
) -> Found:
    """Return the fewest casts in which panels lie apart as the rule has it."""
    if not ground.is_stepped:
        return _Bracket(ground, sizes, rule, deadline, report).close()
    maps = [size.map for size in sizes]
    places = find_candidates(maps, ground.rules.dam_width, ground.frame)
    instance = _with_places(sizes, places, ground)
    search = find_casts(instance, deadline, report)
    answer = find_layouts(search, deadline, report)
    if keeps_gaps(instance, (layout for _, layout in answer.layouts), rule):
        return Found(instance, answer, answer.certificate)
    free = search
    instance, search, certificate = restrict(instance, free, maps, rule, deadline, report)
    answer = find_layouts(search, deadline, report)
    if search.casts == free.casts:
        fewest = refute_layouts(free, free.casts, len(answer.layouts), deadline)
        answer = replace(answer, layouts_bound=max(fewest, answer.layouts_bound))
    saving = max(0, search.casts - free.casts), search.casts - free.certificate.bound
    return Found(instance, answer, certificate, saving)


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
        self,
        ground: Ground,
        sizes: Sequence[SizedPanel],
        rule: StripRule,
        deadline: Deadline,
        report: Report,
    ) -> None:
        self.ground, self.sizes, self.rule, self.gaps = ground, sizes, rule, rule.gaps
        self.deadline, self.report = deadline, report
        self.places: list[set[Place]] = [{size.place} for size in sizes]
        self.real: tuple[Instance, FewestCasts] | None = None
        self.relaxed: FewestCasts | None = None
        self.certificate: Certificate | None = None

    def close(self) -> Found:
        """Refine the layers until bound and schedule meet or time is up."""
        for step in LAYER_STEPS:
            narrow = self._maps(step, wide=False)
            self._add(self._candidates(narrow))
            self._search()
            self._relax(step, narrow)
            if self.is_closed or self.deadline.passed:
                break
        assert self.real is not None
        assert self.relaxed is not None
        assert self.certificate is not None
        instance, found = self.real
        answer = find_layouts(found, self.deadline, self.report)
        fewest = refute_layouts(self.relaxed, found.casts, len(answer.layouts), self.deadline)
        answer = replace(answer, layouts_bound=fewest)
        most = found.casts - self.relaxed.certificate.bound if self.gaps.least else 0
        return Found(instance, answer, self.certificate, (0, most))

    @property
    def is_closed(self) -> bool:
        """Whether bound and schedule meet."""
        return (
            self.real is not None
            and self.certificate is not None
            and self.certificate.bound == self.real[1].casts
        )

    def _relax(self, step: int, narrow: list[LayeredMap]) -> None:
        """Search on wide layers: for the bound, and for layouts that can be made real."""
        maps = self._maps(step, wide=True)
        places = self._candidates(maps)
        relaxed = _with_places(self.sizes, places, self.ground)
        found = self.relaxed = find_casts(relaxed, self.deadline, self.report)
        self._claim(found.certificate)
        if self.is_closed:
            return
        if self.gaps.least:
            self._add(find_held(narrow, self.rule.held, self.deadline).places)
            held = find_held(maps, self.rule.held, self.deadline)
            both = [(*a, *b) for a, b in zip(places, held.places, strict=True)]
            relaxed = _with_places(self.sizes, map(set, both), self.ground, self.gaps)
            known = None if held.is_whole else found.certificate
            found = find_casts(relaxed, self.deadline, self.report, known)
            self._claim(found.certificate)
        for layout in found.layouts():
            self._realise(relaxed, maps, layout)
        self._search()

    def _claim(self, certificate: Certificate) -> None:
        if self.certificate is None or certificate.bound > self.certificate.bound:
            self.certificate = certificate

    def _candidates(self, maps: list[LayeredMap]) -> tuple[tuple[Place, ...], ...]:
        return find_candidates(maps, self.ground.rules.dam_width, self.ground.frame)

    def _search(self) -> None:
        """Search on all places known to be real."""
        instance = _with_places(self.sizes, self.places, self.ground, self.gaps)
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
        spots = realise(self.ground, seats, self.rule)
        for bay, spot in zip(layout, spots or (), strict=False):
            self.places[int(relaxed.owner[bay])].add((spot.x, spot.y))

    def _maps(self, step: int, *, wide: bool) -> list[LayeredMap]:
        return [layer_map(size.map, step, wide=wide) for size in self.sizes]

    def _add(self, found: Sequence[Sequence[Place]]) -> None:
        for known, new in zip(self.places, found, strict=True):
            known.update(new)


def _with_places(
    sizes: Sequence[SizedPanel],
    places: Iterable[Sequence[Place] | set[Place]],
    ground: Ground,
    gaps: Gaps = ANY_GAP,
) -> Instance:
    dam = ground.rules.dam_width
    items = (
        Item(size.map.width + dam, size.map.height + dam, size.panel.quantity, tuple(sorted(at)))
        for size, at in zip(sizes, places, strict=True)
    )
    return Instance(tuple(items), gaps)
