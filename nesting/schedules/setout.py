"""The set-out: what a person marks on the liner lying flat, from its datum corner.

Every position is written in the job's units. In an inch job the nearest division of the rule
(``set_out``) stands under it, with what remains.
"""

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction

from nesting.files.columns import TextTable
from nesting.shapes.geometry import Box
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, decimal_text, length_text, mm_text
from nesting.values.casts import Dam, Layout, Placement
from nesting.values.job import Job, Units

_FACES = ["left", "right", "bottom", "top"]


def write_length(steps: int, units: Units) -> str:
    """Return a length as a bare decimal number in the units, to 0.001 mm or 0.0001 in.

    >>> write_length(12_903_200, "mm"), write_length(12_903_200, "in")
    ('1612.9', '63.5')
    """
    return mm_text(steps) if units == "mm" else decimal_text(Fraction(steps, STEPS_PER_INCH), 4)


def rounding_words(lengths: Iterable[int], units: Units) -> str:
    """Return to what figures are rounded, as words after their unit, '' where all are whole.

    >>> rounding_words([800, 1600], "mm"), rounding_words([801], "mm")
    ('', ' rounded to 0.001')
    """
    per_unit, places = (STEPS_PER_MM, 1000) if units == "mm" else (STEPS_PER_INCH, 10_000)
    is_exact = all(each * places % per_unit == 0 for each in lengths)
    return "" if is_exact else f" rounded to {1 / places:g}"


def lengths_in(layout: Layout) -> list[int]:
    """Return every length that the set-out of a layout tells [steps]."""
    boxes = [*(panel.box for panel in layout.panels), *(dam.box for dam in layout.dams)]
    clear = [dam.clearance or 0 for dam in layout.dams]
    return [*clear, *(value for box in boxes for value in (*box, box.width, box.height))]


def list_set_out(job: Job, layout: Layout) -> list[str]:
    """Return the lines of one layout's set-out: every dam by its four faces, then every panel.

    A layout that keeps the dams of another lists its panels only.
    """
    panels = panel_table(job, layout.panels).lines
    if layout.same_dams_as is not None:
        return panels
    dams = list_dams(job, layout.dams)
    return [*dams, *[""] * bool(dams), *panels]


def write_size(width: int, height: int, units: Units) -> str:
    """Return a size [steps] as ``width x height`` in the units."""
    return f"{write_length(width, units)} x {write_length(height, units)}"


def size_words(width: int, height: int, job: Job) -> str:
    """Return a size [steps] as it is said: in inches by the division of the rule.

    The numbers of an inch job may have a rest in mm, so each has its unit.
    """
    if job.units == "mm":
        return f"{write_size(width, height, 'mm')} mm"
    return " x ".join(length_text(side, "in", job.rules.set_out) for side in (width, height))


def list_dams(job: Job, dams: Sequence[Dam]) -> list[str]:
    """Return the lines of a table of dams, each by its four faces; none where there is no dam."""
    return dam_table(job, dams).lines if dams else []


def dam_table(job: Job, dams: Iterable[Dam]) -> TextTable:
    """Return the dams, each by its four faces: one row, or two in an inch job."""
    head = ["dam", *_division_head(job), *_FACES, "length", "width", "clearance", "blank zones"]
    rows: list[list[str]] = []
    for dam in dams:
        clear = "-" if dam.clearance is None else write_length(dam.clearance, job.units)
        sides = (dam.length, min(dam.width, dam.height))
        tail = [write_length(side, job.units) for side in sides]
        tail += [clear, ", ".join(dam.zones) or "-"]
        under = [length_text(side, "in", job.rules.set_out) for side in sides]
        rows += _face_rows(job, dam.name, dam.box, tail, [*under, "", ""])
    return TextTable("Dams", head, rows, ("dam", "read as", "blank zones"))


def panel_table(job: Job, panels: Iterable[Placement]) -> TextTable:
    """Return the panels, each by its four sides: one row, or two in an inch job."""
    head = ["panel", *_division_head(job), *_FACES, "flat size", "diagonals", "on the rim", "shows"]
    rows: list[list[str]] = []
    for panel in panels:
        rim = [name for name, side in zip(_FACES, panel.sides, strict=True) if side == "edge"]
        size = write_size(panel.width, panel.height, job.units)
        diagonal = write_length(round(math.hypot(panel.width, panel.height)), job.units)
        tail = [size, diagonal, ", ".join(rim) or "-", ", ".join(panel.shows) or "-"]
        name = f"{panel.mark} (turned)" if panel.turned else panel.mark
        rows += _face_rows(job, name, panel.box, tail, [""] * len(tail))
    return TextTable("Panels", head, rows, ("panel", "read as", "on the rim", "shows"))


def _division_head(job: Job) -> list[str]:
    return ["read as"] if job.units == "in" else []


def _face_rows(job: Job, name: str, box: Box, tail: list[str], under: list[str]) -> list[list[str]]:
    """Return the row of a box, and in an inch job the row of rule divisions under it."""
    faces = [box.x0, box.x1, box.y0, box.y1]
    lengths = [write_length(face, job.units) for face in faces]
    if job.units == "mm":
        return [[name, *lengths, *tail]]
    divisions = [length_text(face, "in", job.rules.set_out) for face in faces]
    return [[name, "decimal", *lengths, *tail], ["", "fraction", *divisions, *under]]
