"""Reading a job that is right: `nesting.jobs.read` and `nesting.jobs.tables`."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, hand_job, rect
from jobtext import JOB, change, list_mistakes, write_job

from nesting.jobs.read import read_job
from nesting.shapes.geometry import Box, Polygon
from nesting.values.bed import Bed
from nesting.values.liner import KeepClear
from nesting.values.panels import Panel

INCH = 203_200
LINER = JOB[JOB.index("[liner]") : JOB.index("[rules]")]
RULES = JOB[JOB.index("[rules]") : JOB.index("[[bed]]")]
BEDS = JOB[JOB.index("[[bed]]") : JOB.index("[[panel]]")]
PANELS = JOB[JOB.index("[[panel]]") :]
HEAD = JOB[: JOB.index("[liner]")]
DRUM = """[[bed]]
name = "drum"
form = "convex"
radius = 3000
curved_axis = "y"
neutral = 0.3
"""


def read(folder, *changes):
    """Return the job of the changed text."""
    return read_job(write_job(folder, change(*changes)))


def test_a_job_file_becomes_the_job_it_describes(tmp_path):
    """The hand-sized job written as a person writes it reads as the hand-sized job."""
    assert read_job(write_job(tmp_path)) == hand_job()


def test_a_path_may_be_text(tmp_path):
    """A path given as text is a path."""
    assert read_job(str(write_job(tmp_path))) == hand_job()


def test_a_byte_order_mark_and_windows_line_ends_are_read(tmp_path):
    """Files as a Windows editor saves them are the same job."""
    path = tmp_path / "job.toml"
    path.write_bytes(b"\xef\xbb\xbf" + JOB.replace("\n", "\r\n").encode())
    assert read_job(path) == hand_job()


def test_every_key_reaches_its_value(tmp_path):
    """A job that states every key holds every value."""
    job = read(
        tmp_path,
        ("thickness = 13", 'thickness = "1/2 in"\nunmarked = "blank"'),
        ("rect = [300, 200, 220, 400]", "rect = [300, 200, 220, 400]\nrelief = 9"),
        ("[[bed]]", DRUM + "[[bed]]"),
        (
            "quantity = 1\nmust_hide",
            'quantity = 12\nbed = "drum"\nmeasured_on = "back"\nturn = "half"\n'
            'tolerance = [-3, "1/8 in"]\nthickness = 19\nmust_hide',
        ),
        ("650]\nquantity = 1", '650]\nquantity = 1\nbed = "table"'),
        ('mark = "C1"', 'mark = "C1"\nbed = "table"'),
    )
    assert job.liner.thickness == INCH // 2
    assert job.liner.unmarked == "blank"
    assert job.liner.ornaments[0].relief == 9 * MM
    assert job.bed("drum") == Bed("drum", "convex", 3000 * MM, "y", Fraction(3, 10))
    assert job.panel("B1") == Panel(
        "B1",
        375 * MM,
        800 * MM,
        12,
        "drum",
        "back",
        "half",
        (-3 * MM, INCH // 8),
        19 * MM,
        (),
        ("heron",),
    )


def test_inch_jobs_are_in_inches(tmp_path):
    """Plain numbers are inches, text keeps its own unit, and set-out is sixteenths by default."""
    job = read(
        tmp_path,
        ('units = "mm"', 'units = "in"'),
        ("size = [1200, 800]", 'size = [1200, "5 ft 3 7/16 in"]'),
        ("rect = [300, 200, 220, 400]", 'rect = [300, "200 mm", 220, "400 mm"]'),
        ("thickness = 13", "thickness = 0.5"),
        ("set_out = 1\n", ""),
    )
    height = 63 * INCH + 7 * INCH // 16
    assert job.units == "in"
    assert job.liner.outline.bounds == (0, 0, 1200 * INCH, height)
    assert job.liner.ornaments[0].outline.bounds == (
        300 * INCH,
        200 * MM,
        520 * INCH,
        600 * MM,
    )
    assert job.liner.thickness == INCH // 2
    assert job.rules.set_out == INCH // 16


def test_what_is_left_out_has_its_default(tmp_path):
    """Without set-out, beds and a bed's form, a job marks to 1 mm on one flat bed."""
    job = read(tmp_path, ("set_out = 1\n", ""), (BEDS, ""))
    assert job == replace(
        hand_job(),
        beds=(Bed("flat"),),
        panels=tuple(replace(panel, bed="flat") for panel in hand_job().panels),
    )


