"""Masking layouts: everything measured, named and explained, and no text on another."""

# ruff: noqa: RUF001 - the multiplication sign stands in sizes

from dataclasses import replace
from itertools import combinations

import pytest
from drawjobs import CASES, drawn
from ferry import MM, make_drum_job, make_drum_schedule, make_ferry_job, make_ferry_schedule
from longcases import leave_long

from nesting.drawings.figures import length_figure, size_figure
from nesting.drawings.lettering import clean
from nesting.drawings.masking import draw_layout
from nesting.drawings.record import Area, Line, Rect, Text
from nesting.schedules.cuts import dam_cuts

pytestmark = pytest.mark.long


def layer(drawing, name):
    """Return the shapes of one layer."""
    return next(layer.shapes for layer in drawing.layers if layer.name == name)


def words(drawing, *names):
    """Return the words of all texts, or of those of some layers."""
    shapes = [shape for name in names for shape in layer(drawing, name)] if names else drawing.texts
    return [shape.words for shape in shapes if isinstance(shape, Text)]


def ferry_words(**changes):
    """Return the words on the drawing of the ferry job's layout, changed a little."""
    schedule = make_ferry_schedule()
    layout = replace(schedule.layouts[0], **changes)
    return words(draw_layout(make_ferry_job(), schedule, layout))


@pytest.mark.long
@pytest.mark.parametrize("case", leave_long(CASES, {"crowded", "narrow"}.__contains__))
def test_no_text_overlaps_another(case):
    """On the safe side of any usual face, no two texts meet."""
    texts = drawn(case)[2].texts
    pairs = combinations(texts, 2)
    assert [(a.words, b.words) for a, b in pairs if a.rect.overlaps(b.rect)] == []


@pytest.mark.long
@pytest.mark.parametrize("case", CASES)
def test_no_shape_leaves_the_sheet(case):
    """Every text lies within the frame, every other shape on the paper."""
    drawing = drawn(case)[2]
    paper = Rect(0, 0, drawing.width, drawing.height)
    spots = [
        spot
        for shape in drawing.shapes
        if not isinstance(shape, Text)
        for ring in (shape.rings if isinstance(shape, Area) else [shape.points])
        for spot in ring
    ]
    assert all(paper.grown(-10).holds(text.rect) for text in drawing.texts)
    assert all(paper.holds(Rect(*spot, *spot)) for spot in spots)


@pytest.mark.parametrize("case", CASES)
def test_text_reads_at_arm_s_length(case):
    """Capitals are 3.5 mm high, 2.5 in key and strip; the paper is A3 or 11 x 17 in for most."""
    drawing = drawn(case)[2]
    for each in drawing.layers:
        least = 2.5 if each.name in ("key", "strip") else 3.5
        assert all(text.height >= least for text in each.shapes if isinstance(text, Text))
    if case not in ("crowded", "narrow", "countless"):
        assert max(drawing.width, drawing.height) <= 432


@pytest.mark.parametrize("case", CASES)
def test_every_dam_face_has_its_figure(case):
    """Beside the liner stands the figure of every dam face along x and along y."""
    job, layout, drawing = drawn(case)
    shapes = layer(drawing, "dimensions")
    across = {shape.words for shape in shapes if isinstance(shape, Text) and shape.upright}
    up = {shape.words for shape in shapes if isinstance(shape, Text) and not shape.upright}
    for dam in layout.dams:
        for found, faces in ((across, (dam.box.x0, dam.box.x1)), (up, (dam.box.y0, dam.box.y1))):
            for face in faces:
                assert length_figure(face, job) in found


@pytest.mark.parametrize("case", CASES)
def test_leaders_of_figures_never_cross(case):
    """Leaders of one row keep their order from the rim to the figures."""
    shapes = layer(drawn(case)[2], "dimensions")
    leaders = [s.points for s in shapes if isinstance(s, Line) and s.style == "leader"]
    rows = {}
    for points in leaders:
        along = 0 if points[0][0] == points[1][0] else 1
        rows.setdefault((along, points[0][1 - along]), []).append(
            (points[0][along], points[-1][along])
        )
    assert len(rows) >= 2
    for row in rows.values():
        assert [end for _, end in sorted(row)] == sorted(end for _, end in row)


@pytest.mark.parametrize("case", [case for case in CASES if case != "long mark"])
def test_every_dam_and_every_panel_is_named(case):
    """Each dam's name and panel's mark stand on the drawing, each panel's size there or listed."""
    job, layout, drawing = drawn(case)
    names = words(drawing, "names")
    everywhere = " ".join(words(drawing, "names", "key"))
    for dam in dam_cuts(job, layout):
        assert dam.name in names
        kind = "bent " if dam.profile else ""
        assert f"{dam.name}: {kind}{size_figure(dam.length, dam.width, job)}" in everywhere
    for panel in layout.panels:
        mark = clean(panel.mark) + "*" * panel.turned
        assert any(name == mark or name.startswith(f"{mark}: ") for name in names)
        assert size_figure(panel.width, panel.height, job) in everywhere


