"""The profile of a dam that is cut to the curve of its bed, full size."""

import itertools
import math
from dataclasses import replace

import pytest
from handjob import MM, dam, hand_job, hand_schedule, place

from nesting.schedules.cuts import dam_cuts
from nesting.templates.profile import profile_template
from nesting.values.bed import Bed
from nesting.values.job import DamStock

DAM = dam("dam 1", 0, 650, 1200, 25, "north", None)


def cut_job(form="convex", **stock):
    """Return the hand-sized job on a bed of 1500 mm, with dams 30 mm high that are cut to it."""
    stock = {"height": 30 * MM, "on_curve": "cut", **stock}
    bed = Bed("table", form, 1500 * MM)
    return replace(hand_job(), beds=(bed,), dams=DamStock(**stock))


def layout_of(*dams):
    """Return a layout of those dams beside one panel as wide as the liner."""
    panels = (place("C1", 0, 0, 1200, 650, "t"),)
    return replace(hand_schedule().layouts[0], dams=dams, panels=panels)


def profile(form="convex", mirrored=False, **stock):
    """Return the cut of the dam and its template."""
    job, layout = cut_job(form, **stock), layout_of(DAM)
    return dam_cuts(job, layout)[0], profile_template(job, layout, DAM, mirrored=mirrored)


@pytest.mark.parametrize(("form", "sign"), [("convex", 1), ("concave", -1)])
def test_foot_and_top_lie_on_their_circles_about_one_middle(form, sign):
    """Every drawn point lies on one of two circles; ends are square to both."""
    cut, template = profile(form)
    ring, outline = cut.profile, template.lines[0].points[:-1]
    foot, top = ring.foot_radius / MM, ring.top_radius / MM
    middle = -sign * math.sqrt(foot**2 - (ring.chord / MM / 2) ** 2)
    radii = [math.hypot(x, y - middle) for x, y in outline]
    half = len(outline) // 2
    assert radii[:half] == pytest.approx([foot] * half, abs=1e-3)
    assert radii[half:] == pytest.approx([top] * half, abs=1e-3)
    angles = [math.atan2(x, sign * (y - middle)) for x, y in outline]
    assert angles[0] == pytest.approx(angles[-1])
    assert angles[half - 1] == pytest.approx(angles[half])


def test_the_drawn_foot_is_as_long_as_the_foot_and_rises_as_told():
    """Summed over its pieces; the highest point of the foot stands the rise above its ends."""
    cut, template = profile()
    outline = template.lines[0].points[:-1]
    foot = outline[: len(outline) // 2]
    length = sum(math.dist(a, b) for a, b in itertools.pairwise(foot))
    assert length == pytest.approx(cut.length / MM, abs=0.01)
    assert math.dist(foot[0], foot[-1]) == pytest.approx(cut.profile.chord / MM, abs=0.01)
    assert max(y for _, y in foot) == pytest.approx(cut.profile.rise / MM, abs=0.01)


def test_where_it_is_parted_a_line_goes_from_foot_to_top():
    """1204 mm of foot from sheets of 700 mm: one line, square to the curve, at the place told."""
    cut, template = profile(stock=(700 * MM,))
    (at,) = cut.parted_at
    (line,) = [each for each in template.lines if each.style == "witness"]
    foot = template.lines[0].points[0]
    apart = 2 * math.asin(math.dist(foot, line.points[0]) / 2 / (cut.profile.foot_radius / MM))
    assert apart * cut.profile.foot_radius == pytest.approx(at, rel=1e-6)
    assert math.dist(*line.points) == pytest.approx(30)
    assert f"parted at {at // MM}" in template.facts[1]


def test_radii_chord_rise_and_sheet_are_told():
    """Foot on the face, 1500 mm and the liner's 13 mm; top 30 mm beyond."""
    cut, template = profile()
    assert template.facts[0] == "Dam 1 of layout 1 on bed table: foot R 1513 mm, top R 1543 mm."
    assert all(word in template.facts[1] for word in ("chord", "rise"))
    assert "25 mm thick; places along the foot are from its left end" in template.facts[3]
    assert template.notes == template.facts[:2]
    assert cut.parted_at == ()


def test_a_mirrored_profile_runs_the_other_way():
    """Its left end then lies on the right, so that it can be traced through."""
    plain, mirrored = profile()[1], profile(mirrored=True)[1]
    assert [(-x, y) for x, y in mirrored.lines[0].points] == list(plain.lines[0].points)


@pytest.mark.parametrize(
    ("form", "stock", "reason"),
    [
        ("convex", {"on_curve": "bent"}, "dam 1 is bent"),
        ("flat", {}, "dam 1 is straight"),
    ],
)
def test_a_dam_that_is_not_cut_to_a_curve_has_no_profile(form, stock, reason):
    """It says what the dam is instead."""
    with pytest.raises(ValueError, match=reason):
        profile(form, **stock)


def test_a_dam_along_y_is_measured_from_its_lower_end():
    """On a bed curved along y."""
    job = cut_job()
    job = replace(job, beds=(replace(job.beds[0], curved_axis="y"),))
    upright = dam("dam 1", 800, 0, 25, 650, "east", None)
    template = profile_template(job, layout_of(upright), upright)
    assert template.facts[3].endswith("from its lower end.")
