"""The profile of a dam that is sawn from sheet to a bed's curve: its foot, its top, its pieces.

x runs from the middle of the foot's chord, y up from it, as the dam stands on the bed. Lengths here
are mm.
"""

import math
from dataclasses import dataclass

from nesting.drawings.figures import length_words, size_figure
from nesting.drawings.record import Line, Rect, Spot
from nesting.schedules.cutlist import say_parted
from nesting.schedules.cuts import DamCut, Profile, dam_cuts, runs_along
from nesting.templates.content import Template, TileLabel
from nesting.templates.ribs import FLATTEN
from nesting.units import STEPS_PER_MM
from nesting.values.casts import Dam, Layout
from nesting.values.job import Job
from nesting.values.names import call_dam

_LABEL = 60.0
_AIR = 0.5


@dataclass(frozen=True, slots=True)
class _Ring:
    """A profile in the plane of its sheet; ``sign`` is 1 where it bulges up, -1 where it sags."""

    profile: Profile
    sign: int
    mirrored: bool

    def at(self, along: float, radius: int) -> Spot:
        """Return the spot on the circle of a radius at a distance along the foot [both steps]."""
        foot = self.profile.foot_radius
        half = float(self.profile.angle_rad) / 2
        turn = along / foot - half
        x, y = radius * math.sin(turn), radius * math.cos(turn) - foot * math.cos(half)
        return (-x if self.mirrored else x) / STEPS_PER_MM, self.sign * y / STEPS_PER_MM

    def arc(self, radius: int) -> list[Spot]:
        """Return the points of one edge from its left or lower end, near enough to its circle."""
        angle = float(self.profile.angle_rad)
        outer = max(self.profile.foot_radius, self.profile.top_radius)
        reach = 2 * math.acos(max(-1.0, 1 - FLATTEN * STEPS_PER_MM / outer))
        parts = max(2, math.ceil(angle / reach))
        length = self.profile.foot_radius * angle
        return [self.at(length * part / parts, radius) for part in range(parts + 1)]

    def across(self, along: float) -> tuple[Spot, Spot]:
        """Return the line from foot to top, square to both, at a distance along the foot."""
        profile = self.profile
        return self.at(along, profile.foot_radius), self.at(along, profile.top_radius)


def profile_template(job: Job, layout: Layout, dam: Dam, *, mirrored: bool = False) -> Template:
    """Return the template of a dam that is cut to the curve of its bed.

    Raises ValueError where the dam is not cut to a curve, saying what it is.
    """
    (cut,) = [each for each in dam_cuts(job, layout) if each.name == dam.name]
    if cut.kind != "cut" or cut.profile is None:
        raise ValueError(f"{call_dam(dam.name)} is {cut.kind}")
    sign = 1 if job.bed(layout.bed).form == "convex" else -1
    ring, profile = _Ring(cut.profile, sign, mirrored), cut.profile
    foot, top = ring.arc(profile.foot_radius), ring.arc(profile.top_radius)
    name = call_dam(dam.name)
    facts = _facts(job, layout, dam, cut)
    parted = cut.parted_at or ()
    return Template(
        f"layout-{layout.number}-profile",
        f"Profile of {name} of layout {layout.number}",
        (
            Line((*foot, *reversed(top), foot[0]), "trace"),
            *(Line(ring.across(at), "witness") for at in parted),
        ),
        (
            TileLabel(_body(ring), (facts[0].rstrip("."), f"{dam.name}, profile", dam.name)),
            _beside(ring, 0, f"{_start(job, dam)} end"),
            *(
                _beside(ring, at, f"parted at {length_words(at, job)} along the foot")
                for at in parted
            ),
        ),
        (),
        facts[:2],
        facts,
    )


def _facts(job: Job, layout: Layout, dam: Dam, cut: DamCut) -> tuple[str, ...]:
    """Return what is told of a profile: radii, foot, top edge, pieces, sheet."""
    profile = cut.profile
    assert profile is not None  # that of a dam cut to the curve

    def words(steps: int) -> str:
        return length_words(steps, job)

    parted = say_parted(cut, words)
    return (
        f"Dam {dam.name.removeprefix('dam ')} of layout {layout.number} on bed {layout.bed}: foot "
        f"R {words(profile.foot_radius)}, top R {words(profile.top_radius)}.",
        f"Foot {words(profile.foot)}, chord {words(profile.chord)}, rise {words(profile.rise)}"
        + (f"; parted at {parted}." if parted else "."),
        f"Top edge {words(profile.top)}, chord {words(profile.top_chord)}.",
        f"Sheet for each piece {size_figure(*cut.sheet, job)} {job.units}, "
        f"{words(cut.width)} thick; places along the foot are from its {_start(job, dam)} end.",
    )


def _start(job: Job, dam: Dam) -> str:
    return "left" if runs_along(job, dam) == "x" else "lower"


def _body(ring: _Ring) -> Rect:
    """Return the largest level ground about the middle that is as high as half the dam."""
    profile = ring.profile
    high = abs(profile.top_radius - profile.foot_radius) / STEPS_PER_MM
    outer = max(profile.top_radius, profile.foot_radius) / STEPS_PER_MM
    half = min(math.sqrt(high * outer), profile.chord / STEPS_PER_MM / 2)
    drop = outer - math.sqrt(outer**2 - half**2)
    low, up = (each[1] for each in ring.across(float(profile.foot_radius * profile.angle_rad) / 2))
    if ring.sign > 0:
        return Rect(-half, low + _AIR, half, up - drop - _AIR)
    return Rect(-half, low + drop + _AIR, half, up - _AIR)


def _beside(ring: _Ring, along: int, words: str) -> TileLabel:
    """Return words beside the line from foot to top at a distance along the foot [steps]."""
    (xa, ya), (xb, yb) = ring.across(along)
    low, high = sorted((ya, yb))
    left, right = min(xa, xb), max(xa, xb)
    x0, x1 = (left - _LABEL, left - 1) if ring.mirrored else (right + 1, right + _LABEL)
    return TileLabel(Rect(x0, low + _AIR, x1, high - _AIR), (words,), (2.5, 1.8), needed=True)
