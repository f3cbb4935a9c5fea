"""A wall in plan and the panels that clad or form it: straight runs, arcs, corners, two skins.

A wall is walked along its parts; its inner side lies to the left. A skin's *offset* is the distance
from the wall's axis to that skin's face, positive to the outer side. An arc or corner turns toward
the inner or the outer side, and every face follows it: of one arc, two faces a distance d apart
differ in length by angle x d.
"""

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from nesting.errors import InputError
from nesting.files.lengths import LengthReaders
from nesting.units import STEPS_PER_INCH, decimal_text, to_mm
from nesting.values.bed import Bed, Form
from nesting.values.panels import Panel
from nesting.walls.tierule import TieRule
from nesting.walls.widths import EXACT, End, Room, WidthRule, count_fewest, share_out

Skin = Literal["inner", "outer"]
Face = Literal["inner", "outer", "axis"]

MAX_PANELS = 1000
"""Most panels side by side in one part of a wall."""
MAX_WIDTH = 33_000 * 8000
"""Longest panel [steps], as a job takes it."""
LEAST_JOINT = 3 * STEPS_PER_INCH // 8
NOMINAL_JOINT = 3 * STEPS_PER_INCH // 4
JOINT_SOURCE = "PCI frequently asked questions"
"""Joint 3/4 in nominal, 3/8 in least for sealant."""
CLOSING_GAP = 1.0
"""Farthest [mm] a closed wall's end may lie from its start."""


@dataclass(frozen=True, slots=True)
class WallRun:
    """A straight part: ``length`` [steps] on face ``to``; ``panels``, or ``widest`` [steps]."""

    name: str
    length: int
    to: Face
    panels: int = 0
    widest: int = 0


@dataclass(frozen=True, slots=True)
class WallArc:
    """A curved part: ``radius`` [steps] of face ``to``, ``angle`` [rad], and where it turns."""

    name: str
    radius: int
    angle: float
    to: Face
    toward: Skin = "inner"
    panels: int = 0
    widest: int = 0


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of two runs: ``angle`` [rad], and the leg [steps] of a corner return, 0 for none."""

    name: str
    angle: float
    toward: Skin = "inner"
    leg: int = 0


WallPart = WallRun | WallArc | Corner


@dataclass(frozen=True, slots=True)
class Wall:
    """What is to be clad or formed [steps].

    ``cavity`` lies between the backs of two skins and is 0 for one. ``rows`` of panels with joints
    between them make up ``height``. ``liner_thickness`` and ``neutral`` are those of the liner.
    ``widths`` says how panel widths are rounded, ``ties`` how two skins are tied, if they are.
    """

    title: str
    units: Literal["mm", "in"]
    parts: tuple[WallPart, ...]
    skins: tuple[Skin, ...]
    cavity: int
    panel_thickness: int
    height: int
    joint: int
    liner_thickness: int
    neutral: Fraction = Fraction(1, 2)
    rows: int = 1
    closed: bool = False
    widths: WidthRule = EXACT
    ties: TieRule | None = None

    @property
    def distance(self) -> int:
        """From face to face of two skins [steps]; 0 for one."""
        return self.cavity + 2 * self.panel_thickness if len(self.skins) == 2 else 0

    @property
    def row_height(self) -> int:
        """Height of one panel [steps], the joints between rows taken off."""
        return (self.height - (self.rows - 1) * self.joint) // self.rows

    def text(self, steps: int) -> str:
        """Return a length as messages give it, in the wall's units."""
        return LengthReaders(self.units).text(steps)

    def offset(self, face: Face) -> Fraction:
        """Return how far a face lies from the axis [steps], positive to the outer side."""
        return {"inner": -1, "axis": 0, "outer": 1}[face] * Fraction(self.distance, 2)


@dataclass(frozen=True, slots=True)
class Stretch:
    """Panels of one width in one skin of one part: what they measure, where they stand on the face.

    ``length`` of the face, ``radius`` of the face (0 where flat), the spans [start, end] of the
    panels of one row along it and the ``joint`` beside them, to the step [steps]; ``mark`` and
    ``bed`` are the order's. A closing panel of another width is a stretch of its own.
    """

    part: int
    skin: Skin
    mark: str
    shape: Form
    bed: Bed
    length: int
    radius: int
    spans: tuple[tuple[int, int], ...]
    joint: int

    @property
    def width(self) -> int:
        """Width of each panel on the face [steps]."""
        start, end = self.spans[0]
        return end - start


