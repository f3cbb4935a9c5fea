"""The face of a panel seen from the front: what of the liner it shows, left and right changed.

A liner is seen from above, its relief up, and a panel lies on it face down: whoever stands before
the finished face sees it the other way round. Up on the face is up on the liner, and down where the
panel was cast turned half round.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from nesting.fronts.measures import Measures, measure_face
from nesting.shapes.geometry import Box, Point, Polygon, Ring, bounds
from nesting.values.bed import AXES
from nesting.values.bend import Bend, bend_of
from nesting.values.casts import Placement
from nesting.values.job import Job


@dataclass(frozen=True, slots=True)
class Shown:
    """An ornament on a face: its name, and its rings [steps]."""

    name: str
    rings: tuple[Ring, ...]

    @property
    def bounds(self) -> Box:
        """The smallest box around it."""
        return bounds(self.rings[0])


@dataclass(frozen=True, slots=True)
class Face:
    """A finished face, unrolled where it is curved, from its lower left corner as it hangs."""

    mark: str
    bed: str
    measures: Measures
    ornaments: tuple[Shown, ...]


def mirror(window: Box, point: Point, *, turned: bool = False) -> Point:
    """Return where a point [steps] of the liner is on the face cast in a window, seen from front.

    It is counted from the face's lower left corner. Mirrored a second time in a window of that
    size, a point is back where it was.

    >>> mirror(Box(100, 0, 400, 200), (110, 30)), mirror(Box(0, 0, 300, 200), (290, 30))
    ((290, 30), (10, 30))
    >>> mirror(Box(100, 0, 400, 200), (110, 30), turned=True)
    (10, 170)
    """
    x, y = point
    return (x - window.x0, window.y1 - y) if turned else (window.x1 - x, y - window.y0)


def show_face(job: Job, placed: Placement) -> Face:
    """Return the face of a placed panel with the ornaments it shows, in the liner's order."""
    panel = job.panel(placed.mark)
    bend = bend_of(job, panel.bed)
    finish = _finish(bend)
    ornaments = (each for each in job.liner.ornaments if each.name in placed.shows)

    def show(outline: Polygon) -> tuple[Ring, ...]:
        return tuple(
            tuple(finish(mirror(placed.box, point, turned=placed.turned)) for point in ring)
            for ring in outline.rings
        )

    return Face(
        panel.mark,
        panel.bed,
        measure_face(bend, panel, placed, job.thickness_of(panel)),
        tuple(Shown(each.name, show(each.outline)) for each in ornaments),
    )


def _finish(bend: Bend) -> Callable[[Point], Point]:
    """Return what takes a point [steps] of the flat liner to the face, bent and shrunk."""
    left = 1 - bend.shrink
    along, up = (bend.face_ratio * left if bend.is_curved(axis) else left for axis in AXES)

    def finish(point: Point) -> Point:
        return _scale(point[0], along), _scale(point[1], up)

    return finish


def _scale(length: int, ratio: Fraction) -> int:
    """Return the whole steps nearest to a ratio of a length, in whole numbers, which are quick."""
    above, below = ratio.as_integer_ratio()
    return (2 * length * above + below) // (2 * below)
