"""Whether a size fits a liner, as a value in mm."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from nesting.api.plans import PlacedPanel, mm_of
from nesting.errors import InputError, shown
from nesting.fitting.answer import Fit, fit_size
from nesting.fitting.report import fit_record, report_fit
from nesting.maps.ground import survey
from nesting.units import to_steps
from nesting.values.bend import bend_of
from nesting.values.panels import Panel

if TYPE_CHECKING:
    from nesting.api.jobs import Job


@dataclass(frozen=True, slots=True)
class FitAnswer:
    """The answer for one size on one bed.

    ``place`` is where it lies best, None where it has no place; ``reason`` then says why, and
    ``nearest`` gives the nearest smaller and larger size that has one (width, height) [mm].
    """

    fits: bool
    place: PlacedPanel | None
    clearance: float | None
    reason: str | None
    nearest: tuple[tuple[float, float] | None, tuple[float, float] | None]
    text: str
    """The whole answer as ``nesting fit`` prints it."""
    _svg: str = field(repr=False)

    def _repr_svg_(self) -> str | None:
        """Return the drawing of the place, for notebooks; None where there is none."""
        return self._svg or None


def fit(
    job: Job,
    width: float,
    height: float,
    *,
    bed: str | None = None,
    measured_on: Literal["face", "chord"] = "face",
) -> FitAnswer:
    """Return whether a panel of that size [mm] has a place on the job's liner.

    Without ``bed`` the job's first bed is taken.

    Raises
    ------
    InputError
        Where the size is none, the bed is unknown or no panel on it can have that size.
    """
    exact = job.exact
    beds = {each.name: each for each in exact.beds}
    name = bed if bed is not None else exact.beds[0].name
    if name not in beds:
        raise InputError("bed", "there is no such bed", shown(name), f"known: {', '.join(beds)}")
    sides = [_length(key, length) for key, length in (("width", width), ("height", height))]
    panel = Panel("fit", sides[0], sides[1], 1, name, measured_on)
    try:
        found = fit_size(survey(exact.liner, exact.rules), panel, bend_of(exact, name))
    except ValueError as error:
        rule = f"a panel on bed {name!r} must be able to have that size: {error}"
        raise InputError("size", rule, f"{width:g} x {height:g} mm") from error
    return _answer(job, found)


def _length(key: str, length: float) -> int:
    if not 0 < length < 1e6:
        raise InputError(key, "must be > 0 mm and below 1 km", f"{length:g} mm")
    return to_steps(Fraction(repr(float(length))))


def _answer(job: Job, found: Fit) -> FitAnswer:
    from nesting.api.texts import sheet_of
    from nesting.fitting.picture import draw_fit
    from nesting.jobs.write import write_job

    record = fit_record(job.exact, found, "")
    seated, nearest = found.seated, found.nearest
    place, clearance, svg = None, None, ""
    if seated is not None:
        spot = seated.placement
        place = PlacedPanel(
            spot.mark,
            mm_of(spot.x),
            mm_of(spot.y),
            mm_of(spot.width),
            mm_of(spot.height),
            spot.shows,
        )
        clearance = None if seated.clearance is None else mm_of(seated.clearance)
        svg = sheet_of(draw_fit(job.exact, found, seated, "fit"), write_job(job.exact))
    return FitAnswer(
        seated is not None,
        place,
        clearance,
        None if record["reason"] is None else str(record["reason"]),
        (_pair(nearest.smaller), _pair(nearest.larger)) if nearest else (None, None),
        report_fit(job.exact, found),
        svg,
    )


def _pair(size: tuple[int, int] | None) -> tuple[float, float] | None:
    return None if size is None else (mm_of(size[0]), mm_of(size[1]))