def divide_wall(wall: Wall) -> tuple[Stretch, ...]:
    """Return every skin of every part with its panels: in the order of the parts, inner first.

    Raises
    ------
    InputError
        With ``part <number>`` as where, at the first part that cannot be built.
    """
    found: list[Stretch] = []
    for index in range(len(wall.parts)):
        found += divide_part(wall, index)
    return tuple(found)


def divide_part(wall: Wall, index: int) -> list[Stretch]:
    """Return the skins of one part with their panels, inner first; InputError as `divide_wall`."""
    part = wall.parts[index]
    if isinstance(part, Corner):
        return [_legs(wall, index, part, skin) for skin in wall.skins] if part.leg else []
    try:
        count = part.panels or max(
            count_fewest(_room(wall, index, skin), part.widest, wall.widths) for skin in wall.skins
        )
        return [
            stretch for skin in wall.skins for stretch in _stretches(wall, index, part, skin, count)
        ]
    except InputError as error:
        raise InputError(f"part {index + 1}", error.rule, error.got, error.remedy) from error


def order_of(wall: Wall, stretches: tuple[Stretch, ...]) -> tuple[tuple[Bed, ...], list[Panel]]:
    """Return the beds, each once, and the panels the stretches come to."""
    beds = tuple(dict.fromkeys(stretch.bed for stretch in stretches))
    panels = [
        Panel(
            stretch.mark,
            stretch.width,
            wall.row_height,
            len(stretch.spans) * wall.rows,
            stretch.bed.name,
        )
        for stretch in stretches
    ]
    return beds, panels


def face_length(wall: Wall, index: int, face: Face) -> float:
    """Return the length [steps] of a run or arc on a face of the wall, corner to corner."""
    part = wall.parts[index]
    if isinstance(part, Corner):
        return 0.0
    if isinstance(part, WallArc):
        return radius_on(wall, part, face) * part.angle
    beyond = wall.offset(face) - wall.offset(part.to)
    return part.length + float(beyond) * sum(corner_tangents(wall, index))


def radius_on(wall: Wall, arc: WallArc, face: Face) -> float:
    """Return the radius [steps] of an arc on a face of the wall."""
    return arc.radius + sign_of(arc) * float(wall.offset(face) - wall.offset(arc.to))


def sign_of(part: WallArc | Corner) -> int:
    """Return 1 where a part turns toward the inner side, so that its outer face is the longer."""
    return 1 if part.toward == "inner" else -1


def neighbours(wall: Wall, index: int) -> tuple[WallPart | None, WallPart | None]:
    """Return the parts before and after one; None at an open end of the wall."""
    parts = wall.parts
    if wall.closed:
        return parts[index - 1], parts[(index + 1) % len(parts)]
    before = parts[index - 1] if index else None
    return before, parts[index + 1] if index + 1 < len(parts) else None


def corner_tangents(wall: Wall, index: int) -> tuple[float, float]:
    """Return by how much a run's face grows at its two ends, per distance from the axis."""
    first, last = (
        sign_of(part) * math.tan(part.angle / 2) if isinstance(part, Corner) else 0.0
        for part in neighbours(wall, index)
    )
    return first, last


def joint_warnings(wall: Wall) -> list[str]:
    """Return what to mind about the joint's width; none from the nominal width on."""
    got = f"{decimal_text(to_mm(wall.joint), 3)} mm"
    if wall.joint < LEAST_JOINT:
        return [
            f"the joint of {got} is below 3/8 in (9.525 mm), the least for sealant ({JOINT_SOURCE})"
        ]
    if wall.joint < NOMINAL_JOINT:
        return [f"the joint of {got} is below the nominal 3/4 in (19.05 mm; {JOINT_SOURCE})"]
    return []


def length_differences(wall: Wall) -> list[tuple[str, float, float, float]]:
    """Return name, angle [rad], and inner and outer length [steps] of each arc with two skins."""
    if len(wall.skins) < 2:
        return []
    return [
        (
            part.name,
            part.angle,
            face_length(wall, index, "inner"),
            face_length(wall, index, "outer"),
        )
        for index, part in enumerate(wall.parts)
        if isinstance(part, WallArc)
    ]


