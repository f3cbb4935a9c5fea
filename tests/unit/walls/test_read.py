"""Wall files: what is read, what is refused, and the order that is written for a job."""

import json
import math

import pytest
from jobtext import JOB, change, write_job
from wallfiles import KIOSK, WALL, change_wall, list_wall_mistakes, load_wall

from nesting.jobs.read import read_job
from nesting.units import STEPS_PER_MM
from nesting.values.bend import bend_of
from nesting.walls.cladding import Corner, WallArc, WallRun, divide_wall, order_of
from nesting.walls.read import write_order
from nesting.walls.report import report_wall, wall_to_json

MM = STEPS_PER_MM
JOB_BEHIND = JOB[: JOB.index("[[bed]]")]
"""The hand-sized job up to its beds: what an order is pasted behind."""


def test_a_wall_is_read_as_written(tmp_path):
    """Lengths become steps, degrees radians, and a part without a name gets its letter."""
    text = change_wall(('name = "wing"\n', ""), ("joint = 20", 'joint = "3/4 in"'))
    wall = load_wall(tmp_path, text)
    assert wall.parts == (
        WallRun("A", 1980 * MM, "axis", panels=2),
        WallArc("apse", 3000 * MM, math.pi / 2, "inner", panels=4),
    )
    assert (wall.joint, wall.distance, wall.rows, wall.closed) == (19.05 * MM, 200 * MM, 1, False)


def test_an_arc_may_be_given_by_its_length(tmp_path):
    """1500 mm on a radius of 3000 mm is half a radian."""
    wall = load_wall(tmp_path, change_wall(("angle = 90", "length = 1500")))
    assert wall.parts[1].angle == 0.5


def test_widest_of_the_wall_serves_every_part_that_does_not_say(tmp_path):
    """A run of 3 m less legs and joints takes three panels of at most 1 m."""
    wall = load_wall(tmp_path, KIOSK)
    found = {s.mark: (len(s.spans), s.width / MM) for s in divide_wall(wall)}
    # 3000 - 2 x (250 + 20) = 2460 in 3 panels and 2 joints
    assert found["A"] == (3, pytest.approx((2460 - 40) / 3, abs=0.001))
    assert found["B"] == (2, 250)
    assert isinstance(wall.parts[1], Corner)


@pytest.mark.parametrize("text", [WALL, KIOSK], ids=["apse", "kiosk"])
def test_the_order_pasted_behind_a_liner_reads_back_equal(tmp_path, text):
    """Panels and beds of the job are those of the wall, and faces land on the wall's radii."""
    wall = load_wall(tmp_path, text)
    stretches = divide_wall(wall)
    beds, panels = order_of(wall, stretches)
    head = change(("thickness = 13", f"thickness = {wall.liner_thickness // MM}"), text=JOB_BEHIND)
    job = read_job(write_job(tmp_path, head + write_order(wall, stretches)))
    assert job.beds == beds
    assert list(job.panels) == panels
    for stretch in stretches:
        if stretch.radius:
            assert bend_of(job, stretch.bed.name).face_radius == stretch.radius


def test_odd_names_survive_the_way_through_the_order(tmp_path):
    """A name in another script with punctuation is a mark of the job."""
    wall = load_wall(tmp_path, change_wall(('"apse"', '"Äpsis #1 = [süd]"')))
    stretches = divide_wall(wall)
    head = change(("thickness = 13", "thickness = 25"), text=JOB_BEHIND)
    job = read_job(write_job(tmp_path, head + write_order(wall, stretches)))
    assert "Äpsis #1 = [süd]-inner" in [panel.mark for panel in job.panels]


