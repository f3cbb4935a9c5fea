"""The sizes a liner can give as text and as JSON, for the hand-sized job."""

import json
from dataclasses import replace

import pytest
from handjob import MM, change_panel, hand_job, slanted_job

from nesting.fitting.rangereport import (
    BedRange,
    bed_words,
    ledge_words,
    range_to_json,
    report_range,
)
from nesting.maps.ground import survey
from nesting.maps.sizeledges import Ledge
from nesting.maps.sizeregion import list_ordered, map_region
from nesting.tape import Tape
from nesting.values.bed import Bed
from nesting.values.bend import bend_of


def hand_range(job):
    """Return the one bed's region and sizes of the job."""
    region = map_region(survey(job.liner, job.rules))
    return [BedRange(job.beds[0], region, list_ordered(job, bend_of(job, job.beds[0].name)))]


def test_the_report_lists_sizes_ledges_and_order():
    """Every part of the region, every ledge and every panel has its line."""
    job = change_panel(hand_job(), "C1", height=700 * MM)
    text = report_range(job, hand_range(job))
    assert "Exact: every size listed has a place, and no other has one." in text
    lines = [" ".join(line.split()) for line in text.splitlines()]
    assert "no dam 1200 800 all" in lines
    assert "2 dams 340 to 385 640 to 665 all" in lines
    assert "greatest width 835 640 to 665 rim to zone 'east'" in lines
    assert "C1 1200 x 700 no" in lines
    assert "A1 800 x 650 yes" in lines
    assert text.endswith("certifies no panel, lift or structure.")


def test_without_an_order_there_is_no_table_of_it():
    """A liner file lists sizes only."""
    job = replace(hand_job(), panels=())
    text = report_range(job, hand_range(job))
    assert text.startswith("Bath house, foyer: every size")
    assert "Sizes of the order" not in text


def test_what_is_not_certain_is_said():
    """Between slopes the report parts certain sizes from possible ones, to be planned."""
    job = replace(slanted_job(), panels=())
    text = report_range(job, hand_range(job))
    assert "have a place for certain; dams are the most they need" in text
    assert "each must be tried with nesting fit" in " ".join(text.split())
    assert "\n  possible " in text


def test_an_area_of_many_rectangles_is_told_by_its_extent():
    """Stairs of more than six rectangles have one line, and it says some."""
    job = replace(slanted_job(), panels=())
    assert any(line.endswith(" some") for line in report_range(job, hand_range(job)).splitlines())


def test_json_has_the_region_as_polygons_lines_and_points():
    """Sizes are [width, height] in mm."""
    job = hand_job()
    document = json.loads(range_to_json(job, hand_range(job)))
    (bed,) = document["beds"]
    assert (document["format"], document["version"], bed["exact"]) == ("nesting-range", 1, True)
    none, one, _, three = bed["certain"]
    assert none == {"dams": 0, "polygons": [], "lines": [], "points": [[1200, 800]]}
    assert [[340, 800], [385, 800]] in one["lines"]
    assert three["polygons"] == [
        {"outline": [[12, 12], [20, 12], [20, 775], [12, 775]], "holes": []}
    ]
    assert bed["possible"] == {"polygons": [], "lines": [], "points": []}
    assert {
        "axis": "width",
        "at": 835,
        "over": [640, 665],
        "limit": "greatest",
        "stopped_by": "rim to zone 'east'",
    } in bed["ledges"]
    assert bed["order"][0] == {"mark": "A1", "size": [800, 650], "has_place": True}


def test_json_says_what_is_not_certain():
    """Between slopes there are possible polygons, and dams may be fewer."""
    job = replace(slanted_job(), panels=())
    (bed,) = json.loads(range_to_json(job, hand_range(job)))["beds"]
    assert (bed["exact"], bed["dams_are_fewest"]) == (False, False)
    assert bed["possible"]["polygons"]


@pytest.mark.parametrize(
    ("bed", "words"),
    [
        (Bed("table"), "bed table, flat"),
        (Bed("drum", "convex", 3000 * MM), "bed drum, convex, radius 3000 mm along x"),
    ],
)
def test_beds_in_words(bed, words):
    """A flat bed has no radius."""
    assert bed_words(replace(hand_job(), beds=(bed,)), bed.name) == words


def test_ledges_in_words():
    """A ledge is its place and its cause, in the job's units."""
    ledge = Ledge("width", 254 * MM, (0, 1), True, "rim to rim")
    assert ledge_words(ledge, Tape("in")) == "10: rim to rim"
    assert ledge_words(replace(ledge, cause=""), Tape("mm")) == "254: -"
