"""Where the inserts stand that tie two skins through the cavity: both ends of a tie on one ray.

Inner places are whole divisions of a tape; the outer place of a tie lies where its ray meets the
outer back, to the step. Masses and places only: no strength is reckoned.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from nesting.errors import InputError, InputErrors
from nesting.shapes.geometry import Point
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.walls.backs import Back, list_backs
from nesting.walls.cladding import Stretch, Wall
from nesting.walls.clearing import Forbidden
from nesting.walls.tierule import TieRule

Forbiddens = Mapping[str, Sequence[Forbidden]]
"""Ground by the mark of the panel, on its face as seen from behind: x from the left, y up."""

MOST_TIES = 20_000
"""Most ties in one row of panels all along a wall."""
_SLACK = 2
"""Steps of the edge distance that rounding of the panels' ends may take."""


@dataclass(frozen=True, slots=True)
class Tie:
    """One tie: the middles of its two inserts, each along the back and up [steps].

    Along is measured from the left edge seen from behind, up from the foot. ``number`` counts the
    ties of a pair of panels row by row from below; ``shift`` is by how much the inner place was
    moved along to keep clear of a hollow.
    """

    number: int
    row: int
    inner: Point
    outer: Point
    shift: int = 0


@dataclass(frozen=True, slots=True)
class TiedPair:
    """An inner and an outer panel of one part that bear the same number, with their ties."""

    inner: Back
    outer: Back
    ties: tuple[Tie, ...]


@dataclass(frozen=True, slots=True)
class TiedWall:
    """Every pair of panels with its ties, along the walk.

    ``ground`` is what they keep clear of, None where no job told of hollows.
    """

    pairs: tuple[TiedPair, ...]
    ground: Forbiddens | None = None


@dataclass(frozen=True, slots=True)
class _Bay:
    """What a tie of a pair must keep to: the rays between the edges, the ground, the division."""

    inner: Back
    outer: Back
    rule: TieRule
    ground: tuple[tuple[Forbidden, ...], tuple[Forbidden, ...]]
    division: int

    def ends(self, place: int, up: int) -> tuple[Point, Point]:
        """Return both ends of the tie at a place of the inner back, in divisions."""
        along = place * self.division
        return (along, up), (round(self.outer.along(self.inner.ray(along))), up)

    def blocked(self, place: int, up: int) -> tuple[int, str, str]:
        """Return how many divisions a tie must move at least, and which panel's ground asks it.

        (0, '', '') where it keeps clear.
        """
        most = 0, "", ""
        distance = self.rule.hollow_distance
        backs = zip((self.inner, self.outer), self.ground, self.ends(place, up), strict=True)
        for back, ground, spot in backs:
            scale = self.division * Fraction(back.radius, self.inner.radius)
            for each in ground:
                short = each.shortfall(spot, distance)
                if short:
                    most = max(most, (ceil(short / scale), back.stretch.mark, each.name))
        return most


def tie_skins(
    wall: Wall, stretches: Sequence[Stretch], ground: Forbiddens | None = None
) -> TiedWall:
    """Return every pair of panels with its ties; none of a corner return.

    Parameters
    ----------
    wall, stretches
        A wall with ``ties`` and its panels.
    ground
        Where no insert may stand, for every panel of a mark; None where that is not known.

    Raises
    ------
    InputErrors
        With one line for each panel that has no room for its ties, or no place clear of a hollow.
    """
    found: list[TiedPair] = []
    errors: dict[str, InputError] = {}
    count = 0
    for part in range(len(wall.parts)):
        inner, outer = (list_backs(wall, stretches, part, skin) for skin in ("inner", "outer"))
        for pair in zip(inner, outer, strict=True):
            try:
                found.append(_tie_pair(wall, *pair, ground or {}))
                count += len(found[-1].ties)
            except InputError as error:
                errors.setdefault(str(error), error)
            if count > MOST_TIES:
                rule = f"a row of panels takes at most {MOST_TIES} ties"
                raise InputError("[ties]", rule, remedy="give a larger spacing or fewer rows")
    if errors:
        raise InputErrors(errors.values())
    return TiedWall(tuple(found), ground)


def need_ties(wall: Wall, where: str) -> None:
    """Refuse a wall without a rule for ties; InputError with ``where``."""
    if wall.ties is None:
        rule = "the wall must say how its skins are tied"
        raise InputError(where, rule, remedy="give it a table [ties]")


def tape_division(wall: Wall) -> int:
    """Return the division inner places are whole numbers of [steps]: 1 mm or 1/16 in."""
    return STEPS_PER_MM if wall.units == "mm" else STEPS_PER_INCH // 16


