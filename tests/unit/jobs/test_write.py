"""A job written as TOML reads back equal."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from handjob import hand_job

from nesting.jobs.read import read_job
from nesting.jobs.write import write_job
from nesting.shapes.geometry import Box, Polygon
from nesting.values.castsizes import AsCast
from nesting.values.liner import KeepClear
from nesting.values.material import USUAL
from nesting.values.shopdays import USUAL_DAYS

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*.toml"))


def read_back(folder, job):
    """Return what the written job reads as."""
    path = folder / "job.toml"
    path.write_text(write_job(job, ["a remark"]), encoding="utf-8")
    return read_job(path)


def only_order(job):
    """Return the job without what it says of materials and of the shop's days."""
    return replace(job, materials=USUAL, shop=USUAL_DAYS)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_reads_back_equal(tmp_path, path):
    """Beds, inch lengths, outlines, tolerances, wishes and due dates included."""
    job = replace(only_order(read_job(path)), as_cast=AsCast())
    assert only_order(read_back(tmp_path, job)) == job


def test_what_a_panel_shrinks_by_reads_back_equal(tmp_path):
    """As a rule of its own, with the liner's drawn size beside it."""
    job = hand_job()
    box = job.liner.outline.bounds
    as_cast = AsCast(panel_shrink=Fraction("0.0005"), drawn=(box.width, box.height))
    assert read_back(tmp_path, replace(job, as_cast=as_cast)).as_cast == as_cast


def test_places_that_dams_keep_off_read_back_equal(tmp_path):
    """A point and a rectangle, to the step."""
    job = hand_job()
    places = Box(5, 7, 5, 7), Box(9, 8001, 80_000, 9002)
    kept = tuple(KeepClear(f"loop {n}", place, n) for n, place in enumerate(places, 1))
    job = replace(job, liner=replace(job.liner, keep_clear=kept))
    assert read_back(tmp_path, job) == job


def test_a_liner_with_a_hole_and_an_outline_reads_back_equal(tmp_path):
    """Rim and holes are written point by point."""
    job = hand_job()
    box = job.liner.outline.bounds
    hole = ((8000, 8000), (8000, 16000), (16000, 16000), (16000, 8000))
    liner = replace(job.liner, outline=Polygon(box.ring, (hole,)), ornaments=())
    plain = tuple(replace(panel, must_show=(), must_hide=()) for panel in job.panels)
    job = replace(job, liner=liner, panels=plain)
    assert read_back(tmp_path, job) == job