def test_an_empty_list_of_beds_is_no_bed(tmp_path):
    """``bed = []`` leaves the one flat bed."""
    job = read(tmp_path, (BEDS, ""), ("[liner]", "bed = []\n[liner]"))
    assert job.beds == (Bed("flat"),)


def test_an_outline_and_a_size_are_the_same_liner(tmp_path):
    """A rectangle drawn point by point, either way round and closed or not, is its size."""
    outline = "outline = [[0, 800], [1200, 800], [1200, 0], [0, 0], [0, 800]]"
    assert read(tmp_path, ("size = [1200, 800]", outline)) == hand_job()


def test_holes_open_the_liner(tmp_path):
    """Holes are taken out of the outline; an ornament beside them is on the liner."""
    hole = "holes = [[[1000, 100], [1100, 100], [1100, 200]]]"
    job = read(tmp_path, ("thickness = 13", f"thickness = 13\n{hole}"))
    ring = ((1000 * MM, 100 * MM), (1100 * MM, 100 * MM), (1100 * MM, 200 * MM))
    assert job.liner.outline == Polygon(rect(0, 0, 1200, 800).shell, (ring,))


def test_an_ornament_may_touch_the_rim(tmp_path):
    """An ornament up to the rim, straight or slanted, lies on the liner."""
    slanted = "outline = [[0, 0], [1200, 0], [1201, 800], [0, 800]]"
    job = read(
        tmp_path,
        ("size = [1200, 800]", slanted),
        ("rect = [300, 200, 220, 400]", "outline = [[0, 0], [1200, 0], [1200.333, 266.4]]"),
        (PANELS, '[[panel]]\nmark = "A1"\nsize = [100, 100]\nquantity = 1\n'),
    )
    assert job.liner.ornaments[0].outline.bounds.x0 == 0


def test_a_zone_may_reach_past_the_rim(tmp_path):
    """A zone drawn a little past the rim is accepted: dams must lie on the liner anyway."""
    job = read(tmp_path, ("[0, 640, 1200, 50]", "[-5, 640, 1210, 50]"))
    assert job.liner.zones[1].outline == rect(-5, 640, 1210, 50)


CLEAR = '[[liner.keep_clear]]\nname = "loop"\n'


@pytest.mark.parametrize(
    ("keys", "place", "distance"),
    [
        ("at = [60, 1]\ndistance = 50", (60, 1, 60, 1), 50),
        ('at = [0, 800]\ndistance = "1 in"', (0, 800, 0, 800), 25.4),
        ("rect = [60, 1, 9, 8]\ndistance = 0", (60, 1, 69, 9), 0),
    ],
)
def test_a_place_that_dams_keep_off_is_a_point_or_a_rectangle(tmp_path, keys, place, distance):
    """With the distance that no dam may come nearer."""
    found = read(tmp_path, ("[rules]", f"{CLEAR}{keys}\n[rules]")).liner.keep_clear
    box = Box(*(at * MM for at in place))
    assert found == (KeepClear("loop", box, round(distance * MM)),)


@pytest.mark.parametrize(
    ("keys", "mistake"),
    [
        ("at = [60, 1]", "distance: this key is needed"),
        ("distance = 5", "keep_clear[1]: give either at or rect, got neither"),
        ("at = [60, 1]\ndistance = 0", "distance: must be > 0 mm"),
        ("rect = [60, 1, 9, 8]\ndistance = -1", "distance: must be >= 0 mm"),
        ("at = [60, 801]\ndistance = 5", "at: 'loop' must lie on the liner"),
        ("rect = [60, 1, 9, 800]\ndistance = 5", "rect: 'loop' must lie on the liner"),
        (f"at = [60, 1]\ndistance = 5\n{CLEAR}at = [9, 1]\ndistance = 5", "a name of its own"),
    ],
)
def test_mistakes_of_a_place_that_dams_keep_off_are_told(tmp_path, keys, mistake):
    """One line each."""
    path = write_job(tmp_path, change(("[rules]", f"{CLEAR}{keys}\n[rules]")))
    (line,) = list_mistakes(path)
    assert mistake in line


@pytest.mark.parametrize(
    "name", ["Schilf 3", "R\N{LATIN SMALL LETTER E WITH ACUTE}seau", "芦苇", "A&B", "#7", "x" * 60]
)
def test_names_may_be_in_any_script(tmp_path, name):
    """Names hold letters of any script, digits, blanks and signs."""
    assert read(tmp_path, ('mark = "C1"', f'mark = "{name}"')).panels[2].mark == name


