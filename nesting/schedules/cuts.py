"""What each dam is cut to: on a curved bed some follow the curve, bent or sawn, others lie across.

Dams are set once the liner lies on its bed. Across the curve a dam is a straight strip. Along it
its foot lies on the liner's face, so it is as long as the face makes its flat length, and its top
edge is that much longer or shorter as the radii differ.
"""

import math
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from nesting.schedules.parting import part_length
from nesting.shapes.arcs import chord_of_arc, middle_ordinate
from nesting.shapes.geometry import Box
from nesting.values.bed import AXES, Axis
from nesting.values.bend import Bend, bend_of
from nesting.values.casts import Dam, Layout, Placement
from nesting.values.job import Job

OTHER = "(other)"
"""Said of a strip of a width that is not listed."""
DamKind = Literal["straight", "bent", "cut"]


@dataclass(frozen=True, slots=True)
class Profile:
    """A dam along the curve seen from its side: a piece of a ring, its ends square to the face.

    ``foot_radius`` [steps] is that of its foot, on the face of the panel, ``top_radius`` that of
    its top edge; ``angle_rad`` is what both span.

    >>> ring = Profile(3000, 3100, Fraction(1, 2))
    >>> ring.foot, ring.top, ring.chord, ring.rise
    (1500, 1550, 1484, 93)
    """

    foot_radius: int
    top_radius: int
    angle_rad: Fraction

    @property
    def foot(self) -> int:
        """Length of the foot along its arc [steps]."""
        return round(self.foot_radius * self.angle_rad)

    @property
    def top(self) -> int:
        """Length of the top edge along its arc [steps]."""
        return round(self.top_radius * self.angle_rad)

    @property
    def chord(self) -> int:
        """Straight distance between the ends of the foot [steps]."""
        return self._chord(self.foot_radius)

    @property
    def top_chord(self) -> int:
        """Straight distance between the ends of the top edge [steps]."""
        return self._chord(self.top_radius)

    @property
    def rise(self) -> int:
        """How far the middle of the foot lies off its chord [steps]."""
        return round(middle_ordinate(float(self.foot_radius * self.angle_rad), self.foot_radius))

    @property
    def extent(self) -> tuple[int, int]:
        """Length and height [steps] of the least rectangle of sheet it is sawn from."""
        outer, inner = sorted((self.foot_radius, self.top_radius), reverse=True)
        half = float(self.angle_rad / 2)
        lowest = min(outer * math.cos(half), inner * math.cos(half))
        length = 2 * outer * math.sin(min(half, math.pi / 2))
        return math.ceil(length), math.ceil(outer - lowest)

    def longest_foot(self, sheet: int) -> int:
        """Return how long a foot may be [steps] to be sawn from a sheet of that length [steps]."""
        outer = max(self.foot_radius, self.top_radius)
        half = math.asin(sheet / (2 * outer)) if sheet < 2 * outer else math.pi
        return math.floor(2 * half * self.foot_radius)

    def _chord(self, radius: int) -> int:
        return round(chord_of_arc(float(radius * self.angle_rad), radius))


@dataclass(frozen=True, slots=True)
class DamCut:
    """One dam as it is cut.

    ``length`` [steps] is that of its foot, on the panel's face where the bed is curved; ``width``
    that of the strip, or the thickness of the sheet; ``profile`` of one along the curve.
    ``parted_at`` [steps] are the places along its foot, from its left or lower end, where one too
    long for its sheet is parted, None where there is no such place. ``leans`` [degrees] are the
    angles of its lower (or left) and its upper (or right) side off square, above 0 where the dam
    grows wider from its foot up: one for each panel on that side whose end is plumb.
    """

    name: str
    kind: DamKind
    length: int
    width: int
    height: int
    profile: Profile | None = None
    parted_at: tuple[int, ...] | None = ()
    leans: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())

    @property
    def top(self) -> int:
        """Length of its top edge [steps]."""
        return self.profile.top if self.profile else self.length

    @property
    def top_width(self) -> int | None:
        """Its width on top [steps]; None where panels on one side have it lean unlike.

        Not above 0 where its sides meet before they reach its height.
        """
        if any(len(set(side)) > 1 for side in self.leans):
            return None
        slopes = (math.tan(math.radians(side[0])) for side in self.leans if side)
        return self.width + round(self.height * sum(slopes))

    @property
    def pieces(self) -> tuple[int, ...]:
        """The length of each piece along its foot [steps]."""
        return tuple(b - a for a, b in pairwise((0, *(self.parted_at or ()), self.length)))

    @property
    def sheet(self) -> tuple[int, int]:
        """Length and height [steps] of the least rectangle its longest piece is sawn from."""
        if self.profile is None:
            return self.length, self.height
        return replace(
            self.profile, angle_rad=self.profile.angle_rad * max(self.pieces) / self.length
        ).extent


