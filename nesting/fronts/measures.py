"""What a finished face measures: along it, straight from end to end, and from corner to corner."""

import math
from dataclasses import dataclass

from nesting.units import nearest
from nesting.values.bed import AXES, Axis, Form
from nesting.values.bend import Bend
from nesting.values.casts import Placement
from nesting.values.panels import MeasuredOn, Panel, Size

_FACE_ON: dict[Form, Form] = {"flat": "flat", "convex": "concave", "concave": "convex"}


@dataclass(frozen=True, slots=True)
class Measures:
    """The finished face of one panel [steps], once it has shrunk.

    ``size`` is width and height along the face, ``chords`` the same straight from end to end; they
    differ along ``curved_axis`` alone. ``backs`` are width and height along the back, as the ends
    of the panel make them. What a tolerance changed is counted in. ``form`` is the face's own, not
    the bed's; ``radius`` is 0 where it is flat.
    """

    size: Size
    chords: Size
    backs: Size
    diagonals: tuple[int, int]
    form: Form
    curved_axis: Axis
    radius: int

    @property
    def over_diagonal(self) -> int:
        """A diagonal [steps] as a tape lies over a convex face, where a straight one runs inside.

        The shortest way on a cylinder is straight once that is unrolled, so both are as long.
        """
        return round(math.hypot(*self.size))


def measure_face(bend: Bend, panel: Panel, placed: Placement, thickness: int) -> Measures:
    """Return what the face of a placed panel measures that is so thick [steps].

    A length the order gives is that length itself, never one reckoned there and back.
    """
    flat = placed.width, placed.height
    ordered = panel.width + placed.off_nominal[0], panel.height + placed.off_nominal[1]

    def sides(measured_on: MeasuredOn) -> Size:
        across, up = (
            given
            if panel.measured_on == measured_on or not bend.is_curved(axis)
            else bend.ordered_length(length, axis, measured_on, thickness)
            for given, length, axis in zip(ordered, flat, AXES, strict=True)
        )
        return across, up

    form = _FACE_ON[bend.bed.form]
    return Measures(
        sides("face"),
        sides("chord"),
        sides("back"),
        bend.diagonals(flat),
        form,
        bend.bed.curved_axis,
        0 if form == "flat" else nearest(bend.face_radius * (1 - bend.shrink)),
    )
