"""The overview that leads the packet: every layout small, as wide as the page."""

from dataclasses import replace

import pytest
from drawjobs import CASES, busy_case, make_layout, make_schedule
from packets import example_packet, grids

from nesting.drawings.record import Area, bounds_of
from nesting.packets.overview import list_overview
from nesting.packets.parts import Figure

pytestmark = pytest.mark.long

MM = 8000


def many(count):
    """Return a job and a schedule of so many layouts."""
    job, _ = busy_case()
    return job, make_schedule(
        job, *(make_layout(job, n, 3, 150 * MM, number=n) for n in range(1, count + 1))
    )


PAGES = {
    **{case: CASES[case] for case in ("ferry", "drum", "tall", "long", "tiny", "long mark")},
    **{f"{count} layouts": lambda count=count: many(count) for count in (1, 8, 30)},
}


def drawings(section):
    """Return the drawings of the page."""
    return [block.drawing for block in section.blocks if isinstance(block, Figure)]


@pytest.mark.parametrize("page", PAGES)
def test_every_layout_has_a_cell_that_lies_on_the_page(page):
    """Rows are as wide as the page and low enough to be printed true; no shape leaves them."""
    job, schedule = PAGES[page]()
    rows = drawings(list_overview(job, schedule))
    assert sum(len(row.layers) for row in rows) == 1 + len(schedule.layouts)
    for row in rows:
        room = bounds_of(row.shapes)
        assert row.width == 186
        assert row.height <= 64
        assert min(room.x0, room.y0) >= -0.6
        assert room.x1 <= row.width + 0.6
        assert room.y1 <= row.height + 0.6
        assert min(text.height for text in row.texts) >= 2.5


def test_few_layouts_are_drawn_larger():
    """One stands beside the liner at half the page's width, many at a third."""
    wide = []
    for count in (1, 30):
        row, *_ = drawings(list_overview(*many(count)))
        (liner, *_) = (s for s in row.shapes if isinstance(s, Area) and s.style == "liner")
        wide.append(bounds_of([liner]).width)
    assert wide[0] > 80
    assert 50 < wide[1] < 60


def test_numbers_of_small_panels_are_listed():
    """A table tells what each number stands for; where all marks go in there is none."""
    job, schedule = CASES["crowded"]()
    (table,) = grids(list_overview(job, schedule))
    words = {text.words for row in drawings(list_overview(job, schedule)) for text in row.texts}
    assert {row.cells[0] for row in table.rows} <= words
    marks = {panel.mark for panel in schedule.layouts[0].panels}
    assert marks - words == {row.cells[1] for row in table.rows}
    assert grids(list_overview(*CASES["ferry"]())) == []


def test_the_overview_leads_the_packet():
    """It is the first page, with the result on top."""
    first = example_packet("ferry-terminal").sections[0]
    assert first.ref == "overview"
    assert "24 casts" in first.blocks[0].text


def test_names_of_the_drawings_differ():
    """Rows are told apart by the names of their drawings."""
    job, schedule = many(8)
    names = [row.name for row in drawings(list_overview(job, replace(schedule, notes=())))]
    assert len(set(names)) == len(names) > 2
