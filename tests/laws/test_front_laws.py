"""What holds for the front view of any panel: it is its liner window in a mirror, measured true.

The law reads the drawing back as a person would: the face's frame, the outlines on it, and the
scale its width gives. Mirrored once more, unbent and put where the panel was cast, every outline
must lie on the liner's. Panels are cast anywhere on liners of every kind, on every bed.
"""

import math
import random
import re
from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import sides
from smalljobs import CELL, KINDS, small_job

from nesting.drawings.front import draw_front
from nesting.drawings.record import Area, bounds_of
from nesting.drawings.view import FROM_FRONT
from nesting.fronts.kinds import list_kinds
from nesting.shapes.geometry import Box, Polygon
from nesting.units import STEPS_PER_MM as MM
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.casts import Areas, Layout, Placement, Schedule
from nesting.values.castsizes import AsCast
from nesting.values.panels import Panel

pytestmark = pytest.mark.long

BEDS = {
    "table": Bed("table"),
    "drum": Bed("drum", "convex", 900 * MM),
    "cradle": Bed("cradle", "concave", 900 * MM, "y"),
}
MEASURES = ("face", "back", "chord")
CASES = [(kind, bed, turned) for kind in KINDS for bed in BEDS for turned in (False, True)]
by_case = pytest.mark.parametrize(("kind", "bed", "turned"), CASES)


def slant(ornament, pick):
    """Return the ornament as a leaf that no mirror leaves as it is."""
    x0, y0, x1, y1 = ornament.outline.bounds
    third = (x1 - x0) // 3
    leaf = (
        (x0, y0),
        (x1, (y0 + y1) // 2),
        (x1 - third, y1),
        (x0 + pick.randint(1, third), y1 - MM),
    )
    return replace(ornament, outline=Polygon(leaf))


def lies_in(ornament, window):
    """Whether every corner of an ornament is in the window."""
    return all(
        window.x0 <= x <= window.x1 and window.y0 <= y <= window.y1
        for x, y in ornament.outline.shell
    )


def cast(kind, bed, turned):
    """Return a job, and a schedule that casts eight panels anywhere on its liner."""
    pick = random.Random(f"{kind} {bed} {turned}")
    job = small_job(kind, 7)
    ornaments = tuple(slant(each, pick) for each in job.liner.ornaments)
    shrink = AsCast(panel_shrink=pick.choice([Fraction(0), Fraction(1, 1000)]))
    job = replace(
        job, liner=replace(job.liner, ornaments=ornaments), beds=(BEDS[bed],), as_cast=shrink
    )
    bend = Bend(BEDS[bed], job.liner.thickness, shrink.panel_shrink)
    panels, placed = [], []
    for number in range(8):
        (x0, x1), (y0, y1) = (sorted(pick.sample(range(most), 2)) for most in (24, 16))
        window = Box(x0 * CELL, y0 * CELL, x1 * CELL + number, y1 * CELL)
        measured_on = pick.choice(MEASURES)
        ordered = [
            bend.ordered_length(length, axis, measured_on, 19 * MM)
            for length, axis in ((window.width, "x"), (window.height, "y"))
        ]
        mark = f"P{number}"
        panels.append(Panel(mark, *ordered, 1, bed, measured_on, "half", thickness=19 * MM))
        shows = tuple(each.name for each in ornaments if lies_in(each, window))
        size = (window.x0, window.y0, window.width, window.height)
        placed.append(Placement(mark, *size, sides("lrbt"), shows, turned))
    layout = Layout(1, 1, bed, tuple(placed), (), Areas(0, 0, 0, 0))
    return replace(job, panels=tuple(panels)), Schedule(job.title, 1, (layout,))


def views(job, schedule):
    """Yield each placed panel with its front view and its bend."""
    bend = Bend(job.beds[0], job.liner.thickness, job.as_cast.panel_shrink)
    for kind, placed in zip(list_kinds(job, schedule), schedule.layouts[0].panels, strict=True):
        assert kind.face.mark == placed.mark
        yield placed, draw_front(job, kind, "face"), bend


def shapes_of(drawing, layer, style):
    """Return the areas of a style in a layer of a drawing."""
    (found,) = [each for each in drawing.layers if each.name == layer]
    return [each for each in found.placed if isinstance(each, Area) and each.style == style]


def ratios(bend):
    """Return finished face length over flat length along x and y."""
    left = float(1 - bend.shrink)
    bent = left * float(bend.face_ratio)
    return tuple(bent if bend.is_curved(axis) else left for axis in ("x", "y"))


@by_case
def test_a_front_view_mirrored_again_is_the_window_of_the_liner(kind, bed, turned):
    """Every ornament the panel holds is there once, and no other, to a few µm of the sheet."""
    job, schedule = cast(kind, bed, turned)
    by_name = {each.name: each for each in job.liner.ornaments}
    for placed, drawing, bend in views(job, schedule):
        frame = bounds_of(shapes_of(drawing, "face", "panel"))
        along, up = ratios(bend)
        scale = placed.width / MM * along / frame.width
        window = placed.box

        def put_back(spot, frame=frame, window=window, scales=(scale / along, scale / up)):
            u, v = (spot[0] - frame.x0) * scales[0], (spot[1] - frame.y0) * scales[1]
            if turned:
                return window.x0 / MM + u, window.y1 / MM - v
            return window.x1 / MM - u, window.y0 / MM + v

        drawn = [
            sorted(put_back(spot) for ring in area.rings for spot in ring)
            for area in shapes_of(drawing, "relief", "ornament")
        ]
        there = [
            sorted((x / MM, y / MM) for x, y in by_name[name].outline.shell)
            for name in by_name
            if lies_in(by_name[name], window)
        ]
        assert len(drawn) == len(there)
        slack = 0.004 * scale
        for got, expected in zip(sorted(drawn), sorted(there), strict=True):
            for spot, corner in zip(got, expected, strict=True):
                assert spot == pytest.approx(corner, abs=slack)


@by_case
def test_the_finished_size_is_the_one_ordered(kind, bed, turned):
    """The side the order measures is told to the mark; so are the diagonals."""
    job, schedule = cast(kind, bed, turned)
    for placed, drawing, bend in views(job, schedule):
        panel = job.panel(placed.mark)
        told = dict(
            re.sub("( full| scant)?( mm)?( full| scant)?$", "", text.words).split(": ")
            for text in drawing.texts
            if ": " in text.words
        )
        straight = []
        for side, axis, ordered in (("Width", "x", panel.width), ("Height", "y", panel.height)):
            curved = bend.is_curved(axis)
            on = {"face": " along the face", "back": " along the back", "chord": ", chord"}
            line = side + on[panel.measured_on] if curved else side
            assert float(told[line]) == pytest.approx(ordered / MM, abs=0.501)
            straight.append(float(told[f"{side}, chord"] if curved else told[side]))
        diagonal = "Both diagonals" + ", straight" * (bend.bed.form != "flat")
        assert float(told[diagonal]) == pytest.approx(math.hypot(*straight), abs=1.21)


def test_the_cases_have_ornaments_to_mirror():
    """The law above is not kept for want of anything to draw."""
    shown = [panel.shows for case in CASES for panel in cast(*case)[1].layouts[0].panels]
    assert sum(map(len, shown)) > 80


def test_every_front_view_says_that_it_is_one():
    """No drawing of a face leaves open from where it is seen."""
    for _, drawing, _ in views(*cast("islands", "drum", False)):
        assert FROM_FRONT in [text.words for text in drawing.texts]
