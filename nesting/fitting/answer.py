"""Whether a liner gives a size: where best, or why not, what is nearest and what would mend it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

from nesting.fitting.blockers import SIDE_WORDS, find_zone, list_blockers
from nesting.fitting.changes import Change, find_change
from nesting.fitting.nearest import Finder, Hunter, Nearest, find_nearest, make_finder
from nesting.maps.ground import Ground
from nesting.maps.positions import PositionMap, Sheet, Wish, find_place, map_positions
from nesting.maps.sizes import SizedPanel, choose_size, wish_of
from nesting.planning.bedplan import shows
from nesting.planning.dams import place_dams
from nesting.planning.settle import Seat, settle
from nesting.planning.strips import strip_rule
from nesting.shapes.convex import Run
from nesting.shapes.geometry import Box
from nesting.units import STEPS_PER_MM
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.casts import Dam, Placement, Sides
from nesting.values.panels import Panel

NO_LIMITS = (0, 0), (0, 0)


@dataclass(frozen=True, slots=True)
class Seated:
    """The best place of a size: as far from every ornament as it can lie.

    ``shift`` is how far the panel could move left, right, down and up from there [steps];
    ``clearance`` the least distance from a dam to ornament, None where there is no dam or ornament.
    """

    placement: Placement
    map: PositionMap
    dams: tuple[Dam, ...]
    shift: tuple[int, int, int, int]
    clearance: int | None
    idle_share: Fraction


@dataclass(frozen=True, slots=True)
class SideMove:
    """One side of a panel moved outward by ``amount`` [steps], inward where that is negative.

    ``zone`` is the blank zone its dam lies in before, empty where there is none.
    """

    side: str
    amount: int
    zone: str = ""


@dataclass(frozen=True, slots=True)
class Blocked:
    """One way to make the nearest size with a place into the one asked, and what forbids it."""

    moves: tuple[SideMove, ...]
    blockers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Fit:
    """The answer for one panel size on one bed; ``seated`` is None where it has no place.

    ``nearest``, ``blocked`` and ``change`` say what there is instead, and are empty where it has;
    ``mended`` tells whether a change was looked for.
    """

    panel: Panel
    bed: Bed
    flat: tuple[int, int]
    seated: Seated | None
    nearest: Nearest | None = None
    blocked: tuple[Blocked, ...] = ()
    change: Change | None = None
    mended: bool = False

    @property
    def off_nominal(self) -> tuple[int, int]:
        """By how much the size was changed within its tolerance [steps]."""
        return self.seated.placement.off_nominal if self.seated else (0, 0)


def fit_size(
    ground: Ground, panel: Panel, bend: Bend, *, finder: Finder | None = None, mend: bool = True
) -> Fit:
    """Return whether the panel has a place on the liner when it lies on that bed.

    ``finder``, where given, is one of the ground and saves time over many sizes.
    ``mend`` says whether the smallest change to the liner is looked for too, where it has none.

    Raises ValueError where no panel can have that size on that bed, see `Bend.flat_length`.
    """
    flat = bend.flat_size(panel)
    finder = finder or make_finder(ground)
    size = find_size(ground, panel, bend, finder)
    if size is not None:
        return Fit(panel, bend.bed, flat, seat_best(ground, size))
    wish = wish_of(ground, panel)
    nearest = find_nearest(ground, panel, bend, finder)
    blocked = tuple(_blocked(ground, panel, bend, flat, nearest, wish))
    change = find_change(ground, flat, wish) if mend else None
    return Fit(panel, bend.bed, flat, None, nearest, blocked, change, mend)


def find_size(ground: Ground, panel: Panel, bend: Bend, finder: Finder) -> SizedPanel | None:
    """Return the size to use, None where it has no place; ``finder`` is one of the ground."""
    if isinstance(finder, Hunter):
        return choose_size(ground, panel, bend, finder.hunts)
    known_not = panel.limits == NO_LIMITS and not finder.gives(
        bend.flat_size(panel), wish_of(ground, panel)
    )
    return None if known_not else choose_size(ground, panel, bend)


def seat_best(ground: Ground, size: SizedPanel) -> Seated:
    """Return the place with the largest least clearance, on the set-out division where it can be.

    The least clearance is found by halving: a place with more clearance is one with less, too.
    """
    x, y, sheet = _roomiest(ground, size)
    seat = Seat(_put(size, x, y, sheet), size.map, size.wish)
    (settled,) = settle(ground, [seat], strip_rule(ground.rules))
    return _seated(ground, size.map, settled)


def seat_first(ground: Ground, panel: Panel, bend: Bend) -> Seated | None:
    """Return some place of the nominal size, which is not the best, but is found soon.

    None where the size has no place.

    Raises ValueError where no panel can have that size on that bed, see `Bend.flat_length`.
    """
    flat = bend.flat_size(panel)
    wish = wish_of(ground, panel)
    found = map_positions(ground, *flat, wish)
    for sheet in found.sheets:
        if (place := sheet.first_place()) is not None:
            return _seated(
                ground, found, _put(SizedPanel(panel, found, wish, place), *place, sheet)
            )
    return None


def _put(size: SizedPanel, x: int, y: int, sheet: Sheet) -> Placement:
    extent = size.map.width, size.map.height
    return Placement(size.panel.mark, x, y, *extent, sheet.sides, off_nominal=size.off_nominal)


def _seated(ground: Ground, panel_map: PositionMap, spot: Placement) -> Seated:
    """Return all there is to say of a panel that lies there."""
    dams = place_dams(ground.liner, strip_rule(ground.rules), [spot])
    clearances = [dam.clearance for dam in dams if dam.clearance is not None]
    return Seated(
        replace(spot, shows=shows(ground, spot)),
        panel_map,
        dams,
        _shift(panel_map, spot),
        min(clearances, default=None),
        1 - Fraction(spot.width * spot.height, ground.liner.outline.area),
    )


def _roomiest(ground: Ground, size: SizedPanel) -> tuple[int, int, Sheet]:
    low, high = 0, max(ground.frame.width, ground.frame.height)
    found = _place_with(ground, size, low) or _known_place(size)
    while high - low > STEPS_PER_MM // 8:
        middle = (low + high) // 2
        better = _place_with(ground, size, middle)
        low, high = (middle, high) if better else (low, middle)
        found = better or found
    return found


def _place_with(ground: Ground, size: SizedPanel, clearance: int) -> tuple[int, int, Sheet] | None:
    """Return a place whose dams keep at least that far from all ornament, inside and outside."""
    rules = ground.rules
    wider = replace(
        rules,
        dam_clearance=max(rules.dam_clearance, clearance),
        edge_margin=max(rules.edge_margin, clearance),
    )
    maps = map_positions(replace(ground, rules=wider), size.map.width, size.map.height, size.wish)
    for sheet in sorted(maps.sheets, key=lambda sheet: sheet.sides.count("dam")):
        if (place := sheet.first_place()) is not None:
            return *place, sheet
    return None


def _known_place(size: SizedPanel) -> tuple[int, int, Sheet]:
    """Return the place by which the size counts as fitting."""
    sheet = size.map.sheet_at(*size.place)
    if sheet is None:
        raise RuntimeError(f"panel {size.panel.mark!r} has a place off its map")
    return *size.place, sheet


def _shift(panel_map: PositionMap, spot: Placement) -> tuple[int, int, int, int]:
    """Return how far a panel can move left, right, down and up with the same sides."""
    sheet = panel_map.sheet_at(spot.x, spot.y)
    if sheet is None:
        raise RuntimeError(f"panel {spot.mark!r} was settled off its map")
    low, high = _run_around(sheet.runs_at_y(spot.y), spot.x)
    bottom, top = _run_around(sheet.runs_at_x(spot.x), spot.y)
    return spot.x - low, high - spot.x, spot.y - bottom, top - spot.y


def _run_around(runs: list[Run], at: int) -> Run:
    return next(run for run in runs if run[0] <= at <= run[1])


def _blocked(
    ground: Ground, panel: Panel, bend: Bend, flat: tuple[int, int], nearest: Nearest, wish: Wish
) -> list[Blocked]:
    """Return what keeps the nearest sizes with a place from becoming the one asked.

    Of those with one side changed alone if they are as near as any, else of those with both.
    """
    alone = nearest.narrower, nearest.wider, nearest.lower, nearest.higher

    def changes(sizes: Sequence[tuple[int, int] | None]) -> dict[tuple[int, int], int]:
        asked = [replace(panel, width=size[0], height=size[1]) for size in sizes if size]
        flats = map(bend.flat_size, asked)
        return {size: max(abs(a - b) for a, b in zip(flat, size, strict=True)) for size in flats}

    near, both = changes(alone), changes((nearest.smaller, nearest.larger))
    least = min([*near.values(), *both.values()], default=0)
    if least not in near.values():
        near = both
    return [
        blocked
        for size, change in near.items()
        if change == least
        for blocked in _ways(ground, size, wish, (flat[0] - size[0], flat[1] - size[1]))
    ]


def _ways(
    ground: Ground, size: tuple[int, int], wish: Wish, by: tuple[int, int]
) -> Iterator[Blocked]:
    """Yield what forbids to make a panel wider and higher by so much, at either side of it."""
    place = find_place(ground, *size, wish)
    if place is None:
        return
    x, y, sides = place
    box = Box(x, y, x + size[0], y + size[1])
    across, up = (
        [index for index in (2 * axis, 2 * axis + 1) if by[axis] < 0 or sides[index] == "dam"]
        if by[axis]
        else [None]
        for axis in (0, 1)
    )
    for moved in product(across, up):
        indexes = [index for index in moved if index is not None]
        amounts = {index: by[index // 2] for index in indexes}
        growth = [amounts.get(index, 0) for index in (0, 2, 1, 3)]
        become = Sides(*("dam" if k in indexes else side for k, side in enumerate(sides)))
        blockers = tuple(list_blockers(ground, box.grown(*growth), become))
        moves = tuple(
            SideMove(SIDE_WORDS[index], amount, find_zone(ground, box, sides, index))
            for index, amount in amounts.items()
        )
        yield Blocked(moves, blockers)