def test_a_title_may_hold_quotes(tmp_path):
    """A title is text for people; it names no file."""
    assert (
        read(tmp_path, ("Bath house, foyer", "Jo's <bath> / foyer")).title == "Jo's <bath> / foyer"
    )


def test_a_job_without_an_order_is_read_where_none_is_needed(tmp_path):
    """A file without title and panels is a job for those who need no order, named by its liner."""
    path = write_job(tmp_path, change((PANELS, ""), ('title = "Bath house, foyer"\n', "")))
    assert read_job(path, order_needed=False) == replace(hand_job(), title="reeds", panels=())
    assert list_mistakes(path) == [
        "job.toml: title: this key is needed.",
        "job.toml: panel: an order needs at least one [[panel]].",
    ]


def test_sizes_as_chord_or_back_are_read_where_the_bed_allows(tmp_path):
    """A chord as long as the face's diameter, on the curved axis, is still a chord."""
    bed = '[[bed]]\nname = "table"\nform = "concave"\nradius = 613\n'
    panel = '[[panel]]\nmark = "A1"\nsize = [1200, 5000]\nquantity = 1\nmeasured_on = "chord"\n'
    job = read(tmp_path, (BEDS, bed), (PANELS, panel))
    assert job.panels[0].measured_on == "chord"
    assert job.beds[0] == Bed("table", "concave", 613 * MM, "x", Fraction(1, 2))


def test_the_liner_may_come_from_a_file_beside_the_job(tmp_path):
    """A liner file, in its own units, gives liner, rules and beds that the job does not give."""
    (tmp_path / "liners").mkdir()
    liner = change(
        ('units = "mm"', 'units = "in"'),
        ("[1200, 800]", '["1200 mm", 40]'),
        ("[300, 200, 220, 400]", "[10, 10, 10, 10]"),
        (PANELS, ""),
    )
    write_job(tmp_path / "liners", liner, "reeds.toml")
    order = f'{HEAD}[liner]\nfile = "liners/reeds.toml"\n{PANELS}'
    job = read_job(write_job(tmp_path, order))
    assert job.units == "mm"
    assert job.title == "Bath house, foyer"
    assert job.liner.outline == rect(0, 0, 1200, 1016)
    assert job.rules.dam_width == 25 * INCH
    assert job.beds == (Bed("table"),)


def test_the_jobs_own_rules_and_beds_go_before_those_of_the_liner_file(tmp_path):
    """Rules are taken key by key, beds all or none."""
    write_job(tmp_path, change((PANELS, "")), "reeds.toml")
    order = (
        f'{HEAD}[liner]\nfile = "reeds.toml"\n[rules]\nedge_margin = 20\n{DRUM}'
        '[[panel]]\nmark = "A1"\nsize = [80, 65]\nquantity = 1\n'
    )
    job = read_job(write_job(tmp_path, order))
    assert job.rules == replace(hand_job().rules, edge_margin=20 * MM)
    assert [bed.name for bed in job.beds] == ["drum"]
    assert job.panels[0].bed == "drum"


def test_a_liner_file_may_leave_rules_and_beds_to_the_job(tmp_path):
    """A liner file with the liner alone serves a job that has the rest."""
    write_job(tmp_path, f'units = "mm"\n{LINER}', "reeds.toml")
    order = f'{HEAD}[liner]\nfile = "reeds.toml"\n{RULES}{BEDS}{PANELS}'
    assert read_job(write_job(tmp_path, order)) == hand_job()


def test_a_liner_file_may_lead_to_another(tmp_path):
    """Each file is found from the folder of the file that names it."""
    (tmp_path / "a" / "b").mkdir(parents=True)
    write_job(tmp_path / "a" / "b", f'units = "mm"\n{LINER}', "bare.toml")
    write_job(
        tmp_path / "a", f'units = "mm"\n[liner]\nfile = "b/bare.toml"\n{RULES}', "with_rules.toml"
    )
    order = f'{HEAD}[liner]\nfile = "a/with_rules.toml"\n{BEDS}{PANELS}'
    assert read_job(write_job(tmp_path, order)) == hand_job()


def test_a_job_of_many_ornaments_is_read_whole(tmp_path):
    """Two thousand ornaments keep their number and order."""
    many = "".join(
        f'[[liner.ornament]]\nname = "leaf {n}"\nrect = [{20 + n % 50}, {n / 4}, 0.5, 0.5]\n'
        for n in range(2000)
    )
    job = read(tmp_path, ("[[liner.blank_zone]]", many + "[[liner.blank_zone]]"))
    assert [ornament.name for ornament in job.liner.ornaments[1:]] == [
        f"leaf {n}" for n in range(2000)
    ]
