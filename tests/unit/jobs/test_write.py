"""A job and a liner written as TOML read back equal."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from handjob import hand_job, rect

from nesting.jobs.found import Ignored, LinerFound
from nesting.jobs.read import read_job, read_job_text
from nesting.jobs.write import write_job, write_liner
from nesting.shapes.geometry import Box, Polygon
from nesting.values.castsizes import AsCast, lay_liner
from nesting.values.liner import BlankZone, KeepClear, Liner, Ornament

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.toml"))
RULES = "[rules]\ndam_width = 25\ndam_clearance = 6\nedge_margin = 12\n"
SLANTED = Polygon(((0, 0), (19_200_001, 3), (19_000_000, 9_600_000), (7, 9_000_000)))
LEAF = Polygon(((2_000_003, 2_000_000), (4_000_000, 2_000_005), (3_000_000, 3_333_333)))
HOLE = ((800_000, 800_000), (800_000, 1_600_001), (1_600_000, 800_000))
ODD = Liner(
    'Reeds, "left" \\ half',
    Polygon(SLANTED.shell, (HOLE,)),
    104_001,
    "blank",
    (
        Ornament("heron, é", rect(300, 200, 220, 650), 72_000, "hollow", Fraction(3, 10)),
        Ornament("reed 1", LEAF),
    ),
    (BlankZone("east", rect(-10, 0, 110.5, 1200)), BlankZone("north", SLANTED)),
    (
        KeepClear("loop", Box(101_603, 8003, 101_603, 8003), 203_201),
        KeepClear("splice", Box(8001, 8003, 16_007, 9001), 0),
    ),
)


def read_back(job):
    """Return what the written job reads as."""
    return read_job_text(write_job(job, ["a remark"]), "job")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_reads_back_equal(path):
    """Beds, inch lengths, outlines, wishes, materials, days and due dates included."""
    job = read_job(path)
    assert read_back(job) == job


def test_sides_written_with_feet_are_written_so_again():
    """Each side for itself, where the job is in inches; what an order states it still states."""
    text = """
title = "Foyer"
units = "in"
liner = { name = "reeds", size = [96, 48], thickness = 0.5 }
rules = { dam_width = 1, dam_clearance = 0.25, edge_margin = 0.5 }
[[panel]]
mark = "A"
size = ["3 ft 2-1/2 in", 30]
quantity = 1
[[panel]]
mark = "B"
size = ["38 1/2 in", "3 ft"]
quantity = 1
"""
    job = read_job_text(text, "job")
    assert [panel.in_feet for panel in job.panels] == [(True, False), (False, True)]
    assert 'size = ["3 ft 2 1/2 in", 30]\n' in write_job(job)
    assert 'size = [38.5, "3 ft"]\n' in write_job(job)
    assert [panel.in_feet for panel in read_back(job).panels] == [(True, False), (False, True)]
    assert job == replace(job, panels=tuple(replace(p, in_feet=(False,) * 2) for p in job.panels))


def test_a_job_in_mm_keeps_no_feet():
    """Its tape has none: the size is written in mm."""
    text = write_job(hand_job()).replace("size = [800, 650]", 'size = ["2 ft", 650]')
    job = read_job_text(text, "job")
    assert job.panels[0].in_feet == (False, False)
    assert "size = [609.6, 650]\n" in write_job(job)


@pytest.mark.parametrize("factor", ["0.001", "0"])
def test_a_liner_that_shrank_is_written_as_it_was_drawn(factor):
    """With the rules that say so; read back, it lies as it did."""
    job, shrink = hand_job(), Fraction(factor)
    as_cast = AsCast(liner_shrink=shrink, panel_shrink=Fraction("0.0005"))
    as_cast = replace(as_cast, drawn=job.liner if shrink else None)
    job = replace(job, liner=lay_liner(job.liner, as_cast), as_cast=as_cast)
    assert "size = [1200, 800]\n" in write_job(job)
    assert read_back(job) == job


def test_a_rectangle_with_a_point_on_a_side_keeps_it():
    """It is written point by point, for rect would lose it."""
    job = hand_job()
    box = Polygon(((0, 0), (8000, 0), (16_000, 0), (16_000, 8000), (0, 8000)))
    job = replace(job, liner=replace(job.liner, zones=(BlankZone("spot", box),)))
    assert read_back(job) == job


def read_liner_back(found, tmp_path):
    """Return the liner as the job reader reads it."""
    path = tmp_path / "liner.toml"
    path.write_text(write_liner(found) + RULES, encoding="utf-8")
    job = read_job(path, order_needed=False)
    return job.liner, job.units


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize(
    "liner", [hand_job().liner, replace(ODD, name="Reeds")], ids=["hand", "odd"]
)
def test_a_written_liner_reads_back_equal(liner, units, tmp_path):
    """Every step of outline, holes, thickness, relief, ornaments, zones and kept places."""
    assert read_liner_back(LinerFound(liner, units), tmp_path) == (liner, units)


def test_notes_and_what_was_left_out_stand_on_top(tmp_path):
    """They are comments, one line each, whatever characters they hold."""
    found = LinerFound(
        hand_job().liner,
        "mm",
        ("units are mm\nas the file says",),
        (Ignored("layer 'frame'", "it has no role"),),
        "reeds.dxf",
    )
    text = write_liner(found)
    assert text.splitlines()[:3] == [
        "# Liner read from reeds.dxf by nesting liner.",
        "# units are mm as the file says.",
        "# Left out: layer 'frame': it has no role.",
    ]
    assert read_liner_back(found, tmp_path)[0] == hand_job().liner


def test_a_name_is_written_as_toml_text():
    """Quotes and backslashes are escaped, so that no text ends early."""
    assert 'name = "Reeds, \\"left\\" \\\\ half"\n' in write_liner(LinerFound(ODD, "mm"))
