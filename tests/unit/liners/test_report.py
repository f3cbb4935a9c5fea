"""What was found, as text and as JSON."""

import json
from dataclasses import replace

from handjob import hand_job
from oddliner import ODD

from nesting.jobs.found import Ignored, LinerFound
from nesting.liners.report import liner_to_json, report_liner

FOUND = LinerFound(
    hand_job().liner,
    "mm",
    ("One unit of the drawing is 1 mm, as its header says",),
    (Ignored("LINE on layer 'frame'", "it has no role"),) * 3,
    "reeds.dxf",
)
TEXT = """\
reeds.dxf: liner 'reeds', 1200 x 800 mm, 0.96 m2, 1 ornament, 2 blank zones.

How it was read:
  One unit of the drawing is 1 mm, as its header says.

Ornaments, in millimetres from the datum corner; together 0.088 m2:
  name   left  right  bottom  top  points  area m2
  heron   300    520     200  600       4    0.088

Blank zones, in millimetres from the datum corner; together 0.116 m2:
  name   left  right  bottom  top  points  area m2
  east    790    860       0  800       4    0.056
  north     0   1200     640  690       4     0.06

Left out:
  3 x LINE on layer 'frame': it has no role."""


def test_the_report():
    """Counts, sizes, areas, how it was read and what was left out, each kind once."""
    assert report_liner(FOUND) == TEXT


def test_a_bare_liner_in_inches():
    """Nothing is passed over in silence: none is said."""
    bare = replace(FOUND.liner, ornaments=(), zones=())
    text = report_liner(LinerFound(bare, "in", source="a.svg"))
    assert "47 1/4 scant x 31 1/2 scant in, 10.3334 ft2, 0 ornaments, 0 blank zones." in text
    assert text.endswith("Ornaments: none.\n\nBlank zones: none.\n\nLeft out: nothing.")


def test_many_kinds_left_out_are_counted():
    """Forty by name, then a count."""
    ignored = tuple(Ignored(f"thing {number}", "why") for number in range(50))
    assert report_liner(replace(FOUND, ignored=ignored)).endswith("and 10 more kinds of things.")


def test_json_tells_the_same():
    """Lengths in mm, areas in mm2, and what was left out with its count."""
    told = json.loads(liner_to_json(replace(FOUND, liner=ODD)))
    assert told["format"] == "nesting-liner"
    assert told["thickness"] == 13.000125
    assert told["outline"]["right"] == 1200.5
    assert told["ornaments"][0]["name"] == "héron"
    assert told["ornaments"][1]["area"] == 400
    assert told["left_out"] == [
        {"what": "LINE on layer 'frame'", "why": "it has no role", "count": 3}
    ]
