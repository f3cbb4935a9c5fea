"""What each strip is for: the sizes that have no place once it is taken out again."""

from dataclasses import dataclass

from nesting.maps.ground import survey
from nesting.maps.positions import has_place
from nesting.maps.sizes import wish_of
from nesting.values.bed import AXES, Axis
from nesting.values.bend import bend_of
from nesting.values.job import Job
from nesting.values.motif import Motif, Widths, ends_along, make_job, plain_run, strip_box
from nesting.zones.places import RoomyPlace
from nesting.zones.strips import Zoning


@dataclass(frozen=True, slots=True)
class Use:
    """A strip in use: its ``added`` width and the plain ground, ``low`` to ``high`` [steps].

    ``widens`` names the drawn zone it is part of, '' for none. ``gives`` lists the sizes that are
    lost without it, ``holds`` those with a dam in it. A strip as wide as another may have neither.
    """

    name: str
    axis: Axis
    added: int
    low: int
    high: int
    widens: str
    gives: tuple[str, ...]
    holds: tuple[str, ...] = ()
    as_wide_as: str = ""


def list_uses(zoning: Zoning) -> tuple[Use, ...]:
    """Return every strip in use, those along x first, from the datum corner on."""
    motif, job = zoning.motif, zoning.job
    found: list[Use] = []
    for axis in AXES:
        for number in motif.along(axis):
            strip = motif.strips[number]
            if not zoning.widths[number]:
                continue
            low, high = _ground(motif, zoning.widths, number, job)
            bare = tuple(0 if n == number else w for n, w in enumerate(zoning.widths))
            given = tuple(lost_sizes(make_job(motif, bare)))
            widens = plain_run(motif, number)
            holds = tuple(
                place.mark
                for place in zoning.places
                if any(low <= face <= high for face in _dams(place, strip.axis))
            )
            added = zoning.widths[number]
            twin = _twin(motif, number)
            use = Use(strip.name, strip.axis, added, low, high, widens, given, holds, twin)
            found.append(use)
    return tuple(found)


def lost_sizes(job: Job) -> list[str]:
    """Return the marks of the sizes that have no place on a job's liner."""
    ground = survey(job.liner, job.rules)
    return [
        panel.mark
        for panel in job.panels
        if not has_place(
            ground,
            *bend_of(job, panel.bed).flat_size(panel),
            wish_of(ground, panel),
        )
    ]


def _twin(motif: Motif, number: int) -> str:
    """Return the name of a strip that must be as wide, '' for none."""
    strip = motif.strips[number]
    others = (each.name for each in motif.strips if each.as_wide_as == strip.name)
    return strip.as_wide_as or next(others, "")


def _dams(place: RoomyPlace, axis: Axis) -> list[int]:
    """Return where a panel has dam sides across an axis."""
    sides = ("left", "right") if axis == "x" else ("bottom", "top")
    return [room.face for room in place.rooms if room.side in sides]


def _ground(motif: Motif, widths: Widths, number: int, job: Job) -> tuple[int, int]:
    """Return from where to where the ground is plain at a strip, with the zone it widens."""
    box = strip_box(motif, widths, number)
    name = plain_run(motif, number)
    if name:
        box = next(zone.outline.bounds for zone in job.liner.zones if zone.name == name)
    return ends_along(box, motif.strips[number].axis)