def test_marks_too_long_to_write_keep_what_tells_them_apart():
    """Of two marks of 59 letters both ends are written, and the key lists them with their sizes."""
    _, layout, drawing = drawn("long mark")
    names = [name for name in words(drawing, "names") if name.startswith("ww")]
    assert len(set(names)) == len(layout.panels) == 2
    assert {name[-1] for name in names} == {"0", "1"}
    assert len([row for row in words(drawing, "key") if row.startswith("ww")]) == 2


@pytest.mark.parametrize("case", CASES)
def test_no_name_covers_a_dam_but_its_own(case):
    """Panel marks and ornament names keep off every dam; a dam's name may stand on its own."""
    _, _, drawing = drawn(case)
    dams = [
        Rect(*s.rings[0][0], *s.rings[0][2]) for s in layer(drawing, "dams") if s.style == "dam"
    ]
    for text in (shape for shape in layer(drawing, "names") if isinstance(shape, Text)):
        met = [dam for dam in dams if text.rect.overlaps(dam)]
        assert met == [] or (len(met) == 1 and met[0].holds(text.rect))


def test_the_ferry_layout_by_hand():
    """The strip, the figures and the names of the smallest job, word for word."""
    _, _, drawing = drawn("ferry")
    assert words(drawing, "strip") == [
        "Ferry terminal, waiting hall",
        "Layout 1 of 1",
        "Cast 7 times",
        "Liner reeds, 2400 × 1200 mm",
        "Seen from above, face down",
        "Bed table, flat",
        "Idle 53.1 %",
        "50 mm on paper, 335 mm on the liner",
        "Scale 1:6.7 on A3",
        "Figures in mm",
    ]
    assert words(drawing, "dimensions") == [
        "0", "1500", "1525", "2400", "0", "900", "925", "1200", "0,0",
    ]  # fmt: skip
    assert sorted(words(drawing, "names")) == ["1500 × 900", "A1", "dam 1", "dam 2", "heron"]


def test_panel_edges_are_bold():
    """Of the figures of the ferry layout those where panel A1 ends are bold."""
    texts = [s for s in layer(drawn("ferry")[2], "dimensions") if isinstance(s, Text)]
    bold = [text.words for text in texts if text.style == "bold"]
    assert bold == ["0", "1500", "0", "900", "0,0"]


def test_proportions_are_true():
    """At 1:6.7 panel A1 is 1500/6.7 x 900/6.7 mm, with its corner on the datum."""
    _, _, drawing = drawn("ferry")
    (panel,) = (shape for shape in layer(drawing, "ground") if shape.style == "panel")
    (x0, y0), _, (x1, y1), _ = panel.rings[0]
    assert (x1 - x0, y1 - y0) == pytest.approx((1500 / 6.7, 900 / 6.7), abs=0.002)
    (datum,) = (s for s in layer(drawing, "dimensions") if getattr(s, "style", "") == "datum")
    assert datum.rings[0][0] == (x0, y0)


def test_an_inch_job_shows_fractions():
    """Figures of an inch job stand in inches alone, and the strip says so."""
    job, schedule = make_drum_job(), make_drum_schedule()
    found = words(draw_layout(job, schedule, schedule.layouts[0]))
    assert {"96", "31", "59 7/8", "Figures in inches"} <= set(found)
    assert not [each for each in found if "mm" in each]


def test_a_curved_bed_is_named_and_warned_of():
    """On a curved bed the drawing says what is marked flat, set there and measured there."""
    found = words(drawn("drum")[2])
    assert "Bed drum, convex, R 120 in along x" in found
    said = " ".join(found)
    assert "marked on the liner lying flat; dams are set once it lies on bed drum" in said
    assert (
        "To measure on the bed, in B2: 60 x 30 along the face, diagonals over it 67 5/64 full"
        in said
    )


def test_kept_dams_turned_panels_and_used_tolerance_are_noted():
    """The notes tell what the maker must know before laying a dam."""
    notes = " ".join(words(drawn("odd")[2], "key"))
    assert "Dams stay as in layout 1; mask every hatched bay." in notes
    assert "* after a mark: turned half round." in notes
    assert '<P&1">: size within tolerance, width -2 mm, height 0 mm.' in notes


def test_one_cast_is_cast_once():
    """A layout without repeats says so in words."""
    assert "Cast once" in ferry_words(repeats=1)
    assert "Cast 7 times" in ferry_words()


def test_a_bed_named_after_its_form_is_named_once():
    """The bed everyone has, flat and named flat, is not called flat twice."""
    job = make_ferry_job()
    job = replace(job, beds=(replace(job.beds[0], name="flat"),))
    layout = replace(make_ferry_schedule().layouts[0], bed="flat")
    assert "Bed flat" in words(draw_layout(job, make_ferry_schedule(), layout))


@pytest.mark.long
def test_many_ornaments_bear_no_names():
    """Beyond sixty ornaments their outlines are drawn and their names left out."""
    job, _, drawing = drawn("strewn")
    assert len(layer(drawing, "relief")) == len(job.liner.ornaments) == 400
    assert not [name for name in words(drawing, "names") if name.startswith(("leaf", "disc"))]


def test_moving_a_dam_moves_its_figure_and_nothing_is_decided():
    """The drawing shows what the layout says, also where that breaks a rule."""
    dam = replace(make_ferry_schedule().layouts[0].dams[0], x=333 * MM)
    found = ferry_words(dams=(dam,))
    assert {"333", "358"} <= set(found)
