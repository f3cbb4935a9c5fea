"""The files of a plan: one schedule, a drawing per layout and per kind of panel, one overview."""

import json
import re
from dataclasses import replace
from xml.etree import ElementTree

from printtime import DRAWN

from nesting.drawings.planfiles import write_plan_files
from nesting.files.marks import DXF_MARK
from nesting.schedules.write import schedule_to_json


def test_a_plan_has_a_schedule_drawings_and_an_overview(job, schedule):
    """Layouts in their order, then a front view for each kind of panel in the order of the job."""
    files = write_plan_files(job, schedule, DRAWN)
    faces = [f"face-{panel.mark}.svg" for panel in job.panels]
    layouts = ["layout-01.svg", "layout-02.svg"]
    assert list(files) == ["schedule.json", *layouts, *faces, "overview.svg"]


def test_each_layout_comes_as_dxf_too_where_asked(job, schedule):
    """Beside its SVG, marked as ours, before the overview."""
    files = write_plan_files(job, schedule, DRAWN, dxf=True)
    assert [name for name in files if name.endswith(".dxf")] == ["layout-01.dxf", "layout-02.dxf"]
    assert files["layout-02.dxf"].startswith(DXF_MARK)
    assert set(write_plan_files(job, schedule, DRAWN)) == {
        name for name in files if "dxf" not in name
    }


def test_every_file_is_whole(job, schedule):
    """The schedule is the JSON text of the schedule, and every drawing is an SVG document."""
    files = write_plan_files(job, schedule, DRAWN)
    assert files["schedule.json"] == schedule_to_json(schedule, job)
    assert json.loads(files["schedule.json"])["format"] == "nesting-schedule"
    drawings = [ElementTree.fromstring(text) for name, text in files.items() if "svg" in name]
    assert {drawing.tag for drawing in drawings} == {"{http://www.w3.org/2000/svg}svg"}


def test_the_same_plan_gives_the_same_bytes(job, schedule):
    """Nothing in a file depends on when or how often it is written, but the time it tells."""
    later = write_plan_files(job, schedule, DRAWN.replace(hour=9))
    told = f"{DRAWN:%H:%M}", "09:05"
    files = write_plan_files(job, schedule, DRAWN)
    assert {name: text.replace(*told) for name, text in files.items()} == later
    assert write_plan_files(job, schedule, DRAWN) == write_plan_files(job, schedule, DRAWN)


def test_all_sheets_of_a_plan_bear_its_code_and_those_of_another_do_not(job, schedule):
    """A panel more, or the layouts in another order, and every sheet tells the two apart."""
    other = replace(job, panels=(*job.panels, replace(job.panels[0], mark="Z9")))
    turned = replace(schedule, layouts=schedule.layouts[::-1])
    codes = []
    for files in (
        write_plan_files(job, schedule, DRAWN),
        write_plan_files(other, schedule, DRAWN),
        write_plan_files(job, turned, DRAWN),
    ):
        sheets = [text for name, text in files.items() if name.endswith(".svg")]
        found = [
            re.findall(r"2026-03-02 08:05, code ([A-Z2-9]{4}-[A-Z2-9]{4})", each) for each in sheets
        ]
        assert all(len(each) == 1 for each in found)
        codes.append({code for each in found for code in each})
    assert all(len(each) == 1 for each in codes)
    assert len(set.union(*codes)) == 3
