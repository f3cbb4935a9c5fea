"""The overview: the liner and every layout, small, side by side."""

# ruff: noqa: RUF001 - the multiplication sign stands in sizes

from dataclasses import replace
from itertools import combinations

import pytest
from drawjobs import CASES, busy_case, make_layout, make_schedule
from ferry import MM, make_ferry_job, make_ferry_schedule, make_unproved_schedule

from nesting.drawings.overview import draw_overview
from nesting.drawings.record import Area, Text


def many(count):
    """Return a job and a schedule of so many layouts."""
    job, _ = busy_case()
    layouts = [make_layout(job, n, 3, 150 * MM, number=n) for n in range(1, count + 1)]
    return job, make_schedule(job, *layouts)


OVERVIEWS = {
    **{case: CASES[case] for case in ("ferry", "drum", "odd", "long", "tall", "tiny", "long mark")},
    **{f"{count} layouts": lambda count=count: many(count) for count in (3, 12, 40)},
}


def words(drawing):
    """Return the words of all texts."""
    return [text.words for text in drawing.texts]


@pytest.mark.long
@pytest.mark.parametrize("case", OVERVIEWS)
def test_texts_lie_on_the_sheet_and_apart(case):
    """Whatever the liner and however many layouts, no text meets another or leaves the sheet."""
    drawing = draw_overview(*OVERVIEWS[case]())
    rects = [text.rect for text in drawing.texts]
    assert all(
        rect.x0 > 10
        and rect.y0 > 10
        and rect.x1 < drawing.width - 10
        and rect.y1 < drawing.height - 10
        for rect in rects
    )
    assert not any(a.overlaps(b) for a, b in combinations(rects, 2))
    assert min(text.height for text in drawing.texts) >= 2.5


@pytest.mark.long
@pytest.mark.parametrize("case", OVERVIEWS)
def test_the_liner_and_every_layout_have_a_cell(case):
    """One cell shows the bare liner, then comes one per layout, all at one scale and apart."""
    job, schedule = OVERVIEWS[case]()
    cells = [
        layer for layer in draw_overview(job, schedule).layers if layer.name.startswith("cell")
    ]
    assert len(cells) == 1 + len(schedule.layouts)
    liners = [
        next(shape for shape in cell.shapes if isinstance(shape, Area) and shape.style == "liner")
        for cell in cells
    ]
    xs = [tuple(x for x, _ in liner.rings[0]) for liner in liners]
    assert len({round(max(each) - min(each), 2) for each in xs}) == 1
    places = [
        (min(each), max(y for _, y in liner.rings[0]))
        for each, liner in zip(xs, liners, strict=True)
    ]
    assert places == sorted(places, key=lambda place: (-place[1], place[0]))
    assert len(set(places)) == len(places)
    panels = [sum(getattr(s, "style", "") == "panel" for s in cell.shapes) for cell in cells]
    assert panels == [0, *(len(layout.panels) for layout in schedule.layouts)]


def test_the_ferry_overview_by_hand():
    """Every word of the smallest overview."""
    assert words(draw_overview(make_ferry_job(), make_ferry_schedule())) == [
        "Liner reeds",
        "2400 × 1200 mm",
        "A1",
        "Layout 1",
        "7 casts, idle 53.1 %, table",
        "Panel and its mark",
        "Dam",
        "Masked, not sprayed",
        "Ornament",
        "Blank zone",
        "Rim of the liner",
        "Ferry terminal, waiting hall",
        "Overview",
        "7 casts",
        "Liner reeds",
        "1 set of dams, 1 layout",
        "Idle 53.1 %",
        "Seen from above, face down",
        "7 casts, proved fewest",
        "50 mm on paper, 450 mm on the liner",
        "Scale 1:9 on A3",
    ]


def test_what_is_not_proved_is_not_called_proved():
    """Where the bound stays below the casts the overview gives the bound."""
    found = words(draw_overview(make_ferry_job(), make_unproved_schedule()))
    assert "7 casts, at least 6 needed" in found
    assert not [each for each in found if "proved" in each]


def test_a_layout_that_keeps_dams_says_whose():
    """The caption of a layout with another's dams names that layout."""
    schedule = make_ferry_schedule()
    kept = replace(schedule.layouts[0], number=2, repeats=1, same_dams_as=1)
    found = words(
        draw_overview(make_ferry_job(), replace(schedule, layouts=(*schedule.layouts, kept)))
    )
    assert {"Layout 2, dams of 1", "1 cast, idle 53.1 %, table", "1 set of dams, 2 layouts"} <= set(
        found
    )


def test_a_schedule_without_casts_shows_the_liner():
    """Of no layouts the overview is the bare liner."""
    job = make_ferry_job()
    drawing = draw_overview(job, make_schedule(job))
    assert "No casts" in words(drawing)
    assert sum(layer.name.startswith("cell") for layer in drawing.layers) == 1


@pytest.mark.long
def test_more_layouts_take_larger_paper_and_then_more_height():
    """Twelve layouts fit A3, forty take larger paper; the liner stays at least 55 mm long."""
    sheets = [draw_overview(*many(count)) for count in (3, 12, 40)]
    widths = [drawing.width for drawing in sheets]
    assert widths == [420, 297, 841]
    for drawing in sheets:
        liner = next(s for s in drawing.shapes if isinstance(s, Area) and s.style == "liner")
        assert max(x for x, _ in liner.rings[0]) - min(x for x, _ in liner.rings[0]) >= 55


def test_captions_stand_above_their_cell():
    """Head and line of a caption lie above the liner they speak of."""
    drawing = draw_overview(make_ferry_job(), make_ferry_schedule())
    for cell in (layer for layer in drawing.layers if layer.name.startswith("cell")):
        liner = next(s for s in cell.shapes if isinstance(s, Area) and s.style == "liner")
        captions = [s for s in cell.shapes if isinstance(s, Text)][-2:]
        assert all(text.rect.y0 > max(y for _, y in liner.rings[0]) for text in captions)