ARC_END = 'panels = 4\nto = "inner face"\n'
LAST_RUN = '[[part]]\nform = "run"\nlength = 900\npanels = 1\n'
MISTAKES = {
    "misspelt": (
        [("cavity", "cavty")],
        [
            "7: wall.cavity: this key is needed",
            "9: wall.cavty: unknown key; the nearest known key is cavity",
        ],
    ),
    "several at once": (
        [("joint = 20", "joint = 0"), ("radius = 3000", 'radius = "3,5 m"'), ("panels = 2", "")],
        [
            "12: wall.joint: must be > 0 mm, got 0 mm",
            "14: part[1]: give either panels or widest, got neither; or widest in [wall]",
            "22: part[2].radius: a length has no comma, got '3,5 m'",
        ],
    ),
    "no such form": (
        [('form = "run"', 'form = "rum"')],
        ["16: part[1].form: must be one of run, arc, corner, got 'rum'"],
    ),
    "angle too wide": (
        [("angle = 90", "angle = 361")],
        ["23: part[2].angle: must be a number of degrees > 0 and <= 360, got 361"],
    ),
    "angle as text": (
        [("angle = 90", 'angle = "90"')],
        ["23: part[2].angle: must be a number of degrees > 0 and <= 360, got '90'"],
    ),
    "angle and length": (
        [("angle = 90", "angle = 90\nlength = 100")],
        ["24: part[2].length: give either angle or length, got both"],
    ),
    "longer than the circle": (
        [
            ("angle = 90", "length = 20000"),
        ],
        ["23: part[2].length: must be <= the full circle 18849.5559 mm, got 20000 mm"],
    ),
    "panels and widest": (
        [("panels = 4", "panels = 4\nwidest = 900")],
        ["25: part[2].widest: give either panels or widest, got both"],
    ),
    "name twice": (
        [('"apse"', '"wing"')],
        ["20: part[2].name: each part needs a name of its own, got 'wing'; number 1 has it too"],
    ),
    "liner too thick": (
        [("thickness = 25", "thickness = 3000")],
        ["19: part[2]: a concave face must have a radius > the liner's 3000 mm, got 3000 mm"],
    ),
    "too many panels": (
        [("panels = 2", "panels = 200")],
        ["14: part[1]: each panel of the inner skin must be > 0 mm and <= 33000 mm wide, got -10"],
    ),
    "rows too many": (
        [("height = 2000", "height = 60\nrows = 4")],
        ["11: wall.height: must leave panels > 0 mm high between the joints, got 60 mm"],
    ),
    "does not close": (
        [("joint = 20", "joint = 20\nclosed = true")],
        ["13: wall.closed: a closed wall must end where it starts, after 360 degrees, got a gap"],
    ),
    "closed is no text": (
        [("joint = 20", 'joint = 20\nclosed = "yes"')],
        ["13: wall.closed: must be true or false, got 'yes'"],
    ),
    "one skin has no cavity": (
        [('skins = "both"', 'skins = "inner"')],
        ['9: wall.cavity: a wall of one skin has none; drop cavity or give skins = "both"'],
    ),
    "a face one skin does not have": (
        [('skins = "both"\ncavity = 150\n', 'skins = "outer"\n')],
        [
            "24: part[2].to: a wall of one skin has its outer face alone, no axis and no other "
            "face, got 'inner face'; give to = \"outer face\"."
        ],
    ),
    "a radius to nothing": (
        [('to = "inner face"\n', "")],
        ['19: part[2].to: say what the radius is measured to: to = "inner face", "outer face" or'],
    ),
    "a face of another name": (
        [('"inner face"', '"inner"')],
        ["25: part[2].to: must be one of inner face, outer face, axis, got 'inner'."],
    ),
    "one face for all radii": (
        [("joint = 20", 'joint = 20\nto = "axis"')],
        ["13: wall.to: unknown key; known keys here: skins, "],
    ),
    "no axis of one skin": (
        [('skins = "both"\ncavity = 150\n', 'skins = "inner"\n'), ('"inner face"', '"axis"')],
        ["24: part[2].to: a wall of one skin has its inner face alone, no axis and no other face"],
    ),
    "a length beside a corner to nothing": (
        [('form = "arc"\nradius = 3000', 'form = "corner"'), (ARC_END, LAST_RUN)],
        [
            "14: part[1].to: say what the length beside a corner is measured to: to = ",
            "23: part[3].to: say what the length beside a corner is measured to: to = ",
        ],
    ),
    "widths without a division": (
        [("[wall]", '[widths]\nrest = "joints"\nnarrowest = 500\n[wall]')],
        [
            "7: widths.division: this key is needed",
            '9: widths.narrowest: has a meaning only where rest = "closing panel".',
        ],
    ),
    "the rest to nothing": (
        [("[wall]", "[widths]\ndivision = 5\n[wall]")],
        ["7: widths.rest: this key is needed"],
    ),
    "joints that grow too wide": (
        [("[wall]", '[widths]\ndivision = 100\nrest = "joints"\n[wall]')],
        [
            "17: part[1]: joints must be <= 30 mm, got 120 mm; give a smaller division, more",
            "22: part[2]: joints must be <= 30 mm, got 89.254 mm; give a smaller division, more",
        ],
    ),
    "a closing panel too narrow": (
        [
            ("[wall]", '[widths]\ndivision = 5\nrest = "closing panel"\n[wall]'),
            ("[wall]", "narrowest = 1160\n[wall]"),
            ("panels = 2", "panels = 1"),
        ],
        ["23: part[2]: the closing panel must be >= 1160 mm wide, got 1147.389 mm; give another"],
    ),
    "widest below the division": (
        [
            ("[wall]", '[widths]\ndivision = 500\nrest = "closing panel"\n[wall]'),
            ("panels = 2", "panels = 1"),
            ("panels = 4", "widest = 400"),
        ],
        ["22: part[2]: widest must be >= the division 500 mm, got 400 mm."],
    ),
    "a mark twice": (
        [
            ('skins = "both"\ncavity = 150\n', 'skins = "inner"\n'),
            ("[wall]", '[widths]\ndivision = 5\nrest = "closing panel"\n[wall]'),
            ('"wing"', '"apse-closing"'),
        ],
        ["22: part[2].name: each panel needs a mark of its own, got 'apse-closing'; rename"],
    ),
    "ties that lack all but rows": (
        [("[wall]", "[ties]\nrows = 0\n[wall]")],
        [
            "7: ties.edge_distance: this key is needed",
            "7: ties.spacing: this key is needed",
            "8: ties.rows: must be a whole number from 1 to 50, got 0.",
        ],
    ),
    "ties too close": (
        [("[wall]", "[ties]\nspacing = 49\nrows = 2\nedge_distance = 60\n[wall]")],
        ["8: ties.spacing: must be >= 50 mm, got 49 mm."],
    ),
    "ties of one skin": (
        [
            ("[wall]", "[ties]\nspacing = 400\nrows = 2\nedge_distance = 60\n[wall]"),
            ('skins = "both"\ncavity = 150\n', 'skins = "inner"\n'),
        ],
        ['7: ties: a tie joins two skins; take it out or give skins = "both".'],
    ),
    "corner astray": (
        [('form = "arc"\nradius = 3000', 'form = "corner"'), (ARC_END, "")],
        ["19: part[2]: a corner must stand between two runs; put a run on either side"],
    ),
    "radius beyond all": (
        [("radius = 3000", 'radius = "6000 m"')],
        ["22: part[2].radius: must be at most 5000000 mm"],
    ),
    "not TOML": ([("height = 2000", "height = 2 m")], ["11: the line is not TOML"]),
}


