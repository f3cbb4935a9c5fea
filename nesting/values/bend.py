"""What a bed's curve does to sizes: face, back and chord lengths to flat liner lengths, and back.

A bent liner keeps its length on its neutral surface only, at fraction k of its thickness t from
the underside. On a bed of radius R an angle spans, on a convex bed, R + k t of flat liner and
R + t of panel face; on a concave one, R - k t and R - t. The panel's own back lies on the far
side of the panel from the liner. The bend leaves the other axis as it is. A panel that shrinks is
cast larger by as much along both axes, before any bend is considered. Lengths are whole steps. Face
and back are exact up to one rounding at the end; a chord goes through floats, whose error stays
below a thousandth of a step, before the same rounding.
"""

from __future__ import annotations

import math
from fractions import Fraction

from nesting.shapes.arcs import arc_of_chord, chord_of_arc
from nesting.units import STEPS_PER_MM, to_steps
from nesting.values.bed import Axis, Bed
from nesting.values.castsizes import NO_SHRINK, cast_length
from nesting.values.panels import MeasuredOn, Panel

Range = tuple[int, int]
_Terms = tuple[Bed, int, MeasuredOn, int, Fraction]
_OUTWARD = {"convex": 1, "concave": -1}


def face_radius(bed: Bed, thickness: int) -> int:
    """Return the radius [steps] of the panel's face on a liner of that thickness [steps].

    Raises ValueError on a flat bed, and where the liner leaves a concave bed no radius.
    """
    return _positive(bed.radius + _outward(bed) * thickness, bed, "face")


def neutral_radius(bed: Bed, thickness: int) -> Fraction:
    """Return the radius [steps] of the liner's neutral surface, which keeps its flat length."""
    if not 0 <= bed.neutral <= 1:
        raise ValueError(f"bed {bed.name!r}: neutral must be from 0 to 1, got {float(bed.neutral)}")
    return bed.radius + _outward(bed) * bed.neutral * thickness


def back_radius(bed: Bed, thickness: int, panel_thickness: int) -> int:
    """Return the radius [steps] of the panel's own back, beyond its face as seen from the liner.

    Raises ValueError where no panel thickness is given or it leaves a concave bed no radius.
    """
    if panel_thickness <= 0:
        raise ValueError("a size measured on the back needs the panel's thickness, > 0 mm")
    radius = face_radius(bed, thickness) + _outward(bed) * panel_thickness
    return _positive(radius, bed, "back")


def flat_length(
    length: int,
    bed: Bed,
    thickness: int,
    measured_on: MeasuredOn = "face",
    panel_thickness: int = 0,
    shrink: Fraction = NO_SHRINK,
) -> int:
    """Return the flat liner length [steps] that yields a length ordered along the curved axis.

    Parameters
    ----------
    length
        As ordered [steps]: an arc on the face or on the back, or the chord of the face.
    bed
        A flat bed leaves every length as it is.
    thickness, panel_thickness
        Of the liner and of the panel [steps]; the latter is used for ``back`` only.
    measured_on
        What ``length`` is.
    shrink
        By what fraction of its length the panel shrinks once it is cast.

    Raises
    ------
    ValueError
        Where no panel can have that length: not above zero, an arc beyond the full circle, a chord
        beyond the diameter, a radius used up by the thicknesses.

    Examples
    --------
    A convex bed of 3 m under 25 mm of plain rubber:

    >>> bed = Bed("drum", "convex", radius=3000 * 8000)
    >>> flat_length(2420 * 8000, bed, 25 * 8000) / 8000
    2410.0
    >>> flat_length(2420 * 8000, Bed("table"), 25 * 8000) / 8000
    2420.0
    """
    return _rounded(_exact_flat(length, bed, thickness, measured_on, panel_thickness, shrink))


def face_length(flat: int, bed: Bed, thickness: int) -> int:
    """Return the arc [steps] on the panel's face that a flat liner length [steps] yields."""
    return ordered_length(flat, bed, thickness)


def chord_length(flat: int, bed: Bed, thickness: int) -> int:
    """Return the chord [steps] of the panel's face that a flat liner length [steps] yields."""
    return ordered_length(flat, bed, thickness, "chord")


def ordered_length(
    flat: int,
    bed: Bed,
    thickness: int,
    measured_on: MeasuredOn = "face",
    panel_thickness: int = 0,
    shrink: Fraction = NO_SHRINK,
) -> int:
    """Return a flat liner length [steps] as the order states it: the inverse of `flat_length`."""
    length = Fraction(flat)
    if bed.form != "flat":
        radius = face_radius(bed, thickness)
        if measured_on == "back":
            radius = back_radius(bed, thickness, panel_thickness)
        length *= radius / neutral_radius(bed, thickness)
        if measured_on == "chord":
            length = Fraction(chord_of_arc(float(length), radius))
    return _rounded(length * (1 - shrink))


