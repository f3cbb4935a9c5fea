"""Where each panel size comes to lie on a liner with strips of known widths, and with what room.

*Room* is how far a dam may be off, out of the panel or into it, before it leaves plain ground or
comes too near to an ornament: the lay tolerance asked for, and what there is beyond it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from nesting.maps.ground import Ground, survey
from nesting.maps.positions import Wish, map_positions
from nesting.maps.sizes import wish_of
from nesting.shapes.geometry import Box
from nesting.values.bed import AXES
from nesting.values.casts import Sides
from nesting.values.job import Job
from nesting.values.motif import Motif, Widths, liner_size, shifts
from nesting.zones.choices import Choice
from nesting.zones.field import Field
from nesting.zones.needs import Need


@dataclass(frozen=True, slots=True)
class Room:
    """By how much the dam on one side may be off [steps]: out of the panel, and into it.

    ``inward`` is None where nothing inside the panel stops it.
    """

    side: str
    face: int
    outward: int
    inward: int | None

    @property
    def least(self) -> int:
        """The lesser of both [steps]."""
        return self.outward if self.inward is None else min(self.outward, self.inward)


@dataclass(frozen=True, slots=True)
class RoomyPlace:
    """A panel size at its roomiest place, with the room of each of its dams."""

    mark: str
    box: Box
    sides: Sides
    rooms: tuple[Room, ...] = ()

    @property
    def least_room(self) -> int | None:
        """The least room of its dams [steps], None without dams."""
        return min((room.least for room in self.rooms), default=None)


def place_panels(
    motif: Motif, field: Field, widths: Widths, needs: Iterable[Need]
) -> tuple[RoomyPlace, ...] | None:
    """Return the roomiest place of each need's panel, None where one has none.

    ``widths`` in steps. Places lie on the set-out division where there is room for that.
    """
    found: list[RoomyPlace] = []
    for need in needs:
        places = list(_places(motif, field, widths, need))
        if not places:
            return None
        found.append(max(places, key=_roominess))
    return tuple(found)


def roomiest_ways(
    motif: Motif, widths: Widths, needs: Iterable[Need]
) -> list[tuple[Choice, Choice]]:
    """Return for each need the choices along x and y with the most room at those widths."""
    return [max(_fitting(motif, widths, need), key=lambda entry: entry[0])[1] for need in needs]


def refused_places(motif: Motif, job: Job, places: Iterable[RoomyPlace]) -> list[str]:
    """Return what the exact position maps object to, as sentences; nothing where all is well.

    Asked with the shop's rules, and again with dams that take the lay tolerance on either side.
    """
    miss = motif.lay_tolerance
    wide = replace(job.rules, dam_width=job.rules.dam_width + 2 * miss)
    grounds = [survey(job.liner, rules) for rules in dict.fromkeys((job.rules, wide))]
    found: list[str] = []
    for place in places:
        wish = wish_of(grounds[0], job.panel(place.mark))
        left, right, bottom, top = place.sides.widths(-miss)
        boxes = (place.box, place.box.grown(left, bottom, right, top))
        if not all(
            _holds(ground, box, place.sides, wish)
            for ground, box in zip(grounds, boxes, strict=False)
        ):
            found.append(f"panel {place.mark!r} has no place where the strips should give one")
    return found


def _holds(ground: Ground, box: Box, sides: Sides, wish: Wish) -> bool:
    sheets = map_positions(ground, box.width, box.height, wish).sheets
    return any(sheet.sides == sides and sheet.holds(box.x0, box.y0) for sheet in sheets)


def _places(motif: Motif, field: Field, widths: Widths, need: Need) -> Iterator[RoomyPlace]:
    for _, (across, up) in _fitting(motif, widths, need):
        width, height = need.sizes[0]
        corner = [
            _settle(motif, axis, _span(motif, widths, axis, choice))
            for axis, choice in enumerate((across, up))
        ]
        box = Box(corner[0], corner[1], corner[0] + width, corner[1] + height)
        place = RoomyPlace(need.marks[0], box, Sides(*across.sides, *up.sides))
        yield replace(place, rooms=tuple(_rooms(motif, field, widths, place)))


def _roominess(place: RoomyPlace) -> tuple[int, int]:
    """Return the least room, a place without dams first, and the total."""
    least = place.least_room
    total = sum(room.least for room in place.rooms)
    return (2**40, 0) if least is None else (least, total)


def _fitting(
    motif: Motif, widths: Widths, need: Need
) -> Iterator[tuple[tuple[int, int], tuple[Choice, Choice]]]:
    """Yield the matching choices the widths allow, each with its least room and sum of rooms."""
    spans: list[dict[int, int]] = []
    for axis in (0, 1):
        rooms: dict[int, int] = {}
        for number, way in enumerate(need.ways[axis]):
            _, low, high, _ = span = _span(motif, widths, axis, way.choices[0])
            if low <= high:
                rooms[number] = _slack(span)
        spans.append(rooms)
    for i, first in spans[0].items():
        for j, second in spans[1].items():
            if need.matches[i, j]:
                room = (min(first, second), first + second)
                yield room, (need.ways[0][i].choices[0], need.ways[1][j].choices[0])


def _span(motif: Motif, widths: Widths, axis: int, choice: Choice) -> tuple[int, int, int, int]:
    """Return the limits of the panel's lower side: by dams, by all, by all, by dams [steps]."""
    moved = shifts(motif, widths, AXES[axis])
    lower = [(moved[at.segment] + at.offset, at.by_dam) for at in choice.lower]
    upper = [(moved[at.segment] + at.offset, at.by_dam) for at in choice.upper]
    low, high = max(at for at, _ in lower), min(at for at, _ in upper)
    far = 2**40
    dam_low = max((at for at, by_dam in lower if by_dam), default=low - far)
    dam_high = min((at for at, by_dam in upper if by_dam), default=high + far)
    return dam_low, low, high, dam_high


