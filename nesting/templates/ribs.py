"""The ribs of a curved bed: how each is shaped, so that a panel's face lands on its radius.

Ribs stand across the bed and all are alike. From the panel inwards lie the liner, perhaps a deck
(a sheet bent over the ribs) and the ribs. The bed's own radius is that of what the liner lies on,
so on a convex bed the ribs have that radius less the deck's thickness, on a concave one that and
the thickness. All lengths here are mm.
"""

import math
from dataclasses import dataclass
from math import degrees, floor
from typing import Literal

from nesting.drawings.figures import length_figure
from nesting.drawings.record import Line, Rect
from nesting.shapes.arcs import chord_of_arc, middle_ordinate
from nesting.shapes.geometry import Box
from nesting.templates.content import Template, TileLabel
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.job import Job

FLATTEN = 0.002
"""How far the straight pieces of a drawn curve may lie from its true arc [mm]."""


@dataclass(frozen=True, slots=True)
class Rib:
    """One rib and how many of them there are.

    ``radius`` is that of its curved edge, ``bed_radius`` that of what the liner lies on and
    ``face_radius`` that of the panel's face; ``angle_rad`` is what liner and rib span. ``depth`` is
    the rib's least height. ``count`` ribs stand ``pitch`` apart along the straight axis.
    """

    form: Literal["convex", "concave"]
    radius: float
    bed_radius: float
    face_radius: float
    angle_rad: float
    depth: float
    count: int
    pitch: float

    @property
    def arc(self) -> float:
        """Length of the curved edge."""
        return self.radius * self.angle_rad

    @property
    def chord(self) -> float:
        """Straight distance between the ends of the curved edge."""
        return chord_of_arc(self.arc, self.radius)

    @property
    def rise(self) -> float:
        """How far the middle of the edge stands above, or lies below, its ends."""
        return middle_ordinate(self.arc, self.radius)

    def height_at(self, x: float) -> float:
        """Return the rib's height at a distance along the chord from its middle."""
        drop = self.radius - math.sqrt(max(0.0, self.radius**2 - x**2))
        return self.depth + (self.rise - drop if self.form == "convex" else drop)

    def edge(self) -> tuple[tuple[float, float], ...]:
        """Return points of the curved edge, left to right: x from the middle, height at x."""
        half = self.angle_rad / 2
        parts = max(2, 2 * math.ceil(half / math.acos(max(-1.0, 1 - FLATTEN / self.radius)) / 2))
        turns = (half * (2 * part / parts - 1) for part in range(parts + 1))
        xs = (self.radius * math.sin(turn) for turn in turns)
        return tuple((x, self.height_at(x)) for x in xs)


def shape_rib(bend: Bend, liner: Box, *, spacing: float, deck: float, depth: float) -> Rib:
    """Return the ribs of a bed under a whole liner.

    Parameters
    ----------
    bend
        That of a curved bed.
    liner
        The bounds of the liner lying flat [steps].
    spacing
        Most distance from rib to rib [mm].
    deck
        Thickness of the sheet bent over the ribs [mm]; 0 where the liner lies on them.
    depth
        Least height of a rib [mm].

    Raises
    ------
    ValueError
        On a flat bed; where liner and deck leave no radius; where the liner spans more than half
        a circle.
    """
    bed, face = bend.bed, bend.face_radius / STEPS_PER_MM
    radius = bed.radius / STEPS_PER_MM
    edge = radius - deck if bed.form == "convex" else radius + deck
    if edge <= 0:
        raise ValueError(f"the deck must be thinner than the bed's radius, got {deck:g} mm")
    along, straight = liner.width, liner.height
    if bed.curved_axis == "y":
        along, straight = straight, along
    angle = float(along / bend.neutral_radius)
    if angle > math.pi:
        raise ValueError(
            f"a rib spans at most half a circle; on bed {bed.name!r} the liner spans "
            f"{math.degrees(angle):.1f} degrees"
        )
    gaps = max(1, math.ceil(straight / STEPS_PER_MM / spacing - 1e-9))
    pitch = straight / STEPS_PER_MM / gaps
    form: Literal["convex", "concave"] = "convex" if bed.form == "convex" else "concave"
    return Rib(form, edge, radius, face, angle, depth, gaps + 1, pitch)


