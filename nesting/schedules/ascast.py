"""What liner and panels measure as cast: the passage of the report, and the notes of a drawing."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from nesting.files.columns import INDENT, wrap_text, write_table
from nesting.schedules.setout import ordered_size
from nesting.units import decimal_text, nearest
from nesting.unitwords import WORDS
from nesting.values.castsizes import AsCast, cast_length
from nesting.values.job import Job, Units
from nesting.values.panels import Panel

_PANEL_HEAD = ["panel", "ordered", "as cast", "larger by"]
_WARNED_HEAD = ["panel", "side", "ordered", "moves by", "tolerance", "a quarter"]


@dataclass(frozen=True, slots=True)
class Moved:
    """A side that warmth moves by more than a quarter of its tolerance.

    ``length`` is as ordered, ``by`` how far it moves, ``tolerance`` the narrower of its two limits
    [all in steps].
    """

    mark: str
    side: Literal["width", "height"]
    length: int
    by: int
    tolerance: int


def list_moved(job: Job) -> list[Moved]:
    """Return the sides that the stated difference of temperature moves by too much.

    A length L on the liner grows or shrinks by L times expansion times the difference. Whether the
    liner warms or cools from where it is marked out is not known, so the narrower limit counts.
    """
    return [moved for panel in job.panels for moved in _moved(panel, abs(job.as_cast.growth))]


def list_cast_sizes(job: Job) -> list[str]:
    """Return the lines on sizes as cast; none where nothing is corrected and nothing warned of."""
    if job.as_cast.is_plain:
        return []
    title = f"Sizes as cast, in {WORDS[job.units].lengths}:"
    return [title, *_list_liner(job), *_list_panels(job), *_list_warnings(job)]


def note_cast_sizes(as_cast: AsCast, units: Units) -> list[str]:
    """Return what a drawing must say of the liner and of the panels, if anything.

    >>> note_cast_sizes(AsCast(liner_shrink=Fraction(2, 1000)), "mm")
    ['Figures are for the liner as it lies now: 0.9980 of its drawing.']
    """
    notes = []
    if as_cast.factor != 1 or as_cast.growth:
        now = f", at {_temperature(as_cast.liner_temperature, units)}" if as_cast.growth else ""
        factor = write_factor(as_cast.factor)
        notes.append(f"Figures are for the liner as it lies now{now}: {factor} of its drawing.")
    if as_cast.panel_shrink:
        share = _per_cent(as_cast.panel_shrink)
        notes.append(f"Panels are cast larger, as they shrink by {share}.")
    return notes


def write_factor(factor: Fraction) -> str:
    """Return a factor with four decimals, or up to six where there are more.

    >>> write_factor(Fraction(998, 1000)), write_factor(Fraction(1)), write_factor(Fraction(1, 3))
    ('0.9980', '1.0000', '0.333333')
    """
    whole, _, part = decimal_text(factor, 6).partition(".")
    return f"{whole}.{part:0<4}"


def _moved(panel: Panel, growth: Fraction) -> Iterator[Moved]:
    sides: list[tuple[Literal["width", "height"], int]]
    sides = [("width", panel.width), ("height", panel.height)]
    for (side, length), (low, high) in zip(sides, panel.limits, strict=True):
        tolerance = min(-low, high)
        if 4 * length * growth > tolerance:
            yield Moved(panel.mark, side, length, nearest(length * growth), tolerance)


def _list_liner(job: Job) -> list[str]:
    as_cast = job.as_cast
    if as_cast.factor == 1 and not as_cast.growth:
        return []
    drawn, now = (
        " by ".join(job.tape.words(length) for length in (box.width, box.height))
        for box in (job.drawn.outline.bounds, job.liner.outline.bounds)
    )
    why = "; ".join(_reasons(as_cast, job.units))
    text = f"The liner is {write_factor(as_cast.factor)} of its drawing: {why}."
    return [
        *wrap_text(text, INDENT),
        *wrap_text(f"Drawn {drawn}, it now measures {now} in length and width.", INDENT),
    ]


def _reasons(as_cast: AsCast, units: Units) -> Iterator[str]:
    if as_cast.liner_shrink:
        yield f"shrunk by {_per_cent(as_cast.liner_shrink)}"
    if as_cast.growth:
        now, then = as_cast.liner_temperature, as_cast.measured_temperature
        expansion = decimal_text(as_cast.expansion, 9)
        yield (
            f"at {_temperature(now, units)}, measured at {_temperature(then, units)}, "
            f"growing by {expansion} per degree C"
        )


def _list_panels(job: Job) -> list[str]:
    shrink = job.as_cast.panel_shrink
    if not shrink:
        return []
    text = f"Panels shrink by {_per_cent(shrink)} once cast, so each is cast larger by that:"
    rows = [_panel_row(job, panel, shrink) for panel in job.panels]
    return [*wrap_text(text, INDENT), *write_table(_PANEL_HEAD, rows, left=("panel",))]


def _panel_row(job: Job, panel: Panel, shrink: Fraction) -> list[str]:
    width, height = (nearest(cast_length(each, shrink)) for each in (panel.width, panel.height))
    more = (width - panel.width, height - panel.height)
    by = " by ".join(map(job.tape.signed, more))
    return [panel.mark, ordered_size(job, panel), job.tape.size(width, height), by]


def _list_warnings(job: Job) -> list[str]:
    moved = list_moved(job)
    if not moved:
        return []
    as_cast = job.as_cast
    warmth = decimal_text(abs(as_cast.warmer), 1)
    text = (
        f"Warning: {warmth} degrees C move these sizes by more than a quarter of their tolerance. "
        f"Mark out and cast at {_temperature(as_cast.liner_temperature, job.units)}, or plan anew "
        "for the temperature of the day."
    )
    rows = [_warned_row(job, each) for each in moved]
    return [*wrap_text(text, INDENT), *write_table(_WARNED_HEAD, rows, left=("panel", "side"))]


def _warned_row(job: Job, moved: Moved) -> list[str]:
    quarter = nearest(Fraction(moved.tolerance, 4))
    lengths = (moved.length, moved.by, moved.tolerance, quarter)
    return [moved.mark, moved.side, *map(job.tape.stated, lengths)]


def _temperature(degrees: Fraction, units: Units) -> str:
    written = f"{decimal_text(degrees, 1)} C"
    return written if units == "mm" else f"{written} ({decimal_text(degrees * 9 / 5 + 32, 1)} F)"


def _per_cent(share: Fraction) -> str:
    return f"{decimal_text(100 * share, 4)} %"
