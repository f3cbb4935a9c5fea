"""The chart of sizes: what is drawn, and that nothing covers anything else."""

from dataclasses import replace
from itertools import combinations

import pytest
from handjob import MM, change_panel, hand_job, rect, slanted_job

from nesting.drawings.record import Area, Line, Rect, bounds_of
from nesting.drawings.svg import to_svg
from nesting.fitting.rangechart import draw_range
from nesting.maps.ground import survey
from nesting.maps.sizeregion import list_ordered, map_region
from nesting.values.bend import bend_of
from nesting.values.liner import BlankZone


def draw(job):
    """Return the chart of the job's one bed."""
    bed = job.beds[0]
    return draw_range(
        job,
        map_region(survey(job.liner, job.rules)),
        bed.name,
        list_ordered(job, bend_of(job, bed.name)),
    )


def layer(drawing, name):
    """Return the shapes of one layer."""
    return next(layer.shapes for layer in drawing.layers if layer.name == name)


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("make", [hand_job, slanted_job])
def test_words_lie_on_the_sheet_and_cover_no_others(make, units):
    """No two texts overlap, and all lie within the frame."""
    drawing = draw(replace(make(), units=units))
    sheet = Rect(10, 10, drawing.width - 10, drawing.height - 10)
    rects = [text.rect for text in drawing.texts]
    assert len(rects) > 20
    assert [text.words for text in drawing.texts if not sheet.holds(text.rect)] == []
    assert not any(one.overlaps(other) for one, other in combinations(rects, 2))


def test_areas_have_the_tint_of_their_dams():
    """Four areas need two dams and one needs three; lines and the whole liner are strokes."""
    drawing = draw(hand_job())
    tints = [shape.style for shape in layer(drawing, "sizes")]
    assert sorted(tints) == ["dams_2"] * 4 + ["dams_3"]
    lines = [shape for shape in layer(drawing, "lines") if isinstance(shape, Line)]
    assert {line.style for line in lines} == {"only"}
    assert len(lines) == 5
    (point,) = [shape for shape in layer(drawing, "lines") if isinstance(shape, Area)]
    assert point.style == "datum"


def test_possible_sizes_are_hatched_below_certain_ones():
    """The hatch comes first, so that no certain size is covered; the key tells what it means."""
    drawing = draw(slanted_job())
    tints = [shape.style for shape in layer(drawing, "sizes")]
    assert tints[0] == "untried"
    assert tints.index("dams_2") > tints.count("untried") - 1
    words = [text.words for text in drawing.texts]
    assert "Most dams needed" in words
    assert "possible: try with fit" in words
    assert "url(#range-hatch)" in to_svg(drawing)


def test_ledges_are_named_in_the_units_of_the_job():
    """835 mm is the greatest width west of the east zone; in inches 32 7/8."""
    assert "835: rim to zone 'east'" in [text.words for text in draw(hand_job()).texts]
    words = [text.words for text in draw(replace(hand_job(), units="in")).texts]
    assert "32 7/8: rim to zone 'east'" in words
    assert "width of the face, in" in words


def test_no_name_of_a_ledge_breaks_an_axis():
    """A short ledge at the left has its name beside the upright axis, whose line stays whole."""
    job = replace(hand_job(), units="in")
    west = BlankZone("west", rect(0, 0, 100, 700))
    drawing = draw(replace(job, liner=replace(job.liner, zones=(west,))))
    (name,) = [text for text in drawing.texts if text.words == "26 37/64 scant: rim to zone 'west'"]
    axis = layer(drawing, "axes")[0].points
    plates = [shape for shape in layer(drawing, "names") if isinstance(shape, Area)]
    assert 0 < name.rect.x0 - axis[1][0] < 2
    assert min(bounds_of([plate]).x0 for plate in plates) > axis[1][0]
    assert min(bounds_of([plate]).y0 for plate in plates) > axis[1][1]


def test_sizes_of_the_order_are_filled_where_they_have_a_place():
    """C1, 700 high, has none: its mark is open and the key says so."""
    drawing = draw(change_panel(hand_job(), "C1", height=700 * MM))
    marks = [shape.style for shape in layer(drawing, "order") if isinstance(shape, Area)]
    assert marks.count("bar") == 2
    assert marks.count("gap") == 1
    assert "C1 1200 x 700, no place" in " ".join(" ".join(t.words for t in drawing.texts).split())


def test_a_long_order_is_told_whole():
    """Of sixty sizes the key tells every one."""
    job = hand_job()
    panels = tuple(replace(job.panels[0], mark=f"A{n}") for n in range(60))
    words = " ".join(text.words for text in draw(replace(job, panels=panels)).texts)
    assert all(f"A{n} " in words for n in range(60))
