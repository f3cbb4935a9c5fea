"""A schedule as JSON and back: `nesting.schedules.write` and `nesting.schedules.parts`."""

import json
from dataclasses import replace

import pytest
from handjob import MM, hand_job, hand_schedule
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from nesting.errors import InputErrors
from nesting.planning.dams import account
from nesting.schedules.write import read_schedule, read_totals, schedule_to_json
from nesting.values.casts import Areas, Dam, Layout, Placement, Proof, Schedule, Sides, totals
from nesting.values.liner import Liner

NOT_WRITTEN = [HealthCheck.function_scoped_fixture]
REMOVE = object()


def write(folder, schedule, job=None):
    """Write a schedule file and return its path."""
    path = folder / "schedule.json"
    path.write_text(schedule_to_json(schedule, job or hand_job()), encoding="utf-8")
    return path


def damage(folder, keys, value):
    """Write the hand-sized schedule with one value exchanged or removed; return its path."""
    document = json.loads(schedule_to_json(hand_schedule(), hand_job()))
    place = document
    for key in keys[:-1]:
        place = place[key]
    if value is REMOVE:
        del place[keys[-1]]
    else:
        place[keys[-1]] = value
    path = folder / "schedule.json"
    path.write_text(json.dumps(document), encoding="utf-8")
    return path


def list_mistakes(path):
    """Return the lines of the mistakes that reading the file tells; an empty list for none."""
    try:
        read_schedule(path)
    except InputErrors as errors:
        return str(errors).splitlines() or ["refused without a reason"]
    return []


def full_schedule():
    """Return a schedule in which no field has its default."""
    one, two = hand_schedule().layouts
    panels = (
        replace(one.panels[0], turned=True, off_nominal=(-3 * MM, 1)),
        replace(one.panels[1], off_nominal=(0, 3175)),
    )
    dams = (replace(one.dams[0], clearance=None), replace(one.dams[1], zones=()))
    proof = Proof("table", 2, 3, (("C1", 10**12), ("A1", 0)), 5, 4, ((1, 2, 3), (-4, 0, 0)), "dual")
    return Schedule(
        job="Bad hÖfle & 芦苇",
        lower_bound=2,
        layouts=(
            replace(one, panels=panels, dams=dams, repeats=12),
            replace(two, number=7, same_dams_as=1),
        ),
        proofs=(proof, replace(proof, bed="drum", points=())),
        layouts_bound=1,
        layouts_proved=True,
        dam_length_proved=True,
        notes=("the time limit of 5 s was reached", "two\nlines"),
    )


def test_a_schedule_reads_back_equal(tmp_path):
    """The hand-sized schedule, written and read, is the same value."""
    assert read_schedule(write(tmp_path, hand_schedule())) == hand_schedule()


def test_every_field_reads_back_equal(tmp_path):
    """No field is lost: turns, tolerances, reused dams, proofs, flags and notes."""
    assert read_schedule(write(tmp_path, full_schedule())) == full_schedule()


def test_a_file_of_before_with_a_verdict_on_clearance_is_still_read(tmp_path):
    """The key said false in every file and says nothing now."""
    path = write(tmp_path, hand_schedule())
    document = json.loads(path.read_text(encoding="utf-8"))
    assert "proved_clearance" not in document
    path.write_text(json.dumps(document | {"proved_clearance": False}), encoding="utf-8")
    assert read_schedule(path) == hand_schedule()


def test_an_empty_schedule_reads_back_equal(tmp_path):
    """A schedule of no casts has totals of nothing."""
    empty = Schedule("Bath house, foyer", 0, ())
    path = write(tmp_path, empty)
    assert read_schedule(path) == empty
    assert json.loads(path.read_text())["totals"] == {
        "panels": {},
        "liner_area": 0,
        "panel_area": 0,
        "idle_area": 0,
        "idle_share": 0,
    }


