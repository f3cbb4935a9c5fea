"""Jobs made of Python values: the same as those of files, judged by the same reader."""

import copy
import pickle
import tomllib
from pathlib import Path

import numpy as np
import pytest
import shapely

import nesting
from nesting.jobs.read import read_job

FERRY = Path(__file__).parents[3] / "examples" / "ferry-terminal.toml"
RULES = nesting.Rules(dam_width=25, dam_clearance=6, edge_margin=12)
HERON = [(300, 200), (520, 180), (500, 850)]


def make_liner(**changes):
    """Return a plain liner with one heron, changed."""
    given = {
        "size": (2400, 1200),
        "thickness": 13,
        "ornaments": [nesting.Ornament("heron", outline=HERON)],
    }
    return nesting.Liner("reeds", **(given | changes))


def make_job(**changes):
    """Return a job of one panel size, its liner changed."""
    order = [nesting.Panel("A1", (1500, 900), 3)]
    return nesting.Job("Foyer", make_liner(unmarked="blank", **changes), RULES, order)


def rebuild(path):
    """Return a job of a file, made again from Python values."""
    top = tomllib.loads(path.read_text(encoding="utf-8"))
    liner = top["liner"]
    ornaments = [nesting.Ornament(**each) for each in liner.pop("ornament")]
    zones = [nesting.BlankZone(**each) for each in liner.pop("blank_zone")]
    return nesting.Job(
        top["title"],
        nesting.Liner(**liner, ornaments=ornaments, zones=zones),
        nesting.Rules(**top["rules"]),
        [nesting.Panel(**each) for each in top["panel"]],
        [nesting.Bed(**each) for each in top["bed"]],
        {
            key: top[key]
            for key in ("dams", "material", "mix", "batch", "rubber", "lifting", "prices")
        }
        | {"calendar": top["calendar"]},
    )


def test_a_job_of_values_is_the_job_of_the_file():
    """Built in Python, the ferry terminal equals the one read from TOML, tables and all."""
    rebuilt = rebuild(FERRY)
    assert rebuilt.exact == read_job(FERRY)
    assert rebuilt == nesting.read_job(FERRY)
    assert hash(rebuilt) == hash(nesting.read_job(FERRY))


def test_outlines_may_be_corners_arrays_or_polygons():
    """All three give the same job; a polygon's holes are holes of the liner."""
    jobs = [
        make_job(ornaments=[nesting.Ornament("heron", outline=outline)])
        for outline in (HERON, np.array(HERON), shapely.Polygon(HERON))
    ]
    assert jobs[0] == jobs[1] == jobs[2]
    hole = shapely.box(1900, 500, 2000, 600)
    holed = make_job(size=None, outline=shapely.box(0, 0, 2400, 1200) - hole)
    assert len(holed.exact.liner.outline.holes) == 1


def test_what_is_written_reads_back_equal(tmp_path):
    """A job of values, and one read from a file with all its tables."""
    nesting.write_job(make_job(), tmp_path / "job.toml")
    assert nesting.read_job(tmp_path / "job.toml") == make_job()
    nesting.write_job(nesting.read_job(FERRY), tmp_path / "ferry.toml")
    assert nesting.read_job(tmp_path / "ferry.toml") == nesting.read_job(FERRY)


def test_places_that_dams_keep_off_reach_the_job():
    """A point and a rectangle, each with its distance; they are kept when the job is written."""
    places = [
        nesting.KeepClear("loop", at=(1200, 30), distance=50),
        nesting.KeepClear("splice", rect=(1800, 0, 40, 1200), distance=0),
    ]
    job = make_job(keep_clear=places)
    assert [each.name for each in job.exact.liner.keep_clear] == ["loop", "splice"]
    assert "[[liner.keep_clear]]" in job.text
    with pytest.raises(nesting.InputErrors, match=r"keep_clear\[1\]"):
        make_job(keep_clear=[nesting.KeepClear("loop", distance=50)])


def test_every_mistake_is_told_at_once_with_its_parts():
    """Where, rule, what was got and what to do are attributes."""
    with pytest.raises(nesting.InputErrors, match="width must be > 0 mm, got -4 mm") as caught:
        nesting.Job("Foyer", make_liner(size=(-4, 3)), RULES, [nesting.Panel("A1", (9, 9), 0)])
    first, second = caught.value.errors
    assert first.where.endswith("liner.size")
    assert (first.rule, first.got) == ("width must be > 0 mm", "-4 mm")
    assert second.where.endswith("panel[1].quantity")


@pytest.mark.parametrize(
    ("outline", "got"),
    [
        (shapely.MultiPolygon([shapely.box(0, 0, 1, 1)]), "got a MultiPolygon"),
        (shapely.Polygon(), "got one without points"),
        (7, "got 7"),
        ("square", "got 'square'"),
    ],
)
def test_what_is_no_outline_is_refused(outline, got):
    """The line names the ornament and what was given."""
    with pytest.raises(nesting.InputError, match=f"Ornament 'heron': outline: .*{got}"):
        make_job(ornaments=[nesting.Ornament("heron", outline=outline)])


def test_an_ornament_has_no_holes():
    """A polygon with one is refused rather than filled."""
    holed = shapely.box(0, 0, 9, 9) - shapely.box(3, 3, 4, 4)
    with pytest.raises(nesting.InputError, match="must have no holes, got 1"):
        make_job(ornaments=[nesting.Ornament("ring", outline=holed)])


def test_numbers_that_are_none_are_refused():
    """NaN reaches the reader, which refuses it with its place."""
    with pytest.raises(nesting.InputErrors, match=r"liner\.size"):
        make_job(size=(float("nan"), 1200))


def test_a_crossing_outline_is_refused():
    """By the reader, as in a file."""
    bow = [(0, 0), (100, 100), (100, 0), (0, 100)]
    with pytest.raises(nesting.InputErrors, match=r"ornament\[1\]\.outline"):
        make_job(ornaments=[nesting.Ornament("bow", outline=bow)])


def test_a_job_is_frozen_and_can_be_copied_and_pickled():
    """A changed one is made anew."""
    job = make_job()
    with pytest.raises(AttributeError, match="a Job is frozen; make a new one to change its exact"):
        job.exact = None
    assert pickle.loads(pickle.dumps(job)) == job
    assert copy.deepcopy(job) == job
    assert repr(job) == "<Job 'Foyer': 3 panels of 1 sizes>"


def test_liner_and_job_show_themselves():
    """As one well-formed drawing, without any file."""
    drawn = make_job()._repr_svg_()
    assert drawn == make_liner(unmarked="blank")._repr_svg_()
    assert drawn.startswith("<?xml")
    assert ">heron<" in drawn
