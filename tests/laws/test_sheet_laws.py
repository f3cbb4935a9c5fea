"""What holds of every sheet: its key explains what is drawn, and its stamp tells what it shows."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from calendarjobs import make_calendar
from drawjobs import CASES, drawn
from handjob import hand_job, slanted_job
from legends import idle_marks
from longcases import leave_long
from makescans import MM
from motiffiles import load_motif

from nesting.cli import run
from nesting.days.chart import draw_calendar
from nesting.drawings.overview import draw_overview
from nesting.fitting.rangechart import draw_range
from nesting.jobs.read import read_job
from nesting.liners.options import DrawingOptions
from nesting.liners.picture import draw_liner
from nesting.liners.read import read_drawing
from nesting.maps.ground import survey
from nesting.maps.sizeregion import list_ordered, map_region
from nesting.values.bend import bend_of
from nesting.zones.carving import draw_carving
from nesting.zones.trade import plan_motif
from nesting.zones.uses import list_uses

ROOT = Path(__file__).parents[2]
SLOW = {"crowded", "narrow", "countless", "strewn"}
STAMP = r"2026-03-02 08:05, code ([2-9A-HJ-NP-Z]{4}-[2-9A-HJ-NP-Z]{4})"


def ranges(make):
    """Return the chart of every size of a job."""
    job = make()
    ordered = list_ordered(job, bend_of(job, job.beds[0].name))
    return draw_range(job, map_region(survey(job.liner, job.rules)), job.beds[0].name, ordered)


def carving(folder):
    """Return the drawing to carve a motif from."""
    trade = plan_motif(load_motif(folder))
    return draw_carving(trade.best, list_uses(trade.best.zoning))


@pytest.mark.parametrize(
    "case", leave_long(CASES, {"crowded", "narrow", "countless", "strewn"}.__contains__)
)
def test_keys_of_layouts_and_overviews_explain_what_is_drawn(case):
    """Each swatch's style is that of some shape on the drawing, whatever the job."""
    assert idle_marks(drawn(case)[2]) == set()
    assert idle_marks(draw_overview(*CASES[case]())) == set()


@pytest.mark.long
def test_keys_of_other_sheets_explain_what_is_drawn(tmp_path):
    """The calendar, the sizes a liner gives, a liner as read, the drawing to carve from."""
    job, _, calendar = make_calendar()
    options = DrawingOptions(thickness=13 * MM)
    sheets = {
        "calendar": draw_calendar(job, calendar),
        "sizes": ranges(hand_job),
        "possible sizes": ranges(slanted_job),
        "ferry sizes": ranges(lambda: read_job(FILES["JOB"])),
        "carving": carving(tmp_path),
    }
    for path in (ROOT / "examples" / "drawings").glob("*.svg"):
        sheets[path.stem] = draw_liner(read_drawing(path, options))
    idle = {name: idle_marks(sheet) for name, sheet in sheets.items()}
    assert not any(idle.values()), idle


def test_a_mark_in_vain_is_found():
    """The law can fail: a key's swatch for edge sides where the layout has none."""
    _, _, drawing = drawn("ferry")
    assert idle_marks(drawing) == set()
    bare = tuple(layer for layer in drawing.layers if layer.name != "dams")
    assert {"dam", "edge_side", "rim"} <= idle_marks(replace(drawing, layers=bare))


def codes(folder):
    """Return the sheet codes in a folder; every drawing in it must bear one, and its time."""
    texts = [path.read_text(encoding="utf-8") for path in folder.glob("*.svg")]
    assert all(len(re.findall(STAMP, text)) == 1 for text in texts)
    return {re.findall(STAMP, text)[0] for text in texts}


COMMANDS = {
    "calendar": ["calendar", "JOB", "--schedule", "PLAN", "-o", "calendar"],
    "packet": ["packet", "JOB", "--schedule", "PLAN", "-o", "packet"],
    "dam": ["template", "JOB", "--schedule", "PLAN", "--layout", "1", "--dam", "1"],
    "panel": ["template", "JOB", "--panel", "A1"],
    "fit": ["fit", "JOB", "1500x900", "--bed", "table", "-o", "fit"],
    "range": ["range", "JOB", "--bed", "table", "-o", "range/sizes.svg"],
    "liner": ["liner", "DRAWING", "--thickness", "13", "--svg", "liner/liner.svg"],
    "wall": ["wall", "WALL", "--svg", "wall/wall.svg"],
}
FILES = {
    "JOB": ROOT / "examples" / "ferry-terminal.toml",
    "PLAN": ROOT / "output_svg" / "ferry-terminal" / "schedule.json",
    "DRAWING": ROOT / "examples" / "drawings" / "herons.svg",
    "WALL": ROOT / "examples" / "walls" / "reading-room-drum.toml",
}


@pytest.mark.long
def test_every_command_stamps_its_sheets(tmp_path, monkeypatch, capsys):
    """Of one plan all sheets, the packet and check have one code; sheets of the job another."""
    monkeypatch.chdir(tmp_path)
    found = {}
    for name, words in COMMANDS.items():
        Path(name).mkdir()
        ends = ["--svg-sheets", "-o", name] if words[0] == "template" else []
        assert run([*(str(FILES.get(word, word)) for word in words), *ends]) == 0
        found[name] = codes(Path(name))
    capsys.readouterr()
    assert run(["check", str(FILES["JOB"]), str(FILES["PLAN"])]) == 0
    (code,) = re.findall(r"sheet code (\S+)\.", capsys.readouterr().out)
    assert set(re.findall(STAMP, Path("packet/packet.html").read_text(encoding="utf-8"))) == {code}
    assert found.pop("packet") == set()
    assert found["calendar"] == found["dam"] == {code}
    assert found["panel"] == found["fit"] == found["range"] != {code}
    assert len(set.union(*found.values())) == 4