lengths = st.integers(-(2**28), 2**28)
sizes = st.integers(0, 2**20)
names = st.sampled_from(["A1", "B-2", "Ö 3", "heron", "芦苇"])
sides = st.sampled_from(["edge", "dam"])
placements = st.builds(
    Placement,
    names,
    lengths,
    lengths,
    sizes,
    sizes,
    st.builds(Sides, sides, sides, sides, sides),
    st.lists(names, max_size=2).map(tuple),
    st.booleans(),
    st.tuples(lengths, lengths),
)
dams = st.builds(
    Dam,
    names,
    lengths,
    lengths,
    sizes,
    sizes,
    st.lists(names, max_size=2).map(tuple),
    st.none() | lengths,
)


@st.composite
def layouts(draw):
    """Draw a layout anywhere on the grid whose account follows from its panels and dams."""
    panels = tuple(draw(st.lists(placements, max_size=3)))
    strips = tuple(draw(st.lists(dams, max_size=3)))
    covered = sum(panel.width * panel.height for panel in panels)
    laid = sum(dam.width * dam.height for dam in strips)
    liner = hand_job().liner.outline.area
    areas = Areas(liner, covered, laid, liner - covered - laid)
    return Layout(
        draw(st.integers(1, 99)), draw(st.integers(1, 10**5)), draw(names), panels, strips, areas
    )


@settings(max_examples=60, suppress_health_check=NOT_WRITTEN)
@given(st.lists(layouts(), max_size=3))
def test_any_schedule_on_the_grid_reads_back_equal(tmp_path, drawn):
    """Lengths of any steps and areas of any square steps come back exactly, as do the totals."""
    schedule = Schedule("Bath house, foyer", 0, tuple(drawn))
    path = write(tmp_path, schedule)
    assert read_schedule(path) == schedule
    assert as_values(read_totals(path)) == as_values(totals(schedule))


def as_values(stated):
    """Return totals for comparison, whatever the order of their marks."""
    return replace(stated, panels=tuple(sorted(stated.panels)))


def test_a_liner_of_odd_square_steps_reads_back_equal(tmp_path):
    """Areas finer than six decimals are taken from the geometry that they round from."""
    job = hand_job()
    outline = type(job.liner.outline)(
        ((0, 0), (9_600_001, 0), (9_600_003, 6_400_001), (0, 6400001))
    )
    liner = Liner("odd", outline, 13 * MM)
    layout = replace(hand_schedule().layouts[0], panels=(), dams=(), areas=account(liner, (), ()))
    schedule = replace(hand_schedule(), layouts=(layout,))
    assert outline.area % 64
    assert read_schedule(write(tmp_path, schedule, replace(job, liner=liner))) == schedule


@pytest.mark.parametrize("part", ["liner", "panels", "dams", "masked"])
def test_a_wrong_account_is_read_as_it_is_written(tmp_path, part):
    """Figures that geometry does not give are kept for the checker to find."""
    right = hand_schedule()
    one, two = right.layouts
    wrong = replace(one.areas, **{part: getattr(one.areas, part) + 64_000_000})
    schedule = replace(right, layouts=(replace(one, areas=wrong), two))
    assert read_schedule(write(tmp_path, schedule)) == schedule


def test_faults_of_geometry_are_read_as_they_are(tmp_path):
    """A panel off the liner, of an unknown mark and of no size is a matter for the checker."""
    right = hand_schedule()
    one, two = right.layouts
    lost = replace(one.panels[0], mark="nobody", x=-9 * MM, width=0)
    schedule = replace(right, layouts=(replace(one, panels=(lost,)), two))
    assert read_schedule(write(tmp_path, schedule)).layouts[0].panels == (lost,)


