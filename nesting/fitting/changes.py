"""The smallest change to a liner that gives a size a place: a zone widened, an ornament cut back.

More blank ground and less ornament never take a place away, so whether a change of n helps is
monotone in n and the least n is found by halving. That no other single change needs less is shown
at one stroke: with all of them made at once, each by one step less, there is still no place.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from nesting.maps.ground import Ground, with_zones
from nesting.maps.positions import NO_WISH, Wish, has_place
from nesting.shapes.convex import pieces_of
from nesting.shapes.geometry import Box, Polygon, convex_hull, convex_parts, polygon_of, subtract
from nesting.units import STEPS_PER_MM
from nesting.values.liner import BlankZone

SideName = Literal["left", "right", "bottom", "top"]
SIDES: tuple[SideName, ...] = ("left", "right", "bottom", "top")
FURTHEST = 400 * STEPS_PER_MM
"""By how much a blank zone is widened at most [steps]."""
_MOST_ORNAMENTS = 60


@dataclass(frozen=True, slots=True)
class Change:
    """A blank zone widened, or an ornament cut back, on one side by ``amount`` [steps]."""

    kind: Literal["zone", "ornament"]
    index: int
    name: str
    side: SideName
    amount: int


def find_change(ground: Ground, size: tuple[int, int], wish: Wish = NO_WISH) -> Change | None:
    """Return the smallest single change that gives a flat size [steps] a place.

    Zones are tried first, ornaments only where no zone widened by at most 400 mm does; None where
    neither helps. ``ground`` is where the size has no place.
    """
    if size[0] <= ground.frame.width and size[1] <= ground.frame.height:
        for candidates in (_zone_changes(ground), _ornament_changes(ground, size, wish)):
            found = _least(ground, list(candidates), size, wish)
            if found is not None:
                return found
    return None


def change_ground(ground: Ground, changes: Sequence[Change]) -> Ground:
    """Return the ground of the liner so changed."""
    liner = ground.liner
    zones = [
        BlankZone(change.name, part)
        for change in changes
        if change.kind == "zone"
        for part in _widened(liner.zones[change.index].outline, change.side, change.amount)
    ]
    changed = with_zones(ground, [*liner.zones, *zones]) if zones else ground
    ornaments = list(changed.ornaments)
    for index in {change.index for change in changes if change.kind == "ornament"}:
        outline = liner.ornaments[index].outline
        cuts = [
            polygon_of(outline.bounds.strip(change.side, change.amount))
            for change in changes
            if (change.kind, change.index) == ("ornament", index) and change.amount
        ]
        ornaments[index] = pieces_of(subtract([outline], cuts))
    return replace(changed, ornaments=tuple(ornaments))


def _least(
    ground: Ground, candidates: Sequence[Change], size: tuple[int, int], wish: Wish
) -> Change | None:
    def all_help(amount: int = FURTHEST) -> bool:
        less = [replace(each, amount=min(amount, each.amount)) for each in candidates]
        return has_place(change_ground(ground, less), *size, wish)

    if not candidates or not all_help():
        return None
    best: Change | None = None
    for candidate in candidates:
        limit = candidate.amount if best is None else min(candidate.amount, best.amount - 1)
        tried = replace(candidate, amount=limit)
        if limit > 0 and _helps(ground, tried, size, wish):
            best = _halve(ground, tried, size, wish)
            if not all_help(best.amount - 1):
                return best
    return best


def _helps(ground: Ground, change: Change, size: tuple[int, int], wish: Wish) -> bool:
    """Whether a change gives a size a place that has none: then it lies beside what is changed."""
    changed = change_ground(ground, [change])
    return has_place(changed, *size, wish, _changed_box(ground, change))


def _changed_box(ground: Ground, change: Change) -> Box:
    """Return a box that holds all a change adds to a zone or takes from an ornament."""
    if change.kind == "zone":
        return ground.liner.zones[change.index].outline.bounds.grown(*4 * (change.amount,))
    return ground.liner.ornaments[change.index].outline.bounds


def _halve(ground: Ground, change: Change, size: tuple[int, int], wish: Wish) -> Change:
    """Return the change with the least amount that helps; it helps as given."""
    low, high = 0, change.amount
    while high - low > 1:
        middle = (low + high) // 2
        helps = _helps(ground, replace(change, amount=middle), size, wish)
        low, high = (low, middle) if helps else (middle, high)
    return replace(change, amount=high)


def _zone_changes(ground: Ground) -> Iterator[Change]:
    if ground.liner.unmarked == "detail":
        for index, zone in enumerate(ground.liner.zones):
            for side in SIDES:
                yield Change("zone", index, zone.name, side, FURTHEST)


def _ornament_changes(ground: Ground, size: tuple[int, int], wish: Wish) -> Iterator[Change]:
    """Yield changes to ornaments that are in the way at all; no ornament is cut away whole."""

    def without(gone: Collection[int]) -> Ground:
        kept = (
            pieces_of(()) if index in gone else pieces
            for index, pieces in enumerate(ground.ornaments)
        )
        return replace(ground, ornaments=tuple(kept))

    if not has_place(without(set(range(len(ground.ornaments))) - wish.show), *size, wish):
        return
    for index, ornament in enumerate(ground.liner.ornaments[:_MOST_ORNAMENTS]):
        bare, box = without({index}), ornament.outline.bounds
        if index in wish.show or not has_place(bare, *size, wish, box):
            continue
        for side in SIDES:
            extent = box.width if side in ("left", "right") else box.height
            yield Change("ornament", index, ornament.name, side, min(FURTHEST, extent - 1))


def _widened(outline: Polygon, side: SideName, amount: int) -> list[Polygon]:
    """Return the ground an outline covers while it is moved to one side by ``amount``."""
    dx = {"left": -amount, "right": amount}.get(side, 0)
    dy = {"bottom": -amount, "top": amount}.get(side, 0)
    return [
        Polygon(convex_hull([*ring, *((x + dx, y + dy) for x, y in ring)]))
        for ring in convex_parts(outline)
        if amount
    ]
