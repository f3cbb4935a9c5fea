"""What holds of dams and panels on every curved bed, on generated beds and layouts.

Lengths are looked at in space: on the circles of the bed, put there by angle and radius.
"""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, hand_job, hand_schedule
from hypothesis import given
from hypothesis import strategies as st

from nesting.schedules.cuts import dam_cuts
from nesting.schedules.onbed import measure_panels
from nesting.schedules.parting import KEPT_OFF
from nesting.values.bed import AXES, Bed
from nesting.values.bend import bend_of
from nesting.values.casts import Dam, Placement, Sides
from nesting.values.job import DamStock

WIDTH = 25 * MM
SIDES = Sides("dam", "dam", "dam", "dam")


@st.composite
def casts(draw, on_curve="bent"):
    """Return a job on one curved bed and a layout of panels side by side along its curve.

    One dam runs along them all, and one stands across between any two.
    """
    form = draw(st.sampled_from(["convex", "concave"]))
    bed = Bed(
        "flat",
        form,
        draw(st.integers(1200, 20_000)) * MM,
        draw(st.sampled_from(AXES)),
        draw(st.fractions(0, Fraction(1, 2), max_denominator=20)),
        ends=draw(st.sampled_from(["square", "plumb"])),
    )
    spans = draw(st.lists(st.integers(60, 700), min_size=1, max_size=3))
    height, at = 800 * MM, 0
    panels, dams = [], []
    for number, span in enumerate(spans):
        panels.append(Placement(f"P{number}", at, 0, span * MM, height, SIDES))
        at += span * MM
        dams.append(Dam(f"across {number}", at, 0, WIDTH, height))
        at += WIDTH
    dams.append(Dam("along", 0, height, at, WIDTH))
    if bed.curved_axis == "y":
        panels = [turn(panel) for panel in panels]
        dams = [turn(dam) for dam in dams]
    job = hand_job()
    stock = (draw(st.integers(300, 1200)) * MM,) if on_curve == "cut" else ()
    job = replace(
        job,
        beds=(bed,),
        liner=replace(job.liner, thickness=draw(st.integers(5, 40)) * MM),
        dams=DamStock(height=draw(st.integers(10, 60)) * MM, on_curve=on_curve, stock=stock),
    )
    layout = replace(hand_schedule().layouts[0], bed="flat", panels=tuple(panels), dams=tuple(dams))
    return job, layout


def turn(piece):
    """Return a panel or a dam with x and y exchanged."""
    return replace(piece, x=piece.y, y=piece.x, width=piece.height, height=piece.width)


@given(casts())
def test_a_bent_dam_is_its_flat_length_as_the_face_stretches_it(cast):
    """And a dam across the curve keeps its flat length and its width."""
    job, layout = cast
    bend = bend_of(job, "flat")
    *across, along = dam_cuts(job, layout)
    assert along.kind == "bent"
    assert along.length == pytest.approx(layout.dams[-1].length * bend.face_ratio, abs=1)
    for cut, dam in zip(across, layout.dams, strict=False):
        assert (cut.kind, cut.length, cut.width) == ("straight", dam.length, WIDTH)


@given(casts())
def test_panels_and_the_gaps_between_them_come_to_the_foot_of_the_dam_beside_them(cast):
    """What is measured along the face and what is cut are one reckoning."""
    job, layout = cast
    bend, at = bend_of(job, "flat"), AXES.index(job.beds[0].curved_axis)
    sizes = [(each.width, each.height)[at] for each in measure_panels(job, layout)]
    gaps = len(layout.panels) * WIDTH * bend.face_ratio
    assert sum(sizes) + gaps == pytest.approx(dam_cuts(job, layout)[-1].length, abs=4)


@given(casts())
def test_chords_and_diagonals_are_those_of_corners_on_the_cylinder(cast):
    """Corners are put into space; a tape on the face is never shorter than a straight one."""
    job, layout = cast
    bend, at = bend_of(job, "flat"), AXES.index(job.beds[0].curved_axis)
    radius = bend.face_radius
    for panel, found in zip(layout.panels, measure_panels(job, layout), strict=True):
        along, straight = (panel.width, panel.height)[:: 1 if at == 0 else -1]
        half = float(along / bend.neutral_radius / 2)
        near, far = (
            (radius * math.sin(turned), radius * math.cos(turned), height)
            for turned, height in ((-half, 0), (half, straight))
        )
        assert found.straight == pytest.approx(math.dist(near, far), abs=2)
        assert found.chord == pytest.approx(math.dist(near[:2], far[:2]), abs=1)
        assert found.over >= found.straight - 1


@given(casts("cut"))
def test_a_cut_dam_stands_on_the_face_and_its_pieces_fit_the_sheet(cast):
    """Foot and top on their circles; pieces come to the whole, and keep off all corners."""
    job, layout = cast
    bend, at = bend_of(job, "flat"), AXES.index(job.beds[0].curved_axis)
    cut = dam_cuts(job, layout)[-1]
    outward = 1 if job.beds[0].form == "convex" else -1
    assert cut.profile.foot_radius == bend.face_radius
    assert cut.profile.top_radius == bend.face_radius + outward * job.dams.height
    assert sum(cut.pieces) == cut.length
    if cut.parted_at is None:
        return
    assert cut.sheet[0] <= job.dams.stock[-1] + 2
    corners = [panel.box[at + end] * bend.face_ratio for panel in layout.panels for end in (0, 2)]
    nearest = [abs(place - corner) for place in cut.parted_at for corner in corners]
    assert all(apart >= KEPT_OFF - 1 for apart in nearest)


@given(casts())
def test_plumb_sides_of_dams_are_parallel_to_the_middles_of_their_panels(cast):
    """Turned by its own place and its lean, a side of a dam points as the middle of its panel."""
    job, layout = cast
    bend, at = bend_of(job, "flat"), AXES.index(job.beds[0].curved_axis)
    outward = 1 if job.beds[0].form == "convex" else -1
    middles = [middle_of(panel, at) / bend.neutral_radius for panel in layout.panels]
    for number, cut in enumerate(dam_cuts(job, layout)[:-1]):
        own = middle_of(layout.dams[number], at) / bend.neutral_radius
        if job.beds[0].ends == "square":
            assert cut.leans == ((), ())
            continue
        (low,), high = cut.leans
        assert own - outward * math.radians(low) == pytest.approx(float(middles[number]))
        assert len(high) == (number + 1 < len(middles))
        for lean in high:
            assert own + outward * math.radians(lean) == pytest.approx(float(middles[number + 1]))


def middle_of(piece, at):
    """Return where the middle of a panel or a dam lies along an axis of the flat liner [steps]."""
    return Fraction(piece.box[at] + piece.box[at + 2], 2)