_STATION_WIDTH = 7.0


def rib_template(job: Job, bed: Bed, rib: Rib) -> Template:
    """Return the template of one rib: the curved edge on top, the base straight, the middle marked.

    x runs from the middle of the chord, y from the base. A rib is symmetric, so mirrored it is the
    same.
    """
    half = rib.chord / 2
    edge = rib.edge()
    outline = ((-half, 0.0), (half, 0.0), *reversed(edge), (-half, 0.0))
    stations = _stations(half, job)
    body = Rect(-half, 0.0, half, rib.depth)
    facts = _facts(job, bed, rib)
    lengths = {"R": rib.radius, "chord": rib.chord, "rise": rib.rise, "edge": rib.arc}
    lengths |= {"face R": rib.face_radius, "apart": rib.pitch}
    return Template(
        "ribs",
        f"Rib of bed {bed.name}",
        (
            *(Line(((x, 0.0), (x, rib.height_at(x))), "ghost") for x in stations if x),
            Line(((0.0, 0.0), (0.0, rib.height_at(0.0))), "witness"),
            Line(outline, "trace"),
        ),
        (
            TileLabel(
                body, tuple(f"Rib of bed {bed.name}, {part}" for part in _words(job, rib)), (3.5,)
            ),
            *(_station_label(x, rib, job) for x in stations),
        ),
        (),
        facts[1:3],
        facts,
        {name: round(each * STEPS_PER_MM) for name, each in lengths.items()},
    )


def _stations(half: float, job: Job) -> tuple[float, ...]:
    """Return where heights are given: every 100 mm or 4 in from the middle."""
    pitch = 100.0 if job.units == "mm" else 4 * STEPS_PER_INCH / STEPS_PER_MM
    count = floor((half - _STATION_WIDTH) / pitch)
    return tuple(number * pitch for number in range(-count, count + 1))


def _station_label(x: float, rib: Rib, job: Job) -> TileLabel:
    """Return the height at a station, told beside its line."""
    ground = Rect(x + 0.3, 0.0, x + _STATION_WIDTH, rib.height_at(x))
    height = _figure(rib.height_at(x), job)
    from_middle = (
        f"{_figure(abs(x), job)} from middle: height {height}" if x else f"middle: {height}"
    )
    return TileLabel(ground, (from_middle, height), (2.5, 1.8))


def _words(job: Job, rib: Rib) -> tuple[str, str]:
    chord, rise = _figure(rib.chord, job), _figure(rib.rise, job)
    radius = _figure(rib.radius, job)
    return f"R {radius}, chord {chord}, rise {rise}, cut {rib.count}", f"cut {rib.count}"


def _facts(job: Job, bed: Bed, rib: Rib) -> tuple[str, ...]:
    def words(length: float) -> str:
        return job.tape.words(round(length * STEPS_PER_MM))

    deck = abs(rib.bed_radius - rib.radius)
    under = f", deck {words(deck)}" if deck > 1e-9 else ""
    across = "y" if bed.curved_axis == "x" else "x"
    return (
        f"Bed {bed.name} is {rib.form} along {bed.curved_axis}: "
        f"panel face R {words(rib.face_radius)}, "
        f"liner {job.tape.stated_words(job.liner.thickness)}{under}.",
        f"Rib edge R {words(rib.radius)}, chord {words(rib.chord)}.",
        f"Rise {words(rib.rise)}, edge {words(rib.arc)}, {degrees(rib.angle_rad):.2f}°.",
        f"Cut {rib.count} ribs alike; set them {words(rib.pitch)} apart along {across}, "
        "middle to middle.",
    )


def _figure(length: float, job: Job) -> str:
    return length_figure(round(length * STEPS_PER_MM), job)
