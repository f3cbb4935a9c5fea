"""The calendar's page: every cast with its day, whose order then rules the packet."""

from dataclasses import replace

import pytest
from packets import (
    cells,
    example_packet,
    grid,
    hand_packet,
    read_example,
    section,
    words,
)

from nesting.packets.parts import Figure
from nesting.values.shopdays import NO_DUE


@pytest.fixture(scope="module")
def page():
    """Return the ferry terminal's calendar page."""
    return section(example_packet("ferry-terminal"), "calendar")


def test_every_cast_has_its_day_and_leads_to_its_layout(page):
    """24 casts in turn, each row with its day and the ref of its layout, as often as it repeats."""
    _, schedule = read_example("ferry-terminal")
    table = grid(page, "Days")
    assert [row[1] for row in cells(table)] == [str(n) for n in range(1, 25)]
    assert all(row[0] for row in cells(table))
    assert all(row.ref == f"l{row.cells[2]}" for row in table.rows)
    layouts = [row[2] for row in cells(table)]
    assert all(layouts.count(str(each.number)) == each.repeats for each in schedule.layouts)


def test_the_chart_the_dues_and_the_haze_are_there(page):
    """The chart and its key are two drawings of different names."""
    names = [block.drawing.name for block in page.blocks if isinstance(block, Figure)]
    assert names == ["calendar-chart", "calendar-key"]
    assert [row[0] for row in cells(grid(page, "Due dates"))] == ["B1", "C1"]
    assert "judged by eye" in words(page)
    assert "no demoulding, lift, panel or hours of work are certified" in words(page)


def test_where_there_is_a_calendar_its_order_rules():
    """The sequence says so, and the mix is that of its days; else nothing is said of it."""
    packet = example_packet("ferry-terminal")
    assert "are those of the calendar page" in words(section(packet, "sequence"))
    assert words(section(hand_packet(), "sequence")) == ""
    days = grid(section(packet, "days"), "Mix for each day of the calendar")
    assert cells(days)[0][:2] == ["Mon 2026-03-02", "1"]
    assert grid(section(hand_packet(), "days"), "Mix for each day, one cast a day")


def test_a_calendar_without_due_dates_has_no_table_of_them():
    """Nothing is promised, so nothing can be late."""
    from nesting.days.plan import plan_days
    from nesting.packets.days import list_calendar

    job, schedule = read_example("ferry-terminal")
    job = replace(job, panels=tuple(replace(each, due=NO_DUE) for each in job.panels))
    bare = list_calendar(job, plan_days(job, schedule))
    with pytest.raises(ValueError, match="not enough values"):
        grid(bare, "Due dates")
