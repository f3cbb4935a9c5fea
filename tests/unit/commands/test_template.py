"""The template command: what is printed, what is written, and how it ends."""

import json
import shutil
from pathlib import Path

import pytest
from pdfink import page_sizes, read_texts

from nesting.cli import run

ROOT = Path(__file__).parents[3]


@pytest.fixture
def shop(tmp_path, monkeypatch):
    """Return an empty folder, gone to, with the ferry job and its schedule."""
    monkeypatch.chdir(tmp_path)
    shutil.copy(ROOT / "examples" / "ferry-terminal.toml", "job.toml")
    shutil.copy(ROOT / "output_svg" / "ferry-terminal" / "schedule.json", "plan.json")
    return tmp_path


GIVEN = ["template", "job.toml", "--schedule", "plan.json"]


def test_a_dam_is_written_as_pdf(shop, capsys):
    """The folder is made, the report ends with what was written, pages are A4."""
    assert run([*GIVEN, "--layout", "1", "--dam", "2", "-o", "out"]) == 0
    printed = capsys.readouterr()
    assert printed.err == ""
    assert "4 sheets of A4, upright." in printed.out
    assert printed.out.endswith("\nWritten to out: template.pdf, template.json.\n")
    pdf = (shop / "out" / "template.pdf").read_bytes()
    assert page_sizes(pdf) == [pytest.approx((210, 297), abs=1e-3)] * 4
    assert "dam 2: x 1575 to 1600, y 0 to 890" in read_texts(pdf)


def test_without_a_folder_nothing_is_written(shop, capsys):
    """The report says how to get the files."""
    assert run([*GIVEN, "--layout", "1", "--paper", "a0"]) == 0
    out = capsys.readouterr().out
    assert out.endswith("Nothing was written; give a folder with -o for the PDF.\n")
    assert sorted(path.name for path in shop.iterdir()) == ["job.toml", "plan.json"]


def test_svg_adds_a_drawing_per_sheet(shop, capsys):
    """The last line names the first and the last."""
    assert run([*GIVEN, "--layout", "1", "--dam", "2", "-o", "out", "--svg-sheets"]) == 0
    assert "template.json, template-1-1.svg to template-4-1.svg." in capsys.readouterr().out
    assert len(list((shop / "out").glob("*.svg"))) == 4


def test_json_prints_the_list_and_nothing_else(shop, capsys):
    """It is what template.json holds."""
    args = ["--panel", "A1", "--layout", "1", "--paper", "roll:914mm", "-o", "out", "--json"]
    assert run([*GIVEN, *args]) == 0
    out = capsys.readouterr().out
    assert out == (shop / "out" / "template.json").read_text(encoding="utf-8")
    assert json.loads(out)["subject"] == "Panel A1 of layout 1, seen from above"


def test_a_panel_alone_needs_no_schedule(shop, capsys):
    """Its flat outline is drawn from the order, without a search."""
    assert run(["template", "job.toml", "--panel", "B1"]) == 0
    assert "B1 is 1537 scant × 900 mm as drawn" in capsys.readouterr().out  # noqa: RUF001 - the sign
    assert run(["template", "job.toml", "--panel", "B1", "--exact"]) == 0
    assert "In decimals: width 1536.678, diagonal 1780.837." in capsys.readouterr().out
    assert run(["template", "job.toml", "--panel", "B1", "--on-face", "--landscape"]) == 0
    out = capsys.readouterr().out
    assert "B1 is 1540 × 900 mm as drawn" in out  # noqa: RUF001 - the sign
    assert "developed FACE" in out
    assert ", lying." in out