def flat_size(
    panel: Panel, bed: Bed, liner_thickness: int, shrink: Fraction = NO_SHRINK
) -> tuple[int, int]:
    """Return the flat width and height [steps] of a panel on its bed; raises as `flat_length`."""
    return (
        flat_length(panel.width, *_terms(panel, bed, "x", liner_thickness, shrink)),
        flat_length(panel.height, *_terms(panel, bed, "y", liner_thickness, shrink)),
    )


def flat_range(
    panel: Panel, bed: Bed, liner_thickness: int, shrink: Fraction = NO_SHRINK
) -> tuple[Range, Range]:
    """Return the least and greatest flat width, then height [steps], the tolerance allows.

    Limits are rounded inward, so that no size in a range is beyond the tolerance; the nominal size
    is always in it.

    Raises
    ------
    ValueError
        As `flat_length`, and where the tolerance leaves the nominal size out.
    """

    def limits(length: int, axis: Axis, allowed: Range, nominal: int) -> Range:
        low, high = allowed
        if not low <= 0 <= high:
            raise ValueError(f"panel {panel.mark!r}: the tolerance must run from <= 0 to >= 0 mm")
        terms = _terms(panel, bed, axis, liner_thickness, shrink)
        least, greatest = (_exact_flat(length + change, *terms) for change in (low, high))
        return min(math.ceil(least), nominal), max(math.floor(greatest), nominal)

    width, height = flat_size(panel, bed, liner_thickness, shrink)
    across, up = panel.limits
    return limits(panel.width, "x", across, width), limits(panel.height, "y", up, height)


def ordered_side(
    panel: Panel,
    bed: Bed,
    liner_thickness: int,
    axis: Axis,
    flat: int,
    shrink: Fraction = NO_SHRINK,
) -> int:
    """Return the ordered width (along x) or height (along y) [steps] of a flat one [steps]."""
    return ordered_length(flat, *_terms(panel, bed, axis, liner_thickness, shrink))


def off_nominal(
    panel: Panel,
    bed: Bed,
    liner_thickness: int,
    width: int,
    height: int,
    shrink: Fraction = NO_SHRINK,
) -> tuple[int, int]:
    """Return by how much a flat size [steps] changes the ordered width and height [steps].

    A side at its nominal flat length is off by nothing, whatever rounding the way back would add.
    """
    nominal_width, nominal_height = flat_size(panel, bed, liner_thickness, shrink)
    across = ordered_side(panel, bed, liner_thickness, "x", width, shrink)
    up = ordered_side(panel, bed, liner_thickness, "y", height, shrink)
    return (
        across - panel.width if width != nominal_width else 0,
        up - panel.height if height != nominal_height else 0,
    )


def _terms(panel: Panel, bed: Bed, axis: Axis, liner_thickness: int, shrink: Fraction) -> _Terms:
    """Return what a side's flat length depends on; the bed is flat across its curve."""
    along = bed if bed.form == "flat" or bed.curved_axis == axis else Bed(bed.name)
    return along, liner_thickness, panel.measured_on, panel.thickness, shrink


def _exact_flat(
    length: int,
    bed: Bed,
    thickness: int,
    measured_on: MeasuredOn,
    panel_thickness: int,
    shrink: Fraction,
) -> Fraction:
    if length <= 0:
        raise ValueError(f"a length must be > 0 mm, got {length / STEPS_PER_MM:g} mm")
    arc = cast_length(length, shrink)
    if bed.form == "flat":
        return arc
    radius = face_radius(bed, thickness)
    if measured_on == "chord":
        arc = Fraction(arc_of_chord(_number(arc), radius))
    elif measured_on == "back":
        radius = back_radius(bed, thickness, panel_thickness)
    if arc > math.tau * radius:
        raise ValueError(f"an arc of radius {radius / STEPS_PER_MM:g} mm is longer than its circle")
    return arc * neutral_radius(bed, thickness) / radius


def _outward(bed: Bed) -> int:
    if bed.form == "flat":
        raise ValueError(f"bed {bed.name!r} is flat and has no radius")
    return _OUTWARD[bed.form]


def _positive(radius: int, bed: Bed, surface: str) -> int:
    if bed.radius <= 0 or radius <= 0:
        raise ValueError(
            f"bed {bed.name!r}: the radius of the panel's {surface} must be > 0 mm, "
            f"got {radius / STEPS_PER_MM:g} mm"
        )
    return radius


def _number(value: Fraction) -> float:
    """Return whole steps as they are, so that a square of theirs stays exact."""
    return int(value) if value.denominator == 1 else float(value)


def _rounded(steps: Fraction) -> int:
    return to_steps(steps / STEPS_PER_MM)
