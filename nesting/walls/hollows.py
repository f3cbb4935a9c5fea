"""Which ground of a wall's panels is too thin for an insert: hollows, from job and schedule.

Every panel of a mark may hang at any place of that mark, so what one of them shows counts for all.
"""

from collections.abc import Iterable
from fractions import Fraction

from nesting.errors import InputError, InputErrors
from nesting.shapes.geometry import Ring
from nesting.values.casts import Placement, Schedule
from nesting.values.job import Job
from nesting.values.liner import Ornament
from nesting.walls.cladding import Stretch, Wall
from nesting.walls.clearing import Forbidden
from nesting.walls.ties import Forbiddens


def thin_ground(
    wall: Wall, stretches: Iterable[Stretch], job: Job, schedule: Schedule
) -> Forbiddens:
    """Return the hollows that leave less than the job's least thickness, by the mark of the panel.

    They lie on the face as seen from behind, which is how the panel lies on the liner. An ornament
    that is not stated to be boss or hollow counts as a hollow, the safe side.

    Raises
    ------
    InputErrors
        With one line for each mark of the wall that the job does not order.
    """
    ordered = {panel.mark for panel in job.panels}
    errors = [
        InputError(f"Panel {each.mark!r}", "the job must order every panel of the wall", "none")
        for each in stretches
        if each.mark not in ordered
    ]
    if errors:
        raise InputErrors(errors)
    least = wall.panel_thickness - job.materials.panel.least_thickness
    deep = {
        each.name: each
        for each in job.liner.ornaments
        if each.on_panel != "boss" and each.relief > least
    }
    found: dict[str, dict[Forbidden, None]] = {}
    sizes = {each.mark: (each.width, wall.row_height) for each in stretches}
    for placed in (panel for layout in schedule.layouts for panel in layout.panels):
        for name in placed.shows if placed.mark in sizes else ():
            if name in deep:
                hollow = _on_face(deep[name], placed, sizes[placed.mark])
                found.setdefault(placed.mark, {})[hollow] = None
    return {mark: tuple(hollows) for mark, hollows in found.items()}


def _on_face(ornament: Ornament, placed: Placement, size: tuple[int, int]) -> Forbidden:
    """Return an ornament where it lies on a panel's face of that size [steps], as placed."""
    across, up = Fraction(size[0], placed.width), Fraction(size[1], placed.height)

    def lay(ring: Ring) -> Ring:
        spots = ((x - placed.x, y - placed.y) for x, y in ring)
        if placed.turned:
            spots = ((placed.width - x, placed.height - y) for x, y in spots)
        return tuple((round(x * across), round(y * up)) for x, y in spots)

    return Forbidden(ornament.name, tuple(map(lay, ornament.outline.rings)))