def test_a_job_is_planned_where_no_schedule_is_given(tmp_path, monkeypatch, capsys):
    """A small job is planned, checked and drawn in one go; inch jobs come on letter paper."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(
        'title = "<b>&Bath"\nunits = "in"\n[liner]\nname = "waves"\nsize = [48, 24]\n'
        'thickness = 0.5\nunmarked = "blank"\n[rules]\ndam_width = 1\ndam_clearance = 0.25\n'
        'edge_margin = 0.5\nset_out = "1/16 in"\n[[panel]]\nmark = "A1"\nsize = [30, 20]\n'
        "quantity = 1\n",
        encoding="utf-8",
    )
    assert (
        run(["template", "job.toml", "--layout", "1", "-o", "out", "--svg-sheets", "--mirror"]) == 0
    )
    out = capsys.readouterr().out
    assert "sheets of letter, lying" in out
    assert "MIRRORED" in out
    drawings = [path.read_text(encoding="utf-8") for path in (tmp_path / "out").glob("*.svg")]
    assert all("<b>" not in text and "MIRRORED" in text for text in drawings)
    assert all("&lt;b&gt;&amp;Bath" in text for text in drawings)


def test_ribs_come_with_their_figures(shop, capsys):
    """Radius, chord, rise and number are printed; the deck is allowed for."""
    assert run(["template", "job.toml", "--bed", "drum", "--deck", "6 mm", "--paper", "a0"]) == 0
    out = capsys.readouterr().out
    assert "panel face R 3013 mm, liner 13 mm, deck 6 mm." in out
    assert "Rib edge R 2994 mm, chord " in out
    assert "Cut 5 ribs alike; set them 300 mm apart along y" in out


WRONG = [
    ([], "name what to draw: --layout N"),
    (["--dam", "1"], "--dam needs --layout N"),
    (["--layout", "1", "--dam", "1", "--panel", "A1"], "--dam and --panel cannot be used"),
    (["--bed", "drum", "--layout", "1"], "--bed is drawn alone"),
    (["--bed", "drum", "--on-face"], "--on-face is for layouts"),
    (["--layout", "9"], "--layout: there must be such a layout, got '9'; there are 1, 2, 3, 4"),
    (["--layout", "-1"], "got '-1'; there are 1, 2"),
    (["--layout", "one"], "'one' is not a valid integer"),
    (
        ["--layout", "1", "--dam", "9"],
        "--dam (layout 1): there must be such a dam, got 'dam 9'; there",
    ),
    (
        ["--layout", "1", "--panel", "B1"],
        "--panel (layout 1): there must be such a panel, got 'B1'",
    ),
    (["--panel", "Z\n9"], "--panel: there must be such a panel, got 'Z\\n9'; there are A1, A2"),
    (["--bed", "table"], "--bed: must be a curved bed, got 'table', which is flat; there are drum"),
    (["--bed", ""], "--bed: there must be such a bed, got ''; there are drum, cradle"),
    (["--layout", "1", "--on-face"], "--on-face: needs a curved bed, got 'table', which is flat"),
    (["--panel", "A1", "--paper", "a9"], "--paper: must be a paper that is known, got 'a9'"),
    (["--panel", "A1", "--paper", ""], "--paper: must be a paper that is known, got ''"),
    (["--panel", "A1", "--margin", "wide"], "--margin: must be a length, got 'wide'"),
    (["--panel", "A1", "--margin", "200 mm"], "--margin: margins must leave 165 mm"),
    (["--panel", "A1", "--overlap", "300 mm"], "--overlap: must be 8 mm or more and at most"),
    (["--bed", "drum", "--rib-spacing", "1 mm"], "--rib-spacing: must be 20 mm or more, got 1 mm"),
    (["--bed", "drum", "--deck", "4 m"], "the deck must be thinner than the bed's radius"),
    (["--bed", "drum", "--rib-depth", "1 km"], "--rib-depth: must be a length, got '1 km'"),
    (["--bed", "drum", "--rib-depth", "30 m"], "at most 200 sheets"),
]


@pytest.mark.parametrize(("args", "told"), WRONG)
def test_wrong_options_end_with_two_and_write_nothing(shop, capsys, args, told):
    """One clear line on standard error, and no file."""
    assert run([*GIVEN, *args, "-o", "out"]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert len(printed.err.splitlines()) == 1
    assert not (shop / "out").exists()


def test_a_schedule_with_faults_is_not_drawn(shop, capsys):
    """A dam moved by 1 mm is found before it is traced."""
    document = json.loads((shop / "plan.json").read_text(encoding="utf-8"))
    document["layouts"][0]["dams"][0]["x"] += 1
    (shop / "plan.json").write_text(json.dumps(document), encoding="utf-8")
    assert run([*GIVEN, "--layout", "1", "-o", "out"]) == 5
    err = capsys.readouterr().err
    assert "plan.json: the schedule must be without fault, got " in err
    assert not (shop / "out").exists()


def test_a_missing_schedule_and_a_folder_in_the_way_are_told(shop, capsys):
    """The file and the folder are named."""
    assert run(["template", "job.toml", "--schedule", "no.json", "--layout", "1"]) == 2
    assert "no.json: there is no such file" in capsys.readouterr().err
    assert run([*GIVEN, "--layout", "1", "-o", "job.toml"]) == 2
    assert "Output folder 'job.toml': must be a folder" in capsys.readouterr().err
    assert run([*GIVEN, "--layout", "1", "-o", ""]) == 2
    assert "-o: must name a folder" in capsys.readouterr().err


def test_the_profile_of_a_cut_dam_is_drawn(tmp_path, monkeypatch, capsys):
    """Of the reading room's drum: radii, chord, rise, and where it is parted."""
    monkeypatch.chdir(tmp_path)
    schedule = str(ROOT / "output_svg" / "reading-room" / "schedule.json")
    given = ["template", str(ROOT / "examples" / "reading-room.toml"), "--schedule", schedule]
    assert run([*given, "--layout", "4", "--dam", "4", "--profile", "--paper", "a0"]) == 0
    out = capsys.readouterr().out
    assert "Profile of dam 4 of layout 4" in out
    assert "foot R 120 1/2 in, top R 121 1/4 in." in out
    assert "rise 4 7/32 in full; parted at 32 in." in out
    assert run([*given, "--layout", "5", "--dam", "4", "--profile", "--paper", "a0"]) == 0
    assert capsys.readouterr().out == out  # layout 5 keeps the dams of layout 4
    assert run([*given, "--layout", "4", "--dam", "1", "--profile"]) == 2
    told = capsys.readouterr().err
    assert "--profile: needs a dam cut to the curve of its bed, got dam 1 is straight" in told


def test_a_profile_is_asked_of_a_dam(shop, capsys):
    """It is neither that of a layout nor a developed face."""
    for args in (["--layout", "1"], ["--layout", "1", "--dam", "1", "--on-face"]):
        assert run([*GIVEN, *args, "--profile"]) == 2
        told = "--profile needs --dam NUMBER, and goes without --on-face."
        assert told in capsys.readouterr().err
