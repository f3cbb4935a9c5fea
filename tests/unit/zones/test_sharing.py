"""What sizes in one cast ask of the strips."""

from dataclasses import replace
from itertools import combinations

import pytest
from makemotifs import MM
from motiffiles import load_motif

import nesting.zones.sharing
from nesting.zones.field import survey_motif
from nesting.zones.needs import find_need
from nesting.zones.sharing import join_needs

DAM = 20 * MM


@pytest.fixture
def motif(tmp_path):
    """Return the small motif."""
    return load_motif(tmp_path)


def needs_of(motif, *numbers, **changes):
    """Return the field and the needs of panels of the order, the last of them changed."""
    field = survey_motif(motif)
    panels = [motif.job.panels[number] for number in numbers]
    panels[-1] = replace(panels[-1], **changes)
    found = {panel: find_need(motif, field, panel) for panel in panels}
    return field, [found[panel] for panel in panels]


def test_two_sizes_in_one_cast_need_a_dam_between_them(motif):
    """330 + 20 + 310 from rim to rim: a strip of 60, where each alone takes less."""
    field, needs = needs_of(motif, 0, 1)
    pair = join_needs(field, needs, DAM)
    assert pair.marks == ("A1", "B1")
    assert pair.ways_met(motif, (60 * MM,))
    assert not pair.ways_met(motif, (60 * MM - 1,))


def test_a_size_shares_no_cast_with_itself_where_only_one_place_shows_the_wave(motif):
    """Two of B1 would both hold the wave."""
    field, needs = needs_of(motif, 1, 1)
    assert not join_needs(field, needs, DAM).is_possible


def test_three_in_one_cast_have_a_dam_between_each_two(motif):
    """302 + 20 + 60 + 20 + 302: a strip of 104, and not a step less."""
    narrow = {"width": 60 * MM, "must_show": ()}
    panels = (replace(motif.job.panels[0], width=302 * MM), replace(motif.job.panels[1], **narrow))
    motif = replace(motif, job=replace(motif.job, panels=panels))
    field, needs = needs_of(motif, 0, 1, 0)
    triple = join_needs(field, needs, DAM)
    assert triple.marks == ("A1", "B1", "A1")
    assert triple.ways_met(motif, (104 * MM,))
    assert not triple.ways_met(motif, (104 * MM - 1,))


def test_too_many_ways_are_not_gone_through(motif, monkeypatch):
    """Then nothing is known of the set."""
    monkeypatch.setattr(nesting.zones.sharing, "MOST_ROWS", 1)
    field, needs = needs_of(motif, 0, 1)
    assert join_needs(field, needs, DAM) is None


def test_three_in_a_row_ask_for_room_though_each_two_have_it(motif):
    """From rim to rim of blank ground, 230 + 20 + 150 + 20 + 190 = 610: a strip of 10 on 600."""
    liner = replace(motif.job.liner, unmarked="blank", ornaments=())
    free = {"must_show": (), "height": 360 * MM}
    panels = tuple(
        replace(motif.job.panels[0], width=width * MM, **free) for width in (230, 150, 190)
    )
    job = replace(motif.job, liner=liner, panels=panels)
    motif = replace(motif, job=job, groups=(), lay_tolerance=0)
    field = survey_motif(motif)
    needs = [find_need(motif, field, panel) for panel in panels]
    joined = join_needs(field, needs, DAM)
    assert not joined.ways_met(motif, (10 * MM - 1,))
    assert joined.ways_met(motif, (10 * MM,))
    assert all(join_needs(field, two, DAM).ways_met(motif, (0,)) for two in combinations(needs, 2))