def test_the_text_is_that_of_the_documentation(tmp_path):
    """Format and version first, other keys sorted; lengths in mm, areas in mm2."""
    text = schedule_to_json(hand_schedule(), hand_job())
    document = json.loads(text)
    assert text == json.dumps(document, indent=1, ensure_ascii=False) + "\n"
    assert list(document)[2:] == sorted(set(document) - {"format", "version"})
    assert document["format"] == "nesting-schedule"
    assert document["version"] == 1
    assert (document["casts"], document["lower_bound"], document["proved"]) == (2, 2, True)
    layout = document["layouts"][0]
    assert layout["panels"][0] == {
        "mark": "A1",
        "x": 0,
        "y": 0,
        "width": 800,
        "height": 650,
        "turned": False,
        "shows": ["heron"],
        "sides": {"left": "edge", "right": "dam", "bottom": "edge", "top": "dam"},
    }
    assert layout["dams"][0] == {
        "name": "dam 1",
        "x": 800,
        "y": 0,
        "width": 25,
        "height": 800,
        "zones": ["east", "north"],
        "clearance": 280,
    }
    assert layout["area"] == {
        "liner": 960_000,
        "panels": 820_000,
        "dams": 40_000,
        "masked": 100_000,
        "idle": 140_000,
    }
    assert document["totals"] == {
        "panels": {"A1": 1, "B1": 1, "C1": 1},
        "liner_area": 1_920_000,
        "panel_area": 1_600_000,
        "idle_area": 320_000,
        "idle_share": 0.166667,
    }


def test_figures_have_at_most_six_decimals():
    """A step is 0.000125 mm and is written so; areas are rounded to six decimals and add up."""
    one, two = hand_schedule().layouts
    panel = replace(one.panels[0], x=1, width=6_400_001, off_nominal=(1, 0))
    areas = account(hand_job().liner, (panel,), one.dams)
    layout = replace(one, panels=(panel,), areas=areas)
    document = json.loads(
        schedule_to_json(replace(hand_schedule(), layouts=(layout, two)), hand_job())
    )
    record = document["layouts"][0]
    assert record["panels"][0]["x"] == 0.000125
    assert record["panels"][0]["off_nominal"] == [0.000125, 0]
    parts = record["area"]
    assert parts["panels"] == 520_000.08125
    assert parts["liner"] == parts["panels"] + parts["dams"] + parts["masked"]
    assert parts["idle"] == parts["dams"] + parts["masked"]


def test_totals_are_read_as_stated(tmp_path):
    """Totals that the layouts do not come to are told as the file states them."""
    path = damage(tmp_path, ("totals", "idle_area"), 320_000.5)
    right = totals(hand_schedule())
    assert read_totals(path) == replace(right, idle_area=right.idle_area + 32_000_000)
    assert read_totals(damage(tmp_path, ("casts",), 3)).casts == 3
    assert dict(read_totals(damage(tmp_path, ("totals", "panels", "A1"), 9)).panels)["A1"] == 9


@pytest.mark.parametrize(
    ("keys", "value", "mistakes"),
    [
        (("format",), "other", ["format: must be one of nesting-schedule, got 'other'"]),
        (("format",), REMOVE, ["format: this key is needed"]),
        (("version",), 2, ["version: must be a whole number from 1 to 1, got 2"]),
        (("job",), 5, ["job: must be text, got 5; put it in quotes"]),
        (("proved",), "yes", ["proved: must be true or false, got 'yes'"]),
        (("casts",), -1, ["casts: must be a whole number from 0 to 1000000000000000000, got -1"]),
        (("layouts",), REMOVE, ["layouts: this key is needed"]),
        (("layouts",), {}, ["layouts: must be a list of tables, got a table"]),
        (("totals",), REMOVE, ["totals: this table is needed"]),
        (("totals",), [], ["totals: must be a table, got a list of 0"]),
        (("totals", "idle_share"), None, ["totals.idle_share: must be a number, got null"]),
        (
            ("totals", "panels"),
            7,
            ["totals.panels: must name a number for each mark, got 7"],
        ),
        (
            ("layouts", 0, "areas"),
            1,
            ["layouts[1].areas: unknown key; the nearest known key is area"],
        ),
        (("layouts", 0, "area"), REMOVE, ["layouts[1].area: this table is needed"]),
        (("layouts", 0, "area", "dams"), REMOVE, ["layouts[1].area.dams: this key is needed"]),
        (
            ("layouts", 0, "panels", 1, "x"),
            "63 in",
            ["layouts[1].panels[2].x: must be a number, got '63 in'"],
        ),
        (
            ("layouts", 0, "panels", 1, "x"),
            float("nan"),
            ["layouts[1].panels[2].x: must be a finite number, got nan"],
        ),
        (
            ("layouts", 0, "panels", 1, "x"),
            1e300,
            ["layouts[1].panels[2].x: must be at most 1000000, got 1e+300"],
        ),
        (
            ("layouts", 0, "panels", 1, "x"),
            10**400,
            [
                "layouts[1].panels[2].x: must be at most 1000000, "
                "got a number of more than 30 digits"
            ],
        ),
        (
            ("layouts", 0, "panels", 0, "sides", "top"),
            "rim",
            ["layouts[1].panels[1].sides.top: must be one of edge, dam, got 'rim'"],
        ),
        (
            ("layouts", 0, "panels", 0, "off_nominal"),
            [1],
            ["layouts[1].panels[1].off_nominal: must be a list of 2, got a list of 1"],
        ),
        (
            ("layouts", 0, "dams", 0, "clearance"),
            True,
            ["layouts[1].dams[1].clearance: must be a number, got true"],
        ),
        (
            ("layouts", 0, "repeats"),
            0,
            ["layouts[1].repeats: must be a whole number from 1 to 1000000000000000000, got 0"],
        ),
        (
            ("proof", 0, "prices"),
            [["A1", 1], ["B1"]],
            ["proof[1].prices[2]: must be a list of 2, got a list of 1"],
        ),
        (
            ("notes",),
            ["a\x1b[31m"],
            ["notes[1]: must be text without control characters, got 'a\\x1b[31m'"],
        ),
    ],
)
def test_a_mistake_of_form_is_told_by_key_rule_and_value(tmp_path, keys, value, mistakes):
    """Each damaged file gives exactly its lines."""
    path = damage(tmp_path, keys, value)
    assert list_mistakes(path) == [f"schedule.json: {text}." for text in mistakes]


