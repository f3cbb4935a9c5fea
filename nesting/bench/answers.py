"""One liner tried with one size after another: each answer as a JSON record, lengths in mm.

The quick parts of an answer come apart from the slow ones, so that a page can show them at once.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from nesting.errors import InputError, shown
from nesting.files.sizes import parse_size
from nesting.fitting.answer import Fit, Seated, fit_size, seat_first
from nesting.fitting.nearest import Finder, make_finder
from nesting.fitting.report import fit_record, report_fit
from nesting.maps.ground import Ground, survey
from nesting.maps.places import outline_places
from nesting.maps.positions import map_positions
from nesting.maps.sizes import wish_of
from nesting.shapes.geometry import Point, Polygon
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, to_mm
from nesting.values.bend import Bend, bend_of
from nesting.values.job import Job
from nesting.values.panels import Panel

AnswerPart = Literal["fit", "places", "full"]
Record = dict[str, object]
_MANY = 100  # sizes a page is asked for
SOON: tuple[AnswerPart, ...] = ("fit", "places")
LATER: tuple[AnswerPart, ...] = ("full",)
"""The parts of an answer: those that come at once, and those that may take their time."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A size as typed, in the job's units unless it says otherwise, and the name of a bed."""

    width: str
    height: str
    bed: str = ""


@dataclass(frozen=True)
class TryOut:
    """A job's liner, ready to be asked for sizes; ``file`` is the name of the job's file."""

    job: Job
    file: str
    ground: Ground = field(init=False)
    finder: Finder = field(init=False)

    def __post_init__(self) -> None:
        ground = survey(self.job.liner, self.job.rules)
        object.__setattr__(self, "ground", ground)
        object.__setattr__(self, "finder", make_finder(ground, _MANY))

    def answer(self, part: AnswerPart, asked: Asked) -> Record:
        """Return one part of the answer.

        ``fit`` tells whether the size fits, with a first place and its dams; ``places`` every
        place; ``full`` all that ``nesting fit`` reports, with the best place.

        Raises InputError where the size or the bed cannot be read or no panel can have the size.
        """
        bend = bend_of(self.job, self._bed(asked.bed))
        width, height = parse_size(f"{asked.width} x {asked.height}", self.job.units)
        panel = Panel("Panel", width, height, 1, bend.bed.name)
        work = {"fit": self._fit, "places": self._places, "full": self._full}
        try:
            return work[part](panel, bend)
        except ValueError as error:
            if isinstance(error, InputError):
                raise
            rule = f"no panel on bed {panel.bed!r} can have that size: {error}"
            raise InputError("", rule) from error

    def describe(self) -> Record:
        """Return what the page draws before any size is asked."""
        liner, job = self.job.liner, self.job
        box = liner.outline.bounds
        first = box.width // 2, box.height // 2
        unit = STEPS_PER_MM if job.units == "mm" else STEPS_PER_INCH
        return {
            "file": self.file,
            "title": job.title,
            "liner": liner.name,
            "units": job.units,
            "mm_per_unit": unit / STEPS_PER_MM,
            "step": job.rules.set_out / unit,
            "beds": [bed.name for bed in job.beds],
            "box": [to_mm(value) for value in box],
            "outline": _rings(liner.outline),
            "ornaments": [_part(each.name, each.outline) for each in liner.ornaments],
            "zones": [_part(each.name, each.outline) for each in liner.zones],
            "first": [str(side // STEPS_PER_MM) for side in first]
            if job.units == "mm"
            else [str(side // STEPS_PER_INCH) for side in first],
        }

    def _bed(self, name: str) -> str:
        names = [bed.name for bed in self.job.beds]
        if not name or name in names:
            return name or names[0]
        known = ", ".join(map(repr, names))
        raise InputError("bed", "there is no such bed", shown(name), f"known: {known}")

    def _fit(self, panel: Panel, bend: Bend) -> Record:
        found = seat_first(self.ground, panel, bend)
        size = self.job.tape.size_words(panel.width, panel.height)
        return {
            "fits": found is not None,
            "size": size,
            **_seat_record(found),
        }

    def _places(self, panel: Panel, bend: Bend) -> Record:
        size = bend.flat_size(panel)
        places = outline_places(map_positions(self.ground, *size, wish_of(self.ground, panel)))
        return {
            "areas": [_rings(area) for area in places.areas],
            "stretches": [_points(stretch) for stretch in places.stretches],
        }

    def _full(self, panel: Panel, bend: Bend) -> Record:
        fit = fit_size(self.ground, panel, bend, finder=self.finder, mend=False)
        return {
            **fit_record(self.job, fit, self.file),
            **_seat_record(fit.seated),
            "nearest": self._nearest(fit),
            "text": report_fit(self.job, fit),
        }

    def _nearest(self, fit: Fit) -> list[Record]:
        """Return the nearest sizes, smaller and larger: as they are told, and as they are typed."""
        if fit.nearest is None:
            return []
        tape = self.job.tape
        sizes = dict.fromkeys(
            size for size in (fit.nearest.smaller, fit.nearest.larger) if size is not None
        )
        return [
            {"told": tape.size_words(*size), "typed": [tape.exact(side) for side in size]}
            for size in sizes
        ]


def _seat_record(seated: Seated | None) -> Record:
    if seated is None:
        return {"panel": None, "dams": []}
    return {
        "panel": [to_mm(value) for value in seated.placement.box],
        "dams": [[to_mm(value) for value in dam.box] for dam in seated.dams],
    }


def _part(name: str, outline: Polygon) -> Record:
    return {"name": name, "rings": _rings(outline)}


def _rings(polygon: Polygon) -> list[list[list[Fraction]]]:
    return [_points(ring) for ring in polygon.rings]


def _points(points: Iterable[Point]) -> list[list[Fraction]]:
    return [[to_mm(x), to_mm(y)] for x, y in points]