def _room(wall: Wall, index: int, skin: Skin) -> Room:
    """Return the face of a skin along a run or arc, with what stands at its two ends."""
    first, last = (
        End()
        if part is None or (isinstance(part, Corner) and not part.leg)
        else End(part.leg, Fraction(1))
        if isinstance(part, Corner)
        else End(0, Fraction(1, 2))
        for part in neighbours(wall, index)
    )
    return Room(round(face_length(wall, index, skin)), (first, last), wall.joint, wall.units)


def _stretches(
    wall: Wall, index: int, part: WallRun | WallArc, skin: Skin, count: int
) -> list[Stretch]:
    """Return the panels of a skin of a part, those of one width together."""
    if count > MAX_PANELS:
        raise InputError("", f"a part has at most {MAX_PANELS} panels", f"{count}")
    room = _room(wall, index, skin)
    radius = round(radius_on(wall, part, skin)) if isinstance(part, WallArc) else 0
    if isinstance(part, WallArc) and radius <= 0:
        raise InputError(
            "", f"the {skin} face must have a radius > 0 {wall.units}", wall.text(radius)
        )
    even = math.floor(room.for_panels(count) / count)
    if not 0 < even <= MAX_WIDTH:
        most = wall.text(MAX_WIDTH)
        rule = f"each panel of the {skin} skin must be > 0 {wall.units} and <= {most} wide"
        raise InputError("", rule, wall.text(even))
    spans = share_out(room, count, wall.widths)
    gaps, panels = room.joints(count), sum(end - start for start, end in spans)
    joint = round((room.length - room.legs - panels) / gaps) if gaps else wall.joint
    shape, mark = _shape(part, skin), _mark(wall, part, skin)
    bed = _bed(wall, shape, radius)
    alike = [span for span in spans if span[1] - span[0] == spans[0][1] - spans[0][0]]
    rows = [(mark, tuple(alike))]
    if len(alike) < count:
        rows.append((f"{mark}-closing", spans[-1:]))
    return [
        Stretch(index, skin, name, shape, bed, room.length, radius, row, joint)
        for name, row in rows
    ]


def _legs(wall: Wall, index: int, corner: Corner, skin: Skin) -> Stretch:
    """Return the two legs of a corner return, measured on the face from the arris."""
    flat = Bed("flat")
    spans = ((0, corner.leg), (0, corner.leg))
    mark = _mark(wall, corner, skin)
    return Stretch(index, skin, mark, "flat", flat, 2 * corner.leg, 0, spans, wall.joint)


def _shape(part: WallRun | WallArc, skin: Skin) -> Form:
    """Return what a skin's face is to the person before it: concave on the side it turns toward."""
    if isinstance(part, WallRun):
        return "flat"
    return "concave" if part.toward == skin else "convex"


def _bed(wall: Wall, shape: Form, radius: int) -> Bed:
    """Return the bed on which a panel's face lands on the radius: rule 10 in docs/method.md.

    The face lies on the liner's upper side: on a convex bed at R + t, and is concave; on a concave
    bed at R - t, and is convex.
    """
    if shape == "flat":
        return Bed("flat")
    form: Literal["convex", "concave"] = "convex" if shape == "concave" else "concave"
    bed_radius = radius + (wall.liner_thickness if form == "concave" else -wall.liner_thickness)
    if bed_radius <= 0:
        rule = f"a concave face must have a radius > the liner's {wall.text(wall.liner_thickness)}"
        raise InputError("", rule, wall.text(radius))
    if form == "concave" and radius <= wall.panel_thickness:
        rule = f"a convex face must have a radius > the panel's {wall.text(wall.panel_thickness)}"
        raise InputError("", rule, wall.text(radius))
    name = f"{form} R {decimal_text(to_mm(bed_radius), 6)}"
    return Bed(name, form, bed_radius, "x", wall.neutral)


def _mark(wall: Wall, part: WallPart, skin: Skin) -> str:
    return f"{part.name}-{skin}" if len(wall.skins) == 2 else part.name
