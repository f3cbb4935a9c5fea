"""What dams are cut to, on flat and on curved beds."""

import math
import re
from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, change_layout, dam, hand_job, hand_schedule, place
from hypothesis import given
from hypothesis import strategies as st

from nesting.drawings.legend import key_rows
from nesting.schedules.cutlist import cut_table
from nesting.schedules.cuts import DamCut, Profile, dam_cuts, dam_height, runs_along, strip_of
from nesting.schedules.report import report_schedule
from nesting.strips.plan import plan_strips
from nesting.strips.report import report_strips
from nesting.values.bed import Bed
from nesting.values.job import DamStock

DRUM = Bed("flat", "convex", 3000 * MM)
CRADLE = replace(DRUM, form="concave")
ACROSS = dam("across", 800, 0, 25, 700, "", None)
ALONG = dam("along", 0, 500, 1500, 25, "", None)
LEFT = place("A1", 100, 0, 700, 500, "r")
RIGHT = place("B1", 825, 0, 675, 500, "l")


def curved_job(bed=DRUM, **stock):
    """Return the hand-sized job on a curved bed, its liner 20 mm thick, with dams 30 mm high."""
    job = hand_job()
    liner = replace(job.liner, thickness=20 * MM)
    return replace(job, beds=(bed,), liner=liner, dams=DamStock(**{"height": 30 * MM, **stock}))


def cuts_of(job, *dams, panels=(LEFT, RIGHT)):
    """Return the cuts of a layout of those dams and panels."""
    layout = replace(hand_schedule().layouts[0], bed="flat", dams=dams, panels=panels)
    return dam_cuts(job, layout)


def test_on_a_flat_bed_every_dam_is_a_straight_strip():
    """As long and as wide as it lies, and as high as the job says."""
    job = replace(curved_job(), beds=(Bed("flat"),))
    assert cuts_of(job, ACROSS, ALONG) == (
        DamCut("across", "straight", 700 * MM, 25 * MM, 30 * MM),
        DamCut("along", "straight", 1500 * MM, 25 * MM, 30 * MM),
    )


def test_across_the_curve_a_dam_is_a_straight_strip():
    """The straight axis of a bed changes no length."""
    assert cuts_of(curved_job(), ACROSS) == (
        DamCut("across", "straight", 700 * MM, 25 * MM, 30 * MM),
    )


@pytest.mark.parametrize(("bed", "face"), [(DRUM, 3020), (CRADLE, 2980)])
def test_a_bent_dam_is_as_long_as_its_foot_line_on_the_face(bed, face):
    """Flat 1500 mm on the neutral surface, 3010 or 2990 mm, times face over neutral radius."""
    (cut,) = cuts_of(curved_job(bed), ALONG)
    neutral = (face + bed.radius / MM) / 2
    assert cut.kind == "bent"
    assert cut.length / MM == pytest.approx(1500 * face / neutral, abs=1e-4)
    assert cut.parted_at == ()


@pytest.mark.parametrize(("bed", "foot", "top"), [(DRUM, 3020, 3050), (CRADLE, 2980, 2950)])
def test_a_cut_dam_stands_on_the_face_and_ends_its_height_above(bed, foot, top):
    """Its top edge lies outside a convex face and inside a concave one."""
    (cut,) = cuts_of(curved_job(bed, on_curve="cut"), ALONG)
    assert (cut.profile.foot_radius, cut.profile.top_radius) == (foot * MM, top * MM)
    assert (cut.kind, cut.length) == ("cut", cut.profile.foot)


def test_a_dam_along_y_follows_a_bed_curved_along_y():
    """Which way the curve runs is the bed's; a dam along x is then straight."""
    bed = replace(DRUM, curved_axis="y")
    assert [cut.kind for cut in cuts_of(curved_job(bed), ACROSS, ALONG)] == ["bent", "straight"]
    assert (runs_along(curved_job(), ACROSS), runs_along(curved_job(), ALONG)) == ("y", "x")


def test_a_dam_is_as_high_as_the_thickest_panel_beside_it():
    """Without a height of its own; the material says how thick a panel is that does not."""
    job = curved_job(height=0)
    layout = replace(hand_schedule().layouts[0], panels=(LEFT, RIGHT), dams=(ACROSS,))
    panels = {each.mark: each for each in job.panels}
    thick = replace(job, panels=(panels["A1"], replace(panels["B1"], thickness=35 * MM)))
    assert dam_height(job, layout, ACROSS) == job.materials.panel.thickness
    assert dam_height(thick, layout, ACROSS) == 35 * MM
    far = dam("far", 0, 700, 1500, 25, "", None)
    assert dam_height(thick, layout, far) == job.materials.panel.thickness


def test_a_cut_dam_longer_than_its_sheet_is_parted_off_the_corners_of_panels():
    """1505 mm on the face from sheets of 800 mm: two pieces, each of which fits its sheet."""
    (cut,) = cuts_of(curved_job(on_curve="cut", stock=(600 * MM, 800 * MM)), ALONG)
    ratio = cut.profile.foot_radius / (3010 * MM)
    corners = [at * ratio for at in (100, 800, 825, 1500)]
    assert len(cut.parted_at) == 1
    assert all(abs(cut.parted_at[0] / MM - corner) >= 50 for corner in corners)
    assert sum(cut.pieces) == cut.length
    assert all(piece <= cut.profile.longest_foot(800 * MM) for piece in cut.pieces)


