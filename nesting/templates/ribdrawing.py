"""The template of a bed's ribs: the curve, its base, and heights to check it by."""

from __future__ import annotations

from math import degrees, floor

from nesting.drawings.figures import length_figure
from nesting.drawings.record import Line, Rect
from nesting.templates.content import Label, Template, measure_words
from nesting.templates.ribs import Rib
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.values.bed import Bed
from nesting.values.job import Job

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
    return Template(
        "ribs",
        f"Rib of bed {bed.name}",
        (
            *(Line(((x, 0.0), (x, rib.height_at(x))), "ghost") for x in stations if x),
            Line(((0.0, 0.0), (0.0, rib.height_at(0.0))), "witness"),
            Line(outline, "trace"),
        ),
        (
            Label(
                body, tuple(f"Rib of bed {bed.name}, {part}" for part in _words(job, rib)), (3.5,)
            ),
            *(_station_label(x, rib, job) for x in stations),
        ),
        (),
        facts[1:3],
        facts,
    )


def _stations(half: float, job: Job) -> tuple[float, ...]:
    """Return where heights are given: every 100 mm or 4 in from the middle."""
    pitch = 100.0 if job.units == "mm" else 4 * STEPS_PER_INCH / STEPS_PER_MM
    count = floor((half - _STATION_WIDTH) / pitch)
    return tuple(number * pitch for number in range(-count, count + 1))


def _station_label(x: float, rib: Rib, job: Job) -> Label:
    """Return the height at a station, told beside its line."""
    ground = Rect(x + 0.3, 0.0, x + _STATION_WIDTH, rib.height_at(x))
    height = _figure(rib.height_at(x), job)
    from_middle = (
        f"{_figure(abs(x), job)} from middle: height {height}" if x else f"middle: {height}"
    )
    return Label(ground, (from_middle, height), (2.5, 1.8))


def _words(job: Job, rib: Rib) -> tuple[str, str]:
    chord, rise = _figure(rib.chord, job), _figure(rib.rise, job)
    radius = _figure(rib.radius, job)
    return f"R {radius}, chord {chord}, rise {rise}, cut {rib.count}", f"cut {rib.count}"


def _facts(job: Job, bed: Bed, rib: Rib) -> tuple[str, ...]:
    def words(length: float) -> str:
        return measure_words(round(length * STEPS_PER_MM), job)

    deck = abs(rib.bed_radius - rib.radius)
    under = f", deck {words(deck)}" if deck > 1e-9 else ""
    across = "y" if bed.curved_axis == "x" else "x"
    return (
        f"Bed {bed.name} is {rib.form} along {bed.curved_axis}: "
        f"panel face R {words(rib.face_radius)}, "
        f"liner {measure_words(job.liner.thickness, job)}{under}.",
        f"Rib edge R {words(rib.radius)}, chord {words(rib.chord)}.",
        f"Rise {words(rib.rise)}, edge {words(rib.arc)}, {degrees(rib.angle_rad):.2f}°.",
        f"Cut {rib.count} ribs alike; set them {words(rib.pitch)} apart along {across}, "
        "middle to middle.",
    )


def _figure(length: float, job: Job) -> str:
    return length_figure(round(length * STEPS_PER_MM), job)