def _tie_pair(wall: Wall, inner: Back, outer: Back, ground: Forbiddens) -> TiedPair:
    rule = wall.ties
    assert rule is not None  # whoever asks for ties has a rule
    marks = inner.stretch.mark, outer.stretch.mark
    behind = tuple(
        tuple(
            Forbidden(each.name, tuple(map(back.behind, each.rings)))
            for each in ground.get(mark, ())
        )
        for back, mark in zip((inner, outer), marks, strict=True)
    )
    bay = _Bay(inner, outer, rule, (behind[0], behind[1]), tape_division(wall))
    columns, ups = _spread_along(wall, bay), _spread_up(wall, inner, rule)
    ties: list[Tie] = []
    for row, up in enumerate(ups, start=1):
        for place, low, high in columns:
            clear = _find_clear(wall, bay, place, up, low, high)
            shift = (clear - place) * bay.division
            ties.append(Tie(len(ties) + 1, row, *bay.ends(clear, up), shift))
    return TiedPair(inner, outer, tuple(ties))


def _spread_along(wall: Wall, bay: _Bay) -> list[tuple[int, int, int]]:
    """Return the places along the inner back, each with how far it may be moved, in divisions.

    They are spread evenly between the edge distances of both panels, as few as the spacing allows
    on the longer of the two backs. None may be moved by half a gap or more.
    """
    distance, division = bay.rule.edge_distance, bay.division
    clear = [back.clear_ends(distance) for back in (bay.inner, bay.outer)]
    low, high = (
        bay.inner.along(ray)
        for ray in (max(each[0] for each in clear), min(each[1] for each in clear))
    )
    first, last = ceil((low - _SLACK) / division), floor((high + _SLACK) / division)
    if first > last:
        mark = bay.outer.stretch.mark
        rule = f"must face panel {mark!r} along more than 2 x edge_distance {wall.text(distance)}"
        got = wall.text(max(0, floor(high - low) + 2 * distance))
        raise InputError(_where(bay.inner), rule, got, "give a smaller edge_distance")
    shorter = min(Fraction(1), Fraction(bay.inner.radius, bay.outer.radius))
    most = max(1, floor(bay.rule.spacing * shorter / division))
    gaps = ceil((last - first) / most)
    places = [first + step * (last - first) // max(1, gaps) for step in range(gaps + 1)]
    reach = ((last - first) // gaps - 1) // 2 if gaps else last - first
    return [(each, max(first, each - reach), min(last, each + reach)) for each in places]


def _spread_up(wall: Wall, back: Back, rule: TieRule) -> list[int]:
    """Return the height of each row [steps], on the division, between the edge distances."""
    division, height = tape_division(wall), wall.row_height
    first = ceil(Fraction(rule.edge_distance, division))
    last = floor(Fraction(height - rule.edge_distance, division))
    if last - first < rule.rows - 1:
        words = f"height must hold {rule.rows} rows of ties between two edge distances"
        raise InputError(
            _where(back),
            words,
            wall.text(height),
            "give fewer rows or a smaller distance",
        )
    if rule.rows == 1:
        return [(first + last) // 2 * division]
    steps = range(rule.rows)
    return [(first + step * (last - first) // (rule.rows - 1)) * division for step in steps]


def _find_clear(wall: Wall, bay: _Bay, place: int, up: int, low: int, high: int) -> int:
    """Return the clear place nearest to one, within the limits, the one to the left of two.

    Raises
    ------
    InputError
        Where there is none, naming the panel and what it shows there.
    """
    short, mark, name = bay.blocked(place, up)
    if not short:
        return place
    found = [*_march(bay, place - short, up, -1, low), *_march(bay, place + short, up, 1, high)]
    if not found:
        distance = wall.text(bay.rule.hollow_distance)
        words = f"no tie keeps hollow_distance {distance} from hollow {name!r}"
        spot = bay.ends(place, up)[mark != bay.inner.stretch.mark]
        got = f"none within half a spacing of {wall.text(spot[0])} along and {wall.text(up)} up"
        remedy = "give another spacing or number of rows, or hide the ornament"
        raise InputError(f"Panel {mark!r}", words, got, remedy)
    return min(found, key=lambda each: (abs(each - place), each))


def _march(bay: _Bay, place: int, up: int, sign: int, limit: int) -> Iterator[int]:
    """Yield the first clear place from one on, up to the limit; nothing where there is none."""
    while (limit - place) * sign >= 0:
        short, _, _ = bay.blocked(place, up)
        if not short:
            yield place
            return
        place += sign * short


def _where(back: Back) -> str:
    return f"Panel {back.stretch.mark!r}, number {back.number} of its part"
