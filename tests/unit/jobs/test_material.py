"""The tables for quantities as people write them, with every mistake told at once."""

from fractions import Fraction

import pytest
from handjob import MM, hand_job
from jobtext import JOB, change, list_mistakes, write_job

from nesting.jobs.read import read_job
from nesting.masses import KG_PER_LB
from nesting.units import STEPS_PER_INCH
from nesting.values.material import BACKING_MIX, USUAL, default_materials

TABLES = """
[material]
thickness = 25
face_coat = 5
least_thickness = "1/2 in"
[mix.face]
sand = 0.8
water = "36 %"
polymer = 0.06
dispersion_solids = 0.47
plasticiser = 0.02
pigment = "3 %"
fibre = 0
wet_density = "2.1 t/m3"
cured_density = 1950
[batch]
overspray = "10 %"
loss = 0
mixer = "100 lb"
scale = "5 g"
[rubber]
density = 1100
model_days = 3
making_hours = 2.5
demould_hours = 18
[rubber.second]
size = [900, 700]
thickness = 15
ornaments = ["heron"]
[lifting]
points = 4
hand_limit = 20
[prices]
currency = "crowns"
cement = 0.5
fibre = 5
rubber = 12
dam = 3
liner = 900
pulls = 100
"""
BOSS = ("rect = [300, 200, 220, 400]", 'rect = [300, 200, 220, 400]\nrelief = 9\non_panel = "boss"')


def read(folder, text):
    """Return the materials of the hand-sized job with these tables."""
    return read_job(write_job(folder, JOB + text)).materials


def told(folder, text, base=JOB):
    """Return the mistakes, without the file's name."""
    lines = list_mistakes(write_job(folder, base + text))
    return [line.partition(": ")[2] for line in lines]


def test_every_key_is_read(tmp_path):
    """Shares, weights, densities and lengths in their own units."""
    found = read(tmp_path, TABLES)
    panel = found.panel
    assert (panel.thickness, panel.face_coat) == (25 * MM, 5 * MM)
    assert panel.least_thickness == STEPS_PER_INCH // 2
    face = found.face
    assert (face.water, face.pigment, face.wet_density) == (
        Fraction("0.36"),
        Fraction("0.03"),
        2100,
    )
    assert found.backing == BACKING_MIX
    batch = found.batch
    assert (batch.mixer, batch.scale) == (100 * KG_PER_LB, Fraction("0.005"))
    assert (batch.overspray, batch.loss) == (Fraction("0.1"), 0)
    rubber = found.rubber
    assert (rubber.model_days, rubber.making_hours, rubber.demould_hours) == (3, 2.5, 18)
    assert (rubber.second.width, rubber.second.ornaments) == (900 * MM, ("heron",))
    assert (found.lifting.points, found.lifting.hand_limit) == (4, 20)
    prices = found.prices
    assert prices.ingredients == (("cement", Fraction(1, 2)), ("fibre", Fraction(5)))
    assert (prices.currency, prices.dam, prices.liner, prices.pulls) == ("crowns", 3, 900, 100)


def test_without_tables_the_defaults_hold(tmp_path):
    """A job as it always was has all that is needed, in round figures of its units."""
    assert read(tmp_path, "") == hand_job().materials == USUAL
    inches = change(('units = "mm"', 'units = "in"'), ("set_out = 1\n", ""))
    assert read_job(write_job(tmp_path, inches)).materials == default_materials("in")


def test_inch_jobs_have_pounds(tmp_path):
    """Weights are lb, densities lb/ft3, prices per lb and per ft; inside it is kg and m."""
    text = change(('units = "mm"', 'units = "in"'), ("set_out = 1\n", ""))
    text += "[batch]\nmixer = 150\n[rubber]\ndensity = 70\n[prices]\ncement = 1\ndam = 1\n"
    found = read_job(write_job(tmp_path, text)).materials
    assert found.batch.mixer == 150 * KG_PER_LB
    assert float(found.rubber.density) == pytest.approx(1121.3, abs=0.1)
    assert found.prices.ingredients == (("cement", 1 / KG_PER_LB),)
    assert found.prices.dam == 1 / Fraction("0.3048")


def test_ornaments_say_what_they_are_on_the_panel(tmp_path):
    """A boss or a hollow, with its fill; neither is needed."""
    job = read_job(write_job(tmp_path, change(BOSS)))
    (heron,) = job.liner.ornaments
    assert (heron.on_panel, heron.fill) == ("boss", Fraction(1, 2))
    (plain,) = hand_job().liner.ornaments
    assert plain.on_panel == ""
    text = change(BOSS, ('"boss"', '"bump"\nfill = 2'))
    assert told(tmp_path, "", text) == [
        "liner.ornament[1].on_panel: must be one of boss, hollow, got 'bump'.",
        "liner.ornament[1].fill: must be >= 0 and <= 1, as a share of the relief, got 2; "
        'write five parts in a hundred as 0.05 or "5 %".',
    ]


