"""A liner written as a file of its own reads back equal."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import hand_job, rect

from nesting.jobs.found import Ignored, LinerFound
from nesting.jobs.liner import write_liner
from nesting.jobs.read import read_job
from nesting.shapes.geometry import Box, Polygon
from nesting.values.liner import BlankZone, KeepClear, Liner, Ornament

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


def read_back(found, tmp_path):
    """Return the liner as the job reader reads it."""
    path = tmp_path / "liner.toml"
    path.write_text(write_liner(found) + RULES, encoding="utf-8")
    job = read_job(path, order_needed=False)
    return job.liner, job.units


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize(
    "liner", [hand_job().liner, replace(ODD, name="Reeds")], ids=["hand", "odd"]
)
def test_what_was_written_reads_back_equal(liner, units, tmp_path):
    """Every step of outline, holes, thickness, relief, ornaments, zones and kept places."""
    assert read_back(LinerFound(liner, units), tmp_path) == (liner, units)


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
    assert read_back(found, tmp_path)[0] == hand_job().liner


def test_a_name_is_written_as_toml_text():
    """Quotes and backslashes are escaped, so that no text ends early."""
    assert 'name = "Reeds, \\"left\\" \\\\ half"\n' in write_liner(LinerFound(ODD, "mm"))
