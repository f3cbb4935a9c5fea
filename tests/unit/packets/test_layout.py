"""A layout's page: every dam and panel with its place, what to mask, to mix and to tick."""

from dataclasses import replace

import pytest
from ferry import make_drum_job, make_drum_schedule
from handjob import hand_schedule
from packets import cells, example_packet, figure, flat, grid, read_example, section, words
from quantityjobs import make_job

from nesting.amounts.quantities import reckon_quantities
from nesting.packets.contents import make_packet
from nesting.packets.layout import list_tasks, list_ticks, masked_bays
from nesting.packets.parts import Ticks
from nesting.values.shopdays import Times


@pytest.fixture(scope="module")
def ferry():
    """Return the ferry terminal's packet."""
    return example_packet("ferry-terminal")


def test_every_dam_is_in_the_set_out_and_in_the_cut_list(ferry):
    """Layout 1: four dams, each where the schedule has it; the lengths total 4140 mm."""
    page = section(ferry, "l1")
    places = cells(grid(page, "Dams, set-out"))
    assert places[0] == ["dam 1", "1500", "1525", "0", "900", "225"]
    table = grid(page, "Dams to cut")
    assert cells(table)[:2] == [
        ["dam 1", "1", "900", "25", "19", "y", "east, north"],
        ["dam 2", "2", "890", "25", "19", "y", "east, north"],
    ]
    assert sum(int(row[2]) for row in cells(table)) == 4140
    assert "4140 of strip" in table.title


def test_every_dam_and_mark_of_every_layout_is_told(ferry):
    """Names, marks and refs of tables and drawing agree, layout by layout."""
    _, schedule = read_example("ferry-terminal")
    for layout in schedule.layouts:
        page = section(ferry, f"l{layout.number}")
        dams, panels = grid(page, "Dams, set-out"), grid(page, "Panels, set-out")
        marks = grid(page, "Marks to cast")
        assert [row[0] for row in cells(dams)] == [dam.name for dam in layout.dams]
        assert [row[0] for row in cells(panels)] == [panel.mark for panel in layout.panels]
        assert [row[0].split(" (")[0] for row in cells(marks)] == [p.mark for p in layout.panels]
        refs = [row.ref for table in (panels, dams) for row in table.rows]
        assert refs == [spot.ref for spot in figure(page).spots]


def test_every_page_says_that_its_drawing_is_seen_from_above(ferry):
    """Faces on a page of their own are seen from the front."""
    for number in range(1, 9):
        assert "Seen from above, face down. " in words(section(ferry, f"l{number}"))


def test_panels_of_several_kinds_are_told_apart_where_they_are_cast(ferry):
    """Layout 3 casts both kinds of A2: with and without the young heron."""
    marks = cells(grid(section(ferry, "l3"), "Marks to cast"))
    assert [row[0] for row in marks] == ["A2 (1)", "A2 (2)", "A3"]


def test_pieces_of_all_pages_are_the_order(ferry):
    """What the pages say is cast adds up to the schedule's panels."""
    job, schedule = read_example("ferry-terminal")
    counts = {panel.mark: 0 for panel in job.panels}
    for layout in schedule.layouts:
        for row in cells(grid(section(ferry, f"l{layout.number}"), "Marks to cast")):
            counts[row[0].split(" (")[0]] += int(row[2])
    assert counts == schedule.panels


def test_dams_that_stay_are_not_cut_again(ferry):
    """Layout 2 keeps those of layout 1 and masks the bay of A3."""
    page = section(ferry, "l2")
    assert "The dams stay as in layout 1: nothing is cut or moved." in words(page)
    assert "of their bays these are masked: A3 at (1600, 0)." in words(page)
    with pytest.raises(ValueError, match="not enough values"):
        grid(page, "Dams to cut")
    _, schedule = read_example("ferry-terminal")
    assert [panel.mark for panel in masked_bays(schedule, schedule.layouts[1])] == ["A3"]
    assert masked_bays(schedule, schedule.layouts[0]) == []


