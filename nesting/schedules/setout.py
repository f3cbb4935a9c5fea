"""The set-out: what a person marks on the liner lying flat, from its datum corner.

Every position is written as the tape of the job reads it; for whoever asks, those that lie on no
mark follow in decimals, in a column of their own.
"""

import math
from collections import Counter
from collections.abc import Iterable, Sequence

from nesting.files.columns import TextTable
from nesting.maps.sizeregion import OrderedSize
from nesting.schedules.cuts import strip_of, width_words
from nesting.tape import Tape, explain_beside
from nesting.values.casts import Dam, Layout, Placement, Sides
from nesting.values.job import Job, Units
from nesting.values.panels import Panel


def write_length(steps: int, units: Units) -> str:
    """Return a length as it is stated, without the unit, where there is no job.

    >>> write_length(12_903_200, "mm"), write_length(12_903_200, "in")
    ('1612.9', '63 1/2')
    """
    return Tape(units).stated(steps)


def write_size(width: int, height: int, units: Units) -> str:
    """Return a size [steps] as ``width x height``, as it is stated, where there is no job."""
    return f"{write_length(width, units)} x {write_length(height, units)}"


def ordered_size(job: Job, panel: Panel, times: str = " x ") -> str:
    """Return a panel's size without its unit as the order states it: what had feet has feet."""
    return job.tape.stated_size((panel.width, panel.height), panel.in_feet, times=times)


def order_words(job: Job, panel: Panel) -> str:
    """Return a panel's size as the order states it, with its unit."""
    return job.tape.stated_size((panel.width, panel.height), panel.in_feet, words=True)


def placed_size(job: Job, placed: Placement | OrderedSize, times: str = " x ") -> str:
    """Return a panel's size on the liner without its unit, written as ordered where it is that."""
    size = placed.width, placed.height
    for panel in job.panels:
        if panel.mark == placed.mark and size == (panel.width, panel.height):
            return ordered_size(job, panel, times)
    return times.join(map(job.tape.figure, size))


def list_set_out(job: Job, layout: Layout, *, exact: bool = False) -> list[str]:
    """Return the lines of one layout's set-out: every dam by its four faces, then every panel.

    A layout that keeps the dams of another lists its panels only.
    """
    panels = panel_table(job, layout.panels, exact=exact).lines
    if layout.same_dams_as is not None:
        return panels
    dams = list_dams(job, layout.dams, exact=exact)
    return [*dams, *[""] * bool(dams), *panels]


def count_marks(marks: Iterable[str], between: str) -> str:
    """Return marks in the order met, how often before each that is there more than once.

    >>> count_marks(("A1", "A3", "A3"), " + ")
    'A1 + 2 x A3'
    """
    return between.join(m if n == 1 else f"{n} x {m}" for m, n in Counter(marks).items())


def list_dams(job: Job, dams: Sequence[Dam], *, exact: bool = False) -> list[str]:
    """Return the lines of a table of dams, each by its four faces; none where there is no dam."""
    return dam_table(job, dams, exact=exact).lines if dams else []


def dam_table(job: Job, dams: Iterable[Dam], *, exact: bool = False) -> TextTable:
    """Return the dams, each by its four faces."""
    head = ["dam", *Sides._fields, "length", "width", "clearance", "blank zones"]
    rows: list[list[str]] = []
    for dam in dams:
        length, width = strip_of(job, dam)
        sides = {"length": length, "width": width}
        clear = {} if dam.clearance is None else {"clearance": dam.clearance}
        lengths = _faces(dam) | sides | clear
        cells = [job.tape.figure(steps) for steps in lengths.values()] + ["-"] * (not clear)
        cells[len(lengths) - len(clear) - 1] = width_words(job, width)
        told = [job.tape.list_exact(lengths)] * exact
        rows.append([dam.name, *cells, ", ".join(dam.zones) or "-", *told])
    return TextTable("Dams", [*head, *_exact_head(exact)], rows, ("dam", "blank zones", "exact"))


def panel_table(job: Job, panels: Iterable[Placement], *, exact: bool = False) -> TextTable:
    """Return the panels, each by its four sides."""
    head = ["panel", *Sides._fields, "flat size", "diagonals", "on the rim", "shows"]
    head += _exact_head(exact)
    rows: list[list[str]] = []
    for panel in panels:
        rim = [name for name, side in panel.sides._asdict().items() if side == "edge"]
        name = f"{panel.mark} (turned)" if panel.turned else panel.mark
        faces = _faces(panel)
        cells = [job.tape.figure(steps) for steps in faces.values()]
        diagonal = round(math.hypot(panel.width, panel.height))
        tail = [placed_size(job, panel), job.tape.figure(diagonal)]
        tail += [", ".join(rim) or "-", ", ".join(panel.shows) or "-"]
        lengths = faces | {"width": panel.width, "height": panel.height}
        rows.append([name, *cells, *tail, *[job.tape.list_exact(lengths)] * exact])
    return TextTable("Panels", head, rows, ("panel", "on the rim", "shows", "exact"))


def explain_figures(job: Job, layout: Layout) -> str:
    """Return what full and scant mean where a length of the layout is either, else nothing."""
    pieces: list[Dam | Placement] = [*layout.panels, *layout.dams]
    lengths = (steps for each in pieces for steps in (*each.box, each.width, each.height))
    return explain_beside("; ".join(map(job.tape.figure, lengths)))


def _exact_head(exact: bool) -> list[str]:
    return ["exact"] * exact


def _faces(piece: Dam | Placement) -> dict[str, int]:
    box = piece.box
    return dict(zip(Sides._fields, (box.x0, box.x1, box.y0, box.y1), strict=True))