def test_all_mistakes_of_form_come_at_once(tmp_path):
    """Mistakes far apart in the file are told together."""
    document = json.loads(schedule_to_json(hand_schedule(), hand_job()))
    document["job"] = None
    document["layouts"][1]["bed"] = 4
    del document["totals"]["liner_area"]
    path = tmp_path / "schedule.json"
    path.write_text(json.dumps(document))
    assert list_mistakes(path) == [
        "schedule.json: job: must be text, got null.",
        "schedule.json: layouts[2].bed: must be text, got 4; put it in quotes.",
        "schedule.json: totals.liner_area: this key is needed.",
    ]


@pytest.mark.parametrize(
    ("text", "mistake"),
    [
        (
            '{"format": nesting}',
            "schedule.json:1: the file is not JSON: expecting value (column 12); name the "
            "schedule.json that nesting plan has written.",
        ),
        ("[1]", "schedule.json: a schedule is an object with named values, got a list of 1."),
        ('{"a": 1, "a": 2}', "schedule.json: a key must be given once, got 'a' twice."),
        ("[" * 100_000, "schedule.json: the file is not JSON: nested too deep."),
        ("9" * 5000, "schedule.json: the file is not JSON: a number is too long."),
    ],
)
def test_text_that_is_no_schedule_is_told_with_its_reason(tmp_path, text, mistake):
    """Text that is not JSON, or no object, is one line."""
    path = tmp_path / "schedule.json"
    path.write_text(text)
    assert list_mistakes(path) == [mistake]


def test_a_missing_file_and_a_folder_are_told(tmp_path):
    """A schedule file that is not there, or a folder, is one line."""
    path = tmp_path / "schedule.json"
    assert list_mistakes(path) == [f"{path}: there is no such file."]
    path.mkdir()
    assert list_mistakes(path) == [f"{path}: this is a folder; name the file itself."]


@settings(max_examples=100, suppress_health_check=NOT_WRITTEN)
@given(start=st.integers(0, 4000), length=st.integers(0, 40), text=st.text(max_size=3))
def test_a_damaged_file_is_read_or_refused_with_reasons(tmp_path, start, length, text):
    """Whatever is cut out of a file or put into it ends in a schedule or in printable reasons."""
    whole = schedule_to_json(hand_schedule(), hand_job())
    path = tmp_path / "schedule.json"
    path.write_text(whole[:start] + text + whole[start + length :], encoding="utf-8")
    lines = list_mistakes(path)
    assert all(line.isprintable() and line.endswith(".") for line in lines)
    assert "refused without a reason" not in lines