@pytest.mark.parametrize("name", MISTAKES)
def test_each_mistake_is_told_with_its_line(tmp_path, name):
    """Every mistake of a file is listed at once, and no other."""
    changes, expected = MISTAKES[name]
    lines = list_wall_mistakes(tmp_path, change_wall(*changes))
    assert len(lines) == len(expected)
    for line, start in zip(lines, expected, strict=True):
        assert line.startswith(f"wall.toml:{start}")


def test_a_file_without_parts_is_refused(tmp_path):
    """A wall needs at least one part, and says so on the file."""
    text = WALL[: WALL.index("[[part]]")]
    assert list_wall_mistakes(tmp_path, text) == ["wall.toml: part: this key is needed."]


def test_a_step_of_a_wide_angle_is_no_corner(tmp_path):
    """A corner turns by less than 180 degrees, the limit left out."""
    (line,) = list_wall_mistakes(tmp_path, KIOSK.replace("angle = 90", "angle = 180", 1))
    assert "part[2].angle: must be a number of degrees > 0 and < 180, got 180" in line


def test_the_report_shows_the_difference_of_the_skins(tmp_path):
    """Angle x distance, both lengths, beds and the caution are on the page."""
    wall = load_wall(tmp_path)
    text = report_wall(wall, divide_wall(wall))
    assert text.startswith("Bath house, apse: 12 panels of 3 sizes for both skins.")
    assert "apse: 90 degrees x 200 = 314.159 (inner 4712.389, outer 5026.548)." in text
    assert "convex bed, radius 2975 = 3000 - 25: concave faces." in text
    assert "concave bed, radius 3225 = 3200 + 25: convex faces." in text
    assert "licensed practice rule" in text
    assert "Warning" not in text


def test_the_report_warns_of_narrow_joints(tmp_path):
    """A joint of 9 mm is below the least for sealant."""
    wall = load_wall(tmp_path, change_wall(("joint = 20", "joint = 9")))
    assert "Warning: the joint of 9 mm is below 3/8 in" in report_wall(wall, divide_wall(wall))


def test_the_report_shows_the_joints_that_take_the_rest(tmp_path):
    """Widths are whole fives, each skin's joint is in its row, and the rule stands below."""
    text = change_wall(("[wall]", '[widths]\ndivision = 5\nrest = "joints"\n[wall]'))
    wall = load_wall(tmp_path, text)
    text = report_wall(wall, divide_wall(wall))
    assert (
        "mark        skin   face     radius    length  panels  width  height   joint  bed" in text
    )
    assert (
        "apse-inner  inner  concave    3000  4712.389       4   1160    2000  20.683  convex"
        in text
    )
    assert "Widths are whole numbers of 5 mm; the joints take the rest of each face." in text


def test_the_json_has_what_the_report_has(tmp_path):
    """Format, version, panels with exact millimetres, beds and arcs; null where a face is flat."""
    wall = load_wall(tmp_path)
    found = json.loads(wall_to_json(wall, divide_wall(wall)))
    assert (found["format"], found["version"]) == ("nesting-wall", 1)
    wing, _, apse, _ = found["panels"]
    assert (wing["face_radius"], wing["bed"], wing["quantity"]) == (None, "flat", 2)
    assert (apse["face_radius"], apse["face"]) == (3000, "concave")
    assert [bed["radius"] for bed in found["beds"]] == [None, 2975, 3225]
    (arc,) = found["arcs"]
    assert arc["outer"] - arc["inner"] == pytest.approx(200 * math.pi / 2, abs=1e-5)
