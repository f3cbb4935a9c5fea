"""The packet: every panel, layout and caution is there, and its totals are the schedule's."""

import re
from dataclasses import replace
from itertools import chain

import pytest
from packets import cells, example_packet, grid, hand_packet, read_example, section, words

from nesting.amounts.quantities import reckon_quantities
from nesting.packets.contents import make_packet
from nesting.schedules.cautions import CAUTIONS, NOT_CERTIFIED, RULE


@pytest.fixture(scope="module")
def ferry():
    """Return the ferry terminal's packet."""
    return example_packet("ferry-terminal")


def test_sections_stand_in_the_order_of_the_work():
    """Overview, order, casts, how to read, each layout, faces, weights and what follows."""
    refs = [each.ref for each in hand_packet().sections]
    assert refs == [
        *("overview", "order", "sequence", "work", "l1", "l2"),
        *("faces", "weights", "days", "beds", "cautions", "proof"),
    ]


def test_a_calendar_stands_after_the_days(ferry):
    """Its page comes with it."""
    refs = [each.ref for each in ferry.sections]
    assert refs[refs.index("days") + 1] == "calendar"


def test_the_order_is_told_whole_with_what_is_cast_of_it(ferry):
    """Each mark with its quantity; ordered and cast agree, and both total 49."""
    job, schedule = read_example("ferry-terminal")
    *rows, total = cells(grid(section(ferry, "order"), "Panels ordered"))
    assert [(row[0], int(row[4])) for row in rows] == [(p.mark, p.quantity) for p in job.panels]
    assert {row[0]: int(row[5]) for row in rows} == schedule.panels
    assert total == ["all", "", "", "", "49", "49", ""]


def test_the_sequence_counts_every_cast_once(ferry):
    """Each number once, those of the calendar's casts, each row tied to its layout's page."""
    _, schedule = read_example("ferry-terminal")
    table = grid(section(ferry, "sequence"), "Casts in sequence")
    told = [list_casts(row[0]) for row in cells(table)]
    assert sorted(chain(*told)) == list(range(1, schedule.casts + 1))
    assert [len(casts) for casts in told] == [each.repeats for each in schedule.layouts]
    times = grid(section(ferry, "calendar"), "Days, times")
    at, layout = times.head.index("cast"), times.head.index("layout")
    by_day = {(int(row[layout]), int(row[at])) for row in cells(times)}
    assert by_day == {(n, cast) for n, casts in enumerate(told, start=1) for cast in casts}
    assert [row.ref for row in table.rows] == [f"l{each.number}" for each in schedule.layouts]


def test_without_a_calendar_casts_are_counted_layout_by_layout():
    """The boxes to tick bear the same numbers as the sequence and the page's first line."""
    packet = hand_packet()
    table = grid(section(packet, "sequence"), "Casts in sequence")
    assert [row[0] for row in cells(table)] == ["1", "2"]
    assert "Cast 2 of 2, on bed" in words(section(packet, "l2"))


def list_casts(words):
    """Return the numbers of casts told as ``1 to 3, 7``."""
    runs = [[int(end) for end in run.split(" to ")] for run in words.split(", ")]
    return [cast for run in runs for cast in range(run[0], run[-1] + 1)]


def test_each_layout_has_its_page(ferry):
    """Eight layouts, eight pages."""
    pages = [each.ref for each in ferry.sections if re.fullmatch(r"l\d+", each.ref)]
    assert pages == [f"l{number}" for number in range(1, 9)]


def test_the_cautions_are_told_whole():
    """Every paragraph of every caution, and what stands above them."""
    text = words(section(hand_packet(), "cautions"))
    paragraphs = [each for caution in CAUTIONS for each in (caution.name, *caution.paragraphs)]
    assert text.splitlines() == [RULE, NOT_CERTIFIED, *paragraphs]


def test_the_haze_window_is_told_as_judged_by_eye():
    """The figures are common practice without a source, and say so."""
    text = words(section(hand_packet(), "work"))
    assert "20 to 40 minutes" in text
    assert "judged by eye" in text
    assert text.count("common practice, no source") == 2


def test_notes_and_warnings_stand_on_the_first_page():
    """A relief whose side is not stated is warned of before anybody casts."""
    from handjob import hand_schedule
    from quantityjobs import make_job

    job, schedule = make_job(on_panel=""), hand_schedule()
    packet = make_packet(job, schedule, reckon_quantities(job, schedule))
    assert "Warning: on_panel is not stated for: heron." in words(section(packet, "order"))


def test_weights_end_with_all_casts(ferry):
    """The table of casts and that of days both end with the order's total."""
    casts = cells(grid(section(ferry, "weights"), "Panels of a cast"))
    assert casts[-1][:2] == ["all casts", "24"]
    assert casts[-1][4] == "1627.4"
    days = cells(grid(section(ferry, "days"), "Mix for each day"))
    assert days[-1][0] == "all days"
    assert days[-1][-1] == "1790.94"


def test_what_the_drawings_show_is_told_and_nothing_else(ferry):
    """No panel of the example is turned and no place kept clear; with them both are told."""
    told = {row[1]: row[0] for row in cells(grid(section(ferry, "work"), "What the drawings"))}
    assert "a blank zone" in told
    assert "the panel is turned half round" not in told
    assert "a place that dams keep off" not in told
    job, schedule = read_example("garden-court")
    layouts = [
        replace(each, panels=tuple(replace(panel, turned=True) for panel in each.panels))
        for each in schedule.layouts
    ]
    schedule = replace(schedule, layouts=tuple(layouts))
    packet = make_packet(job, schedule, reckon_quantities(job, schedule))
    told = {row[1] for row in cells(grid(section(packet, "work"), "What the drawings"))}
    assert "the panel is turned half round" in told
    assert "a blank zone" not in told
