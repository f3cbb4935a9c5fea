"""What a bed's curve does to sizes: face, back and chord lengths to flat liner lengths, and back.

A bent liner keeps its length on its neutral surface only, at fraction k of its thickness t from
the underside. On a bed of radius R an angle spans, on a convex bed, R + k t of flat liner and
R + t of panel face; on a concave one, R - k t and R - t. The panel's own back lies on the far
side of the panel from the liner. The bend leaves the other axis as it is. A panel that shrinks is
cast larger by as much along both axes, before any bend is considered. Lengths are whole steps. Face
and back are exact up to one rounding at the end; a chord, and a back between plumb ends, goes
through floats, whose error stays below a thousandth of a step, before the same rounding.

Ends square to the face give face and back one angle, so lengths on them are as their radii. Plumb
ends are parallel, so face and back have one chord.
"""

import math
from dataclasses import dataclass
from fractions import Fraction

from nesting.shapes.arcs import arc_of_chord, chord_of_arc
from nesting.units import STEPS_PER_MM, nearest
from nesting.values.bed import AXES, Axis, Bed
from nesting.values.castsizes import NO_SHRINK, cast_length
from nesting.values.job import Job
from nesting.values.panels import MeasuredOn, Panel, Size

Range = tuple[int, int]
_OUTWARD = {"convex": 1, "concave": -1}


