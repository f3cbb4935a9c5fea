"""The files of a plan: one schedule, a drawing per layout and per kind of panel, one overview."""

import json
from xml.etree import ElementTree

from nesting.drawings.planfiles import write_plan_files
from nesting.files.marks import DXF_MARK
from nesting.schedules.write import schedule_to_json


def test_a_plan_has_a_schedule_drawings_and_an_overview(job, schedule):
    """Layouts in their order, then a front view for each kind of panel in the order of the job."""
    files = write_plan_files(job, schedule)
    faces = [f"face-{panel.mark}.svg" for panel in job.panels]
    layouts = ["layout-01.svg", "layout-02.svg"]
    assert list(files) == ["schedule.json", *layouts, *faces, "overview.svg"]


def test_each_layout_comes_as_dxf_too_where_asked(job, schedule):
    """Beside its SVG, marked as ours, before the overview."""
    files = write_plan_files(job, schedule, dxf=True)
    assert [name for name in files if name.endswith(".dxf")] == ["layout-01.dxf", "layout-02.dxf"]
    assert files["layout-02.dxf"].startswith(DXF_MARK)
    assert set(write_plan_files(job, schedule)) == {name for name in files if "dxf" not in name}


def test_every_file_is_whole(job, schedule):
    """The schedule is the JSON text of the schedule, and every drawing is an SVG document."""
    files = write_plan_files(job, schedule)
    assert files["schedule.json"] == schedule_to_json(schedule, job)
    assert json.loads(files["schedule.json"])["format"] == "nesting-schedule"
    drawings = [ElementTree.fromstring(text) for name, text in files.items() if "svg" in name]
    assert {drawing.tag for drawing in drawings} == {"{http://www.w3.org/2000/svg}svg"}


def test_the_same_plan_gives_the_same_bytes(job, schedule):
    """Nothing in a file depends on when or how often it is written."""
    assert write_plan_files(job, schedule) == write_plan_files(job, schedule)