def test_a_dam_is_not_parted_where_corners_leave_no_place():
    """Panels of 60 mm side by side: the dam needs a longer sheet."""
    small = [place("A1", x, 440, 60, 60, "t") for x in range(0, 1500, 60)]
    job = curved_job(on_curve="cut", stock=(800 * MM,))
    (cut,) = cuts_of(job, ALONG, panels=small)
    assert cut.parted_at is None
    assert cut.pieces == (cut.length,)


@pytest.mark.parametrize(("bed", "sign"), [(DRUM, 1), (CRADLE, -1)])
def test_plumb_ends_lean_by_half_of_what_panel_and_dam_span(bed, sign):
    """Panels of 700 and 675 mm and a dam of 25 mm, on a neutral surface of 3010 or 2990 mm."""
    (cut,) = cuts_of(curved_job(replace(bed, ends="plumb")), ACROSS)
    neutral = (3000 + sign * 10) * 2
    (low,), (high,) = cut.leans
    assert low == pytest.approx(sign * math.degrees(725 / neutral))
    assert high == pytest.approx(sign * math.degrees(700 / neutral))


def test_square_ends_do_not_lean():
    """Dams across the curve then stand square to the face."""
    assert cuts_of(curved_job(), ACROSS)[0].leans == ((), ())


@given(
    st.integers(300 * MM, 20_000 * MM),
    st.integers(-200 * MM, 200 * MM),
    st.fractions(Fraction(1, 10), Fraction(3)),
)
def test_a_profile_lies_on_both_its_circles_and_in_its_sheet(radius, height, angle):
    """Ends of foot and top lie on their circles, and all of it within the sheet it is sawn from."""
    ring = Profile(radius, radius + height, angle)
    half = float(angle) / 2
    assert ring.foot == pytest.approx(radius * float(angle), abs=1)
    assert ring.top == pytest.approx((radius + height) * float(angle), abs=1)
    # The chord and the rise give the radius back: r = (c^2 / 4 + h^2) / 2 h.
    back = (ring.chord**2 / 4 + ring.rise**2) / (2 * ring.rise)
    assert back == pytest.approx(radius, rel=1e-3)
    turns = [half * (2 * part / 50 - 1) for part in range(51)]
    spots = [
        (each * math.sin(turn), each * math.cos(turn))
        for each in (radius, radius + height)
        for turn in turns
    ]
    length, depth = ring.extent
    assert max(x for x, _ in spots) - min(x for x, _ in spots) <= length + 1
    assert max(y for _, y in spots) - min(y for _, y in spots) <= depth + 1


@given(st.integers(300 * MM, 20_000 * MM), st.integers(100 * MM, 500 * MM))
def test_the_longest_foot_just_fits_its_sheet(radius, sheet):
    """A piece of that foot is as long as the sheet, to a step or two."""
    ring = Profile(radius, radius + 20 * MM, Fraction(1, 10))
    longest = ring.longest_foot(sheet)
    piece = replace(ring, angle_rad=Fraction(longest, radius))
    assert piece.extent[0] == pytest.approx(sheet, abs=2)


def with_broad_dam(**rules):
    """Return the hand-sized job and schedule with the dam above C1 40 mm wide."""
    job = hand_job()
    job = replace(job, rules=replace(job.rules, **rules))
    thick = dam("dam 1", 0, 650, 1200, 40, "east north", 50)
    return job, change_layout(job, hand_schedule(), 2, dams=(thick,))


def test_a_strip_of_another_width_is_named_in_every_list():
    """In report, cut list, the sheet's key and the strips; none is where the width is listed."""
    job, schedule = with_broad_dam(other_widths=True)
    layout = schedule.layouts[1]

    def told(job):
        key = [line for row in key_rows(job, layout, ()) for line in row.cells]
        stocked = replace(job, dams=replace(job.dams, stock=(2440 * MM,)))
        strips = report_strips(stocked, plan_strips(stocked, schedule))
        cuts = cut_table(job, layout)
        lists = [report_schedule(job, schedule), "\n".join([cuts.title, *cuts.lines])]
        return [*lists, "\n".join(key), strips]

    report, cut_list, key, strips = told(job)
    assert "Strips of other widths than the job lists: layout 2 dam 1, 40 mm wide." in report
    assert "40 (other)" in cut_list
    assert "(other): of a width the job does not list" in cut_list
    assert re.search(r"1200 . 40 \(other\)", key)
    assert "40 x " in strips
    assert "(other)" in strips
    listed = replace(job, dams=DamStock((25 * MM, 40 * MM)))
    assert [text for text in told(listed) if "other" in text.replace("others", "")] == []


def test_the_short_end_of_a_strip_runs_along_its_shorter_side():
    """20 mm of a strip 25 mm wide is no strip 20 mm wide."""
    job = hand_job()
    for width, height, axis, sides in (
        (20, 25, "x", (20, 25)),
        (25, 20, "y", (20, 25)),
        (25, 30, "y", (30, 25)),
        (20, 30, "y", (30, 20)),
        (25, 25, "x", (25, 25)),
    ):
        piece = dam("dam 1", 0, 650, width, height, "north", 50)
        assert runs_along(job, piece) == axis
        assert strip_of(job, piece) == tuple(side * MM for side in sides)