def test_all_mistakes_are_told_at_once(tmp_path):
    """Unknown keys, wrong signs and shares above the whole, each with its line."""
    text = """[mix.face]
fibre = "100 %"
wet_density = -2000
watr = 0.3
[batch]
mixer = 0
[lifting]
points = 0
[prices]
sand = -1
liner = 900
"""
    start = JOB.count("\n")
    lines = list_mistakes(write_job(tmp_path, JOB + text))
    assert lines == [
        f"job.toml:{start + 2}: mix.face.fibre: must be >= 0 and < 1, as a share of the whole, got "
        "'100 %'; write five parts in a hundred as 0.05 or \"5 %\".",
        f"job.toml:{start + 3}: mix.face.wet_density: must be from 500 to 5000 kg/m3 (31.2 to "
        "312.1 lb/ft3), got -2000 kg/m3.",
        f"job.toml:{start + 4}: mix.face.watr: unknown key; the nearest known key is water.",
        f"job.toml:{start + 6}: batch.mixer: must be > 0 kg, got 0 kg.",
        f"job.toml:{start + 8}: lifting.points: must be a whole number from 1 to 100, got 0.",
        f"job.toml:{start + 9}: prices.pulls: this key is needed where liner has a price.",
        f"job.toml:{start + 10}: prices.sand: must be a price from 0 to 1000000000, got -1.",
    ]


def test_keys_of_the_calendar_are_told_their_place(tmp_path):
    """Casts per day and the time dams take are one key each, in [calendar]."""
    start = JOB.count("\n")
    text = "[batch]\ncasts_per_day = 2\n[rubber]\nset_hours = 1\n"
    assert list_mistakes(write_job(tmp_path, JOB + text)) == [
        f"job.toml:{start + 2}: batch.casts_per_day: this key is in [calendar]; write it there, "
        "where it counts the casts that one liner takes in a day.",
        f"job.toml:{start + 4}: rubber.set_hours: how long dams take is in [calendar.times]; write "
        "set_out and reset there.",
    ]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (
            "[mix.backing]\npolymer = 0.2\nwater = 0.15",
            "mix.backing.water: must be >= 0.2 of the cement, the water the dispersion brings, got "
            "0.15; water is all the water of the mix; give more, or less polymer.",
        ),
        (
            "[mix.face]\nwater = -0.1",
            "mix.face.water: must be >= 0 and <= 2, as a share of the cement",
        ),
        (
            "[mix.face]\ndispersion_solids = 0",
            "must be >= 0.1 and <= 1, as a share of the dispersion",
        ),
        ("[mix.front]\nwater = 0.3", "mix.front: unknown key; known keys here: face, backing."),
        (
            "[material]\nface_coat = 19",
            "material.face_coat: must be < 19 mm, the thickness, got 19 mm.",
        ),
        (
            "[material]\nthickness = 4",
            "material.thickness: must be > 4 mm, the face coat's, got 4 mm.",
        ),
        (
            "[batch]\nscale = 1",
            "batch.mixer: must be >= 100 divisions of the scale, got 60 kg; "
            "the scale's division is 1 kg.",
        ),
        (
            '[rubber.second]\nsize = [1, 1]\nornaments = ["hern"]',
            "rubber.second.ornaments: there is no such ornament, got 'hern'; known: 'heron'.",
        ),
        ("[rubber.second]\nthickness = 1", "rubber.second.size: this key is needed."),
        ("[rubber]\nmaking_hours = -1", "must be a number of hours from 0 to 10000, got -1."),
        (
            '[prices]\ncement = "dear"',
            "prices.cement: must be a price from 0 to 1000000000, got 'dear'.",
        ),
        ("[lifting]\nhand_limit = 0", "lifting.hand_limit: must be > 0 kg, got 0 kg."),
        ("[mix]\nface = 3", "mix.face: must be a table, got 3."),
    ],
)
def test_each_rule_has_its_line(tmp_path, text, line):
    """One mistake, one line, with the rule, the value got and what to do."""
    (only,) = told(tmp_path, text)
    assert line in only


def test_a_top_table_that_is_none_is_told(tmp_path):
    """A number under its name has its line."""
    (only,) = told(tmp_path, "", "batch = 3\n" + JOB)
    assert only == "batch: must be a table, got 3."


def test_a_liner_file_may_hold_tables_and_the_job_goes_first(tmp_path):
    """Each table is taken whole: the job's, else the liner file's."""
    start, order = JOB.index("[liner]"), JOB.index("[[panel]]")
    liner = 'units = "mm"\n' + JOB[start:order] + "[lifting]\npoints = 3\n[batch]\nloss = 0.2\n"
    liner += '[rubber.second]\nsize = [100, 100]\nornaments = ["heron"]\n'
    write_job(tmp_path, liner, "reeds.toml")
    job = JOB[:start] + '[liner]\nfile = "reeds.toml"\n[lifting]\nhand_limit = 20\n' + JOB[order:]
    found = read_job(write_job(tmp_path, job)).materials
    assert (found.lifting.points, found.lifting.hand_limit) == (2, 20)
    assert found.batch.loss == Fraction("0.2")
    assert found.rubber.second.thickness == 13 * MM
