"""What is said of a scan: in words, as JSON, and in the liner's own file."""

import json
from dataclasses import replace

import numpy as np
import pytest
from makescans import MM, RULES, box_mask, found_on, plane

from nesting.jobs.write import write_liner
from nesting.scans.build import UnevenError
from nesting.scans.report import found_liner, report_scan, scan_to_json

SHAPE = (200, 300)


def tilted(noise=0.03):
    """Return tilted ground with a block and a speck on it."""
    heights = plane(*SHAPE, 0.01, -0.003, 5) + np.random.default_rng(0).normal(0, noise, SHAPE)
    heights[box_mask(SHAPE, (60, 40, 100, 160))] += 5
    heights[20, 200] += 4
    return heights


def test_the_report_tells_how_the_scan_was_read_and_what_was_found():
    """Size, pixel, tilt, noise, threshold, doubt, ornaments, zones, and what was left out."""
    text = report_scan(found_on(tilted()), "reeds.png", "mm")
    for words in (
        "reeds.png: liner 'reeds', 1 ornament and ",
        "300 x 200 pixels of 1 mm: 300 x 200 mm",
        "rises 10.00 mm per m along x and falls 3.00 mm per m along y",
        "(6 times the noise, 2 grains or 0.1 mm), joined across gaps narrower than 25 mm",
        "one pixel of doubt (1 mm)",
        "A dam 25 mm wide seals where the readings under it differ by at most 1 mm",
        "it meets up to 26 pixels across",
        "Left out: 1 speck: no larger than 3 mm or one pixel",
    ):
        assert words in " ".join(text.split())
    (row,) = (line.split() for line in text.splitlines() if line.startswith("  ornament 1"))
    assert row[2:6] == ["59", "101", "39", "161"]
    assert "  ground 1 " in text


def test_inch_reports_are_in_inches():
    """Lengths are in inches to three decimals, slopes and heights stay in mm."""
    text = report_scan(found_on(tilted()), "reeds.png", "in")
    assert "300 x 200 pixels of 0.0394 in: 11.811 x 7.874 in" in text
    assert "Blank zones (in, from the datum corner):" in text


def test_json_has_the_figures_in_mm():
    """The document can be read back, and says what the liner says."""
    found = found_on(tilted())
    document = json.loads(scan_to_json(found, "reeds.png"))
    assert document["format"] == "nesting-scan"
    assert document["pixels"] == [300, 200]
    assert document["ground"]["slope_x"] == pytest.approx(0.01, abs=1e-4)
    (ornament,) = document["ornaments"]
    assert (ornament["rect"], ornament["area"]) == ([59, 39, 42, 122], 4800)
    assert len(document["zones"]) == len(found.liner.zones)
    assert document["ignored"][0]["what"] == "1 speck"


def test_noise_above_the_seal_gap_is_told():
    """A scan whose noise alone breaks the seal says so, and that plain ground may be lost."""
    found = found_on(tilted(noise=0.2))
    assert any(
        "more than the seal gap of 1 mm" in note for note in found_liner(found, "", "mm").notes
    )


def test_a_threshold_within_the_noise_is_told():
    """Where noise counts as ornament, the option to mend is named."""
    found = found_on(tilted(), replace(RULES, threshold=MM // 20))
    assert any("noise counts as ornament" in note for note in found_liner(found, "", "mm").notes)


def test_a_bow_that_was_taken_off_is_told():
    """How much it rises, and that a dam must seal on the real liner."""
    bow = tilted() + 1e-5 * (np.arange(300) - 150)[None, :] ** 2
    found = found_on(bow)
    notes = found_liner(found, "", "mm").notes
    assert "bows by 0.22 mm over the scan, which is taken off" in notes[1]
    assert any("see that a dam seals on the longest zone" in note for note in notes)
    assert json.loads(scan_to_json(found, "a.png"))["ground"]["bow"] == pytest.approx(
        0.22, abs=0.01
    )


def test_an_uneven_ground_is_told_where_a_threshold_is_given():
    """Without one nothing is found on it: low ornament would be lost."""
    uneven = tilted() + 0.5 * np.sin(np.arange(300) / 20)[None, :]
    with pytest.raises(
        UnevenError, match=r"readings lie off it by 0\.\d\d mm, so ornament of less"
    ):
        found_on(uneven)
    notes = found_liner(found_on(uneven, replace(RULES, threshold=2 * MM)), "", "mm").notes
    assert any(note.startswith("the ground is uneven or textured") for note in notes)


def test_no_zone_and_a_rim_that_is_no_rectangle_are_told():
    """Both make a liner of little use as it is."""
    heights = tilted()
    heights[np.tri(*SHAPE, -150, dtype=bool)] = np.nan
    notes = found_liner(found_on(heights, replace(RULES, dam_width=180 * MM)), "", "mm").notes
    assert any(note.startswith("no dam has a place on this scan") for note in notes)
    assert any(note.startswith("the liner's rim is not a rectangle") for note in notes)


def test_missing_readings_are_counted_apart():
    """A hole inside is a place without readings; at the frame it is left out."""
    heights = tilted()
    heights[100:130, 200:230] = np.nan
    heights[:10] = np.nan
    text = report_scan(found_on(heights), "reeds.png", "mm")
    assert "1 ornament, 1 place without readings and " in text
    assert "Left out: 0.0033 m2: no readings at the frame of the scan: not liner" in text
    (row,) = (line for line in text.splitlines() if line.startswith("  unread 1"))
    assert row.endswith("100 %")


def test_notes_and_what_was_left_out_head_the_liners_file():
    """The file carries as comments how it came about."""
    text = write_liner(found_liner(found_on(tilted()), "reeds.png", "mm"))
    head = text.partition("units")[0]
    assert "reeds.png" in head
    assert "# the scan has 300 x 200 pixels" in head
    assert "Left out: 1 speck" in head