@dataclass(frozen=True, slots=True)
class Bend:
    """What a bed, the liner on it and a panel's shrinkage do to sizes.

    ``thickness`` [steps] is the liner's; ``shrink`` by what fraction of its length a panel shrinks
    once it is cast. What concerns one panel alone, its own thickness and what its size is measured
    on, comes with the panel.
    """

    bed: Bed
    thickness: int
    shrink: Fraction = NO_SHRINK

    @property
    def face_radius(self) -> int:
        """The radius [steps] of the panel's face.

        Raises ValueError on a flat bed, and where the liner leaves a concave bed no radius.
        """
        return self._positive(self.radius_at(self.thickness), "face")

    @property
    def neutral_radius(self) -> Fraction:
        """The radius [steps] of the liner's neutral surface, which keeps its flat length.

        Raises ValueError on a flat bed, and where ``neutral`` lies outside the liner.
        """
        bed = self.bed
        if not 0 <= bed.neutral <= 1:
            raise ValueError(
                f"bed {bed.name!r}: neutral must be from 0 to 1, got {float(bed.neutral)}"
            )
        return bed.radius + self._outward * bed.neutral * self.thickness

    @property
    def face_ratio(self) -> Fraction:
        """Face length over flat length along the curve, face area over flat area; 1 when flat.

        >>> drum = Bed("drum", "convex", radius=100)
        >>> Bend(drum, 20).face_ratio, Bend(Bed("table"), 20).face_ratio
        (Fraction(12, 11), Fraction(1, 1))
        """
        return Fraction(1) if self.bed.form == "flat" else self.face_radius / self.neutral_radius

    def radius_at(self, height: int) -> int:
        """Return the radius [steps] of the surface at a height [steps] above the bed's own.

        It may be 0 or less on a concave bed. Raises ValueError on a flat one.
        """
        return self.bed.radius + self._outward * height

    def back_radius(self, panel_thickness: int) -> int:
        """Return the radius [steps] of the panel's own back, beyond its face seen from the liner.

        Raises ValueError where no panel thickness is given or it leaves a concave bed no radius.
        """
        if panel_thickness <= 0:
            raise ValueError("a size measured on the back needs the panel's thickness, > 0 mm")
        return self._positive(self.face_radius + self._outward * panel_thickness, "back")

    def longest_arc(self, measured_on: MeasuredOn = "face", panel_thickness: int = 0) -> float:
        """Return the longest arc [steps] that face or back can have; of a chord, that of its face.

        That is the circle or, between plumb ends, what the chord spans that is twice the lesser of
        the radii of face and back; the back counts where a thickness is given.
        """
        face = self.face_radius
        radius = self.back_radius(panel_thickness) if measured_on == "back" else face
        if self.bed.ends == "square":
            return math.tau * radius
        back = self.back_radius(panel_thickness) if panel_thickness else face
        return arc_of_chord(2 * min(face, back), radius)

    def is_curved(self, axis: Axis) -> bool:
        """Whether lengths along an axis follow the curve."""
        return self.bed.form != "flat" and self.bed.curved_axis == axis

    def flat_length(
        self, length: int, axis: Axis, measured_on: MeasuredOn = "face", panel_thickness: int = 0
    ) -> int:
        """Return the flat liner length [steps] that yields a length ordered along an axis.

        Parameters
        ----------
        length
            As ordered [steps]: an arc on the face or on the back, or the chord of the face.
        axis
            A bend leaves lengths across its curve as they are.
        measured_on
            What ``length`` is.
        panel_thickness
            Of the panel [steps]; used for ``back`` only.

        Raises
        ------
        ValueError
            Where no panel can have that length: not above zero, an arc beyond `longest_arc`, a
            chord beyond the diameter, a radius used up by the thicknesses.

        Examples
        --------
        A convex bed of 3 m under 25 mm of plain rubber:

        >>> bend = Bend(Bed("drum", "convex", radius=3000 * 8000), 25 * 8000)
        >>> bend.flat_length(2420 * 8000, "x") / 8000, bend.flat_length(2420 * 8000, "y") / 8000
        (2410.0, 2420.0)
        """
        return nearest(self._exact_flat(length, axis, measured_on, panel_thickness))

    def ordered_length(
        self, flat: int, axis: Axis, measured_on: MeasuredOn = "face", panel_thickness: int = 0
    ) -> int:
        """Return a flat liner length [steps] as the order states it: `flat_length` backward.

        Of a face too wide for plumb ends this is the widest back.
        """
        length = Fraction(flat)
        if self.is_curved(axis):
            length *= self.face_ratio
            face = self.face_radius
            if measured_on == "chord":
                length = Fraction(chord_of_arc(float(length), face))
            elif measured_on == "back":
                back = self.back_radius(panel_thickness)
                length = self._between_ends(length, face, back)
        return nearest(length * (1 - self.shrink))

    def underside(self, flat: Size) -> Size:
        """Return how much of the bed [steps] a liner of that flat width and height takes.

        Along the curve, on the bed's own surface, then straight; along x and y of a flat bed.

        >>> Bend(Bed("drum", "convex", radius=90, curved_axis="y"), 20).underside((30, 100))
        (90, 30)
        """
        if self.bed.form == "flat":
            return flat
        along, straight = flat if self.is_curved("x") else flat[::-1]
        return math.ceil(along * self.bed.radius / self.neutral_radius), straight

    def diagonals(self, flat: Size) -> tuple[int, int]:
        """Return both diagonals [steps] of a face of that flat width and height [steps].

        Each is the straight distance between two corners of the finished face: on a curve the chord
        in space, sqrt(c^2 + s^2) of the chord c and the straight side s. Of a rectangle both are
        alike, curved or not.

        >>> bend = Bend(Bed("drum", "convex", radius=75), 25)
        >>> bend.diagonals((275, 150)), Bend(Bed("table"), 25).diagonals((30, 40))
        ((250, 250), (50, 50))
        """
        across, up = (
            self.ordered_length(length, axis, "chord")
            for length, axis in zip(flat, AXES, strict=True)
        )
        diagonal = round(math.hypot(across, up))
        return diagonal, diagonal

    def flat_size(self, panel: Panel) -> Size:
        """Return the flat width and height [steps] of a panel; raises as `flat_length`."""
        terms = panel.measured_on, panel.thickness
        across = self.flat_length(panel.width, "x", *terms)
        return across, self.flat_length(panel.height, "y", *terms)

    def flat_range(self, panel: Panel) -> tuple[Range, Range]:
        """Return the least and greatest flat width, then height [steps], the tolerance allows.

        Limits are rounded inward, so that no size in a range is beyond the tolerance; the nominal
        size is always in it.

        Raises
        ------
        ValueError
            As `flat_length`, and where the tolerance leaves the nominal size out.
        """

        def limits(length: int, axis: Axis, allowed: Range, nominal: int) -> Range:
            low, high = allowed
            if not low <= 0 <= high:
                raise ValueError(
                    f"panel {panel.mark!r}: the tolerance must run from <= 0 to >= 0 mm"
                )
            least, greatest = (
                self._exact_flat(length + change, axis, panel.measured_on, panel.thickness)
                for change in (low, high)
            )
            return min(math.ceil(least), nominal), max(math.floor(greatest), nominal)

        width, height = self.flat_size(panel)
        across, up = panel.limits
        return limits(panel.width, "x", across, width), limits(panel.height, "y", up, height)

    def ordered_side(self, panel: Panel, axis: Axis, flat: int) -> int:
        """Return the ordered width (along x) or height (along y) [steps] of a flat one [steps]."""
        return self.ordered_length(flat, axis, panel.measured_on, panel.thickness)

    def off_nominal(self, panel: Panel, flat: Size) -> Size:
        """Return by how much a flat size [steps] changes the ordered width and height [steps].

        A side at its nominal flat length is off by nothing, whatever rounding the way back would
        add.
        """
        nominal = self.flat_size(panel)
        across = self.ordered_side(panel, "x", flat[0]) - panel.width
        up = self.ordered_side(panel, "y", flat[1]) - panel.height
        return across if flat[0] != nominal[0] else 0, up if flat[1] != nominal[1] else 0

    def _exact_flat(
        self, length: int, axis: Axis, measured_on: MeasuredOn, panel_thickness: int
    ) -> Fraction:
        if length <= 0:
            raise ValueError(f"a length must be > 0 mm, got {length / STEPS_PER_MM:g} mm")
        arc = cast_length(length, self.shrink)
        if not self.is_curved(axis):
            return arc
        radius = self.face_radius
        if measured_on == "chord":
            arc = Fraction(arc_of_chord(_number(arc), radius))
        elif measured_on == "back":
            radius = self.back_radius(panel_thickness)
        if arc > self.longest_arc(measured_on, panel_thickness):
            plumb = self.bed.ends == "plumb"
            rule = "is too long for plumb ends" if plumb else "is longer than its circle"
            raise ValueError(f"an arc of radius {radius / STEPS_PER_MM:g} mm {rule}")
        if measured_on == "back":
            arc = self._between_ends(arc, radius, self.face_radius)
        return arc * self.neutral_radius / self.face_radius

    def _between_ends(self, arc: Fraction, radius: int, other: int) -> Fraction:
        """Return the arc on another radius [steps] between the ends of an arc on one."""
        if self.bed.ends == "square":
            return arc * other / radius
        chord = min(chord_of_arc(float(arc), radius), 2 * other)
        return Fraction(arc_of_chord(chord, other))

    @property
    def _outward(self) -> int:
        if self.bed.form == "flat":
            raise ValueError(f"bed {self.bed.name!r} is flat and has no radius")
        return _OUTWARD[self.bed.form]

    def _positive(self, radius: int, surface: str) -> int:
        if self.bed.radius <= 0 or radius <= 0:
            raise ValueError(
                f"bed {self.bed.name!r}: the radius of the panel's {surface} must be > 0 mm, "
                f"got {radius / STEPS_PER_MM:g} mm"
            )
        return radius


def bend_of(job: Job, bed: str) -> Bend:
    """Return what a bed of the job, named, does to its panels; KeyError where there is none."""
    return Bend(job.bed(bed), job.liner.thickness, job.as_cast.panel_shrink)


def _number(value: Fraction) -> float:
    """Return whole steps as they are, so that a square of theirs stays exact."""
    return int(value) if value.denominator == 1 else float(value)