def dam_cuts(job: Job, layout: Layout) -> tuple[DamCut, ...]:
    """Return how every dam of a layout is cut, in the order of its dams."""
    bend = bend_of(job, layout.bed)
    return tuple(_cut(job, bend, dam, layout) for dam in layout.dams)


def runs_along(job: Job, dam: Dam) -> Axis:
    """Return the axis a strip's length lies along: the longer, but for a short end of a strip.

    That is one whose longer side alone is of a width the shop has.
    """
    lies = dam.width >= dam.height
    narrow, broad = sorted((dam.width, dam.height))
    return "x" if lies == (job.lists_width(narrow) or not job.lists_width(broad)) else "y"


def strip_of(job: Job, dam: Dam) -> tuple[int, int]:
    """Return length and width of the strip a dam is, on the flat liner [steps]."""
    return (dam.width, dam.height) if runs_along(job, dam) == "x" else (dam.height, dam.width)


def width_words(job: Job, width: int) -> str:
    """Return the width of a strip [steps], and whether it is none that the job lists."""
    other = "" if job.lists_width(width) else f" {OTHER}"
    return f"{job.tape.figure(width)}{other}"


def dam_height(job: Job, layout: Layout, dam: Dam) -> int:
    """Return how high a dam is [steps]: as the job says, else as thick as the panels beside it."""
    beside = {panel.mark for panel in layout.panels if _touches(panel.box, dam.box)}
    thicknesses = [job.thickness_of(panel) for panel in job.panels if panel.mark in beside]
    return job.dams.height or max(thicknesses, default=job.materials.panel.thickness)


def _cut(job: Job, bend: Bend, dam: Dam, layout: Layout) -> DamCut:
    (length, width), height = strip_of(job, dam), dam_height(job, layout, dam)
    if bend.bed.form == "flat":
        return DamCut(dam.name, "straight", length, width, height)
    if not bend.is_curved(runs_along(job, dam)):
        leans = _leans(bend, dam, layout) if bend.bed.ends == "plumb" else ((), ())
        return DamCut(dam.name, "straight", length, width, height, leans=leans)
    top = bend.radius_at(bend.thickness + height)
    profile = Profile(bend.face_radius, top, length / bend.neutral_radius)
    cut = DamCut(dam.name, job.dams.on_curve, profile.foot, width, height, profile)
    if cut.kind == "bent" or not job.dams.stock:
        return cut
    at = AXES.index(bend.bed.curved_axis)
    corners = [
        round((corner - dam.box[at]) * bend.face_ratio)
        for panel in layout.panels
        if _touches(panel.box, dam.box)
        for corner in (panel.box[at], panel.box[at + 2])
    ]
    most = profile.longest_foot(job.dams.stock[-1])
    parted = part_length(profile.foot, most, corners, job.rules.set_out)
    return DamCut(cut.name, cut.kind, cut.length, width, height, profile, parted)


def _leans(bend: Bend, dam: Dam, layout: Layout) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return by how much both sides of a dam across the curve lean, where ends are plumb.

    A plumb end is parallel to the middle of its panel, which half the panel and half the dam part
    from the middle of the dam.
    """
    at = AXES.index(bend.bed.curved_axis)
    outward = 1 if bend.bed.form == "convex" else -1

    def lean(panel: Placement) -> float:
        apart = Fraction(panel.box[at + 2] - panel.box[at] + dam.box[at + 2] - dam.box[at], 2)
        return outward * math.degrees(apart / bend.neutral_radius)

    beside = sorted(
        (panel for panel in layout.panels if _shares_side(panel.box, dam.box, 1 - at)),
        key=lambda panel: panel.box[1 - at],
    )
    low = [panel for panel in beside if panel.box[at + 2] == dam.box[at]]
    high = [panel for panel in beside if panel.box[at] == dam.box[at + 2]]
    return tuple(map(lean, low)), tuple(map(lean, high))


def _touches(one: Box, other: Box) -> bool:
    return one.x0 <= other.x1 and other.x0 <= one.x1 and one.y0 <= other.y1 and other.y0 <= one.y1


def _shares_side(one: Box, other: Box, axis: int) -> bool:
    """Whether boxes overlap in their extents along an axis."""
    return one[axis] < other[axis + 2] and other[axis] < one[axis + 2]
