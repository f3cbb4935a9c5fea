"""A template in words and as JSON."""

import itertools
import json

from templates import hand_template, long_dam_template, tile

from nesting.tape import Tape
from nesting.templates.fullsize import FullSize
from nesting.templates.report import report_template, template_to_json


def test_the_report_says_how_many_sheets_in_which_order():
    """A dam of 1000 mm: four sheets of A4, lying, in one row."""
    template = long_dam_template()
    text = report_template("Foyer", template, tile(template), Tape("mm"), mirrored=False)
    assert text.startswith("Foyer: full-size template, Dam 2 of layout 1, seen from above.\n")
    assert "4 sheets of A4, lying.\n" in text
    assert "\n  sheet 1-1, sheet 1-2, sheet 1-3, sheet 1-4\n" in text
    assert "Print at 100 %, no fit to page." in text
    assert "check square on sheet 1-1" in text
    assert "MIRRORED" not in text


def test_blank_tiles_are_counted():
    """Of 28 tiles of the hand-sized liner on A4 the one without a line is left out."""
    template = hand_template(FullSize(mirrored=True))
    tiling = tile(template, mirrored=True)
    text = report_template("Foyer", template, tiling, Tape("mm"), mirrored=True)
    assert (tiling.grid.rows * tiling.grid.columns, len(tiling.cells)) == (28, 27)
    assert "\n1 of 28 tiles would be blank and is left out.\n" in text
    assert "MIRRORED: trace it through from its back." in text


def test_a_sheet_from_a_roll_has_its_length():
    """The roll's width is told with what to cut from it; one sheet is laid on no other."""
    template = hand_template()
    text = report_template(
        "Foyer", template, tile(template, "roll:914mm"), Tape("mm"), mirrored=False
    )
    assert "1 sheet of 1230 x 914 mm, cut from a roll 914 mm wide." in text
    assert "Lay the sheets" not in text
    assert "dashed joins" not in text


def test_an_inch_job_is_told_in_inches():
    """The roll, the sheet cut from it, and the bar to measure."""
    template = hand_template()
    text = report_template(
        "Foyer", template, tile(template, "roll:36in"), Tape("in"), mirrored=False
    )
    assert "in, cut from a roll 36 in wide." in text
    assert "measure the bar of 4 in on every sheet" in text
    assert " mm" not in text.replace("\n".join((*template.facts, *template.notes)), "")


def test_the_json_lists_every_sheet_with_its_ground():
    """Windows overlap by the overlap, pages count from 1, files are those given."""
    template = long_dam_template()
    document = json.loads(
        template_to_json("Foyer", template, tile(template), ["template.pdf"], mirrored=False)
    )
    assert (document["format"], document["version"]) == ("nesting-template", 1)
    assert [sheet["name"] for sheet in document["sheets"]] == [f"sheet 1-{n}" for n in (1, 2, 3, 4)]
    assert [sheet["page"] for sheet in document["sheets"]] == [1, 2, 3, 4]
    shown = [sheet["shows"] for sheet in document["sheets"]]
    assert all(b[0] - a[0] == 277 - 16 for a, b in itertools.pairwise(shown))
    assert document["sheet"] == [297, 210]
    assert document["files"] == ["template.pdf"]
    assert document["left_out"] == []