def test_masked_ground_is_that_of_the_area_account(ferry):
    """0.7145 m2 in layout 1."""
    assert "hatched in the drawing: 0.7145 m2 in each cast." in words(section(ferry, "l1"))


def test_batches_are_those_of_one_cast_on_their_side(ferry):
    """A column for each mix: 14.30 kg of cement in each of two backing batches."""
    table = grid(section(ferry, "l1"), "Batches of one cast, in kg")
    rows = {row[0]: row[1:] for row in cells(table)}
    assert table.head == ("mix", "face coat", "backing")
    assert rows["batches"] == ["1", "2"]
    assert rows["cement"] == ["7.45", "14.30"]
    assert "81.6 kg (179.9 lb) wet" in table.title


def test_an_inch_job_reads_fractions():
    """A length stands once, as the tape reads it."""
    job, schedule = make_drum_job(), make_drum_schedule()
    page = section(make_packet(job, schedule, reckon_quantities(job, schedule)), "l1")
    places = grid(page, "Dams, set-out in inches")
    assert [row.ref for row in places.rows] == ["l1-d1", "l1-d2"]
    assert cells(grid(page, "Dams to cut"))[0][1:5] == ["straight", "31", "31", "1"]
    assert "radius 120 in along x" in words(page)


def test_haze_and_cover_are_those_of_the_job():
    """Each step and the page on casting tell the job's own times."""
    job, schedule = make_job(), hand_schedule()
    own = replace(job, shop=replace(job.shop, times=Times(haze=(10, 25), cover=20 * 60 + 30)))
    steps = list_tasks(own, schedule.layouts[0])
    assert "Wait until it hazes: some 10 to 25 min, judged by eye." in steps
    assert "Cover it for at least 20 h 30 min." in steps
    assert "Cover it for at least 16 h." in list_tasks(job, schedule.layouts[0])
    work = words(section(make_packet(own, schedule, reckon_quantities(own, schedule)), "work"))
    assert "some 10 to 25 minutes" in work
    assert "Cover: at least 20 h 30 min from the backing to demoulding" in work


def test_a_liner_without_dams_says_so():
    """The rim alone stops the spray; there is no table without rows."""
    job, schedule = make_job(), hand_schedule()
    bare = replace(schedule.layouts[0], dams=())
    assert list_tasks(job, bare)[0] == "Clean the liner and look it over."
    told = make_packet(
        job,
        replace(schedule, layouts=(bare,)),
        reckon_quantities(job, replace(schedule, layouts=(bare,))),
    )
    assert "No dam: the rim stops the spray on every side." in words(section(told, "l1"))


@pytest.mark.parametrize(("repeats", "columns"), [(1, [1]), (8, [8]), (9, [8, 1]), (20, [8, 8, 4])])
def test_every_cast_has_its_boxes(repeats, columns):
    """A table of boxes holds eight casts; the numbers run on over the tables."""
    ticks = list(list_ticks(range(1, repeats + 1), ("spray",)))
    assert [len(each.columns) for each in ticks] == columns
    numbers = [int(cast) for each in ticks for cast in each.columns]
    assert numbers == list(range(1, repeats + 1))


def test_the_steps_of_a_cast_are_in_turn(ferry):
    """On a curved bed dams are set once the liner lies there; haze before the backing."""
    (ticks,) = [block for block in flat(section(ferry, "l4").blocks) if isinstance(block, Ticks)]
    text = "\n".join(ticks.tasks)
    order = [
        "mark on it from the datum corner the faces of dam 1, dam 2",
        "bed 'drum', bent",
        "Set dam 1, dam 2 on the marks",
        "Measure every panel on the bed",
        "Mask",
        "face coat, 4 mm",
        "hazes",
        "backing",
    ]
    assert sorted(order, key=text.index) == order
    assert "judged by eye" in text
    assert ticks.columns == ("10", "12", "14", "16")