def _slack(span: tuple[int, int, int, int]) -> int:
    dam_low, low, high, dam_high = span
    at = min(max((dam_low + dam_high) // 2, low), high)
    return min(at - dam_low, dam_high - at)


def _settle(motif: Motif, axis: int, span: tuple[int, int, int, int]) -> int:
    """Return the place midway between dams' limits, on the set-out division where that can be."""
    dam_low, low, high, dam_high = span
    middle = min(max((dam_low + dam_high) // 2, low), high)
    division = motif.job.rules.set_out
    near = (2 * middle + division) // (2 * division) * division
    options = [at for at in (near, near - division, near + division) if low <= at <= high]
    return min(options, key=lambda at: abs(at - middle), default=middle)


def _rooms(motif: Motif, field: Field, widths: Widths, place: RoomyPlace) -> Iterator[Room]:
    """Yield the room of each dam of a place, looking at every obstacle it may run into."""
    obstacles = list(_obstacles(motif, field, widths))
    dam = motif.job.rules.dam_width
    ends = [0, 0, *liner_size(motif, widths)]
    for number, (name, side) in enumerate(place.sides._asdict().items()):
        if side == "edge":
            continue
        axis, is_high = divmod(number, 2)
        index = axis + 2 * is_high
        face, sign = place.box[index], 1 if is_high else -1
        outward = sign * (ends[index] - face) - dam
        inward: int | None = None
        for box, outer, inner in obstacles:
            if _is_beside(box, place.box, 1 - axis, outer):
                continue
            near = sign * (box[axis if is_high else axis + 2] - face)
            if near >= 0:
                outward = min(outward, near - outer)
            elif place.box.contains(box):
                far = sign * (face - box[index]) - inner
                inward = far if inward is None else min(inward, far)
        yield Room(name, face, outward, inward)


def _obstacles(motif: Motif, field: Field, widths: Widths) -> Iterator[tuple[Box, int, int]]:
    """Yield every obstacle where it comes to lie, with its keep-off distances without tolerance."""
    moved = [shifts(motif, widths, axis) for axis in AXES]
    for spot in field.spots:
        x, y = (field.intervals[axis][spot[axis]] for axis in (0, 1))
        box = Box(x.low, y.low, x.high, y.high).moved(moved[0][x.segment], moved[1][y.segment])
        yield box, x.outer - motif.lay_tolerance, x.inner - motif.lay_tolerance


def _is_beside(box: Box, panel: Box, axis: int, outer: int) -> bool:
    """Whether an obstacle lies clear of the panel's dams along the other axis."""
    return box[axis + 2] + outer <= panel[axis] or box[axis] - outer >= panel[axis + 2]
