"""The packet's calendar page: the chart of the days, the times of every cast, the due dates."""

from dataclasses import replace

from nesting.days.chart import draw_calendar, draw_calendar_key
from nesting.days.report import (
    NOT_CERTIFIED,
    due_table,
    times_table,
    write_aims,
    write_hazes,
    write_result,
)
from nesting.packets.figure import PAGE_WIDTH, crop
from nesting.packets.parts import Block, Figure, Section, Words, grid_of
from nesting.values.calendar import CastCalendar
from nesting.values.job import Job

_KEY_WIDTH = 1.2 * PAGE_WIDTH  # its words are then 2 mm high on the page
CALENDAR = "calendar"
"""The ref of the page."""


def list_calendar(job: Job, calendar: CastCalendar) -> Section:
    """Return the page of a calendar."""
    drawing = replace(draw_calendar(job, calendar), name="calendar-chart")
    chart = Figure(crop(drawing, ("sheet", "key", "strip")))
    key = Figure(crop(draw_calendar_key(job, calendar, _KEY_WIDTH), ()))
    times = times_table(job, calendar)
    days = [row[0] for row in times.rows]
    for at, day in enumerate(days):
        days[at] = day or days[at - 1]  # every row names its day, for a page may part them
    rows = [[day, *row[1:]] for day, row in zip(days, times.rows, strict=True)]
    blocks: list[Block] = [
        Words(write_result(calendar), "strong"),
        *(Words(f"Note: {note}", "note") for note in calendar.notes),
        chart,
        key,
        grid_of(times._replace(rows=rows), refs=[f"l{cast.layout}" for cast in calendar.casts]),
        *(Words(text) for text in write_hazes(job)),
    ]
    if calendar.dues:
        blocks.append(grid_of(due_table(calendar)))
    blocks += [Words(write_aims(job, calendar)), Words(NOT_CERTIFIED, "note")]
    return Section(CALENDAR, "Calendar", tuple(blocks))
