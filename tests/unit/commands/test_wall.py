"""The wall command: what is printed, what is written, and how it ends."""

import json

import pytest
from jobtext import JOB, change
from wallfiles import WALL, change_wall

from nesting.cli import run


@pytest.fixture
def wall_file(tmp_path, monkeypatch):
    """Write the small wall into an empty folder and go there."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "wall.toml").write_text(WALL, encoding="utf-8")
    return tmp_path / "wall.toml"


def test_without_names_nothing_is_written(wall_file, capsys):
    """The report is printed, and how to get the files."""
    assert run(["wall", "wall.toml"]) == 0
    printed = capsys.readouterr()
    assert printed.out.endswith(
        "Nothing was written; name a file with -o for the order, with --svg for the plan.\n"
    )
    assert printed.err == ""
    assert [path.name for path in wall_file.parent.iterdir()] == ["wall.toml"]


def test_order_and_plan_are_written_where_told(wall_file, capsys):
    """The order is TOML of beds and panels, the plan SVG; the last line names both."""
    assert run(["wall", "wall.toml", "-o", "order.toml", "--svg", "plan.svg"]) == 0
    assert capsys.readouterr().out.endswith("\nWritten: order.toml, plan.svg.\n")
    folder = wall_file.parent
    assert "[[panel]]" in (folder / "order.toml").read_text(encoding="utf-8")
    assert "<svg" in (folder / "plan.svg").read_text(encoding="utf-8")
    assert len(list(folder.iterdir())) == 3


def test_json_prints_nothing_else(wall_file, capsys):
    """Standard output is one JSON document even where files are written."""
    assert run(["wall", "wall.toml", "--json", "--svg", "plan.svg"]) == 0
    assert json.loads(capsys.readouterr().out)["title"] == "Bath house, apse"
    assert (wall_file.parent / "plan.svg").exists()


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["none.toml"], "none.toml: there is no such file."),
        (["wall.toml", "-o", "wall.toml"], "FILE, ORDER and PICTURE must be different files."),
        (["wall.toml", "-o", "a", "--svg", "b.svg"], "-o: must name a file that ends with .toml"),
        (["wall.toml", "-o", "a.toml", "--svg", "./a.toml"], "--svg: must name a file that ends"),
        (["wall.toml", "-o", "no/such/folder.toml"], "no/such/folder.toml: the file must be"),
        (["wall.toml", "-o", "order.toml", "--svg", "."], "write name.svg, say"),
        ([], "Missing argument 'FILE'. See 'nesting wall --help'."),
    ],
)
def test_wrong_files_end_with_two_and_write_nothing(wall_file, capsys, args, told):
    """One line on standard error; the wall file stays as it was and nothing lies beside it."""
    assert run(["wall", *args]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert "Traceback" not in printed.err
    assert wall_file.read_text(encoding="utf-8") == WALL
    assert [path.name for path in wall_file.parent.iterdir()] == ["wall.toml"]


def test_an_order_replaces_a_former_order_and_no_other_file(wall_file, capsys):
    """A job written by hand stays as it is; what the command wrote itself is written anew."""
    order = wall_file.parent / "order.toml"
    assert run(["wall", "wall.toml", "-o", "order.toml"]) == 0
    written = order.read_text(encoding="utf-8")
    order.write_text(written + "# added", encoding="utf-8")
    assert run(["wall", "wall.toml", "-o", "order.toml"]) == 0
    assert order.read_text(encoding="utf-8") == written
    order.write_text('title = "By hand"\n', encoding="utf-8")
    assert run(["wall", "wall.toml", "-o", "order.toml"]) == 2
    assert "must not replace a file that nesting wall did not write" in capsys.readouterr().err
    assert order.read_text(encoding="utf-8") == 'title = "By hand"\n'


def test_every_mistake_of_the_file_is_told(wall_file, capsys):
    """Two mistakes give two lines and exit code 2."""
    text = change_wall(("joint = 20", "joint = -1"), ("panels = 4", "pannels = 4"))
    wall_file.write_text(text, encoding="utf-8")
    assert run(["wall", "wall.toml", "-o", "order.toml"]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert any("wall.joint: must be > 0 mm" in line for line in lines)
    assert any("unknown key; the nearest known key is panels" in line for line in lines)
    assert not (wall_file.parent / "order.toml").exists()


@pytest.fixture
def planned(wall_file):
    """Write a job that orders the wall and a schedule of it beside the wall."""
    head = (
        'title = "order"\nunits = "mm"\n[liner]\nname = "reeds"\nsize = [2600, 2300]\n'
        'thickness = 25\nunmarked = "blank"\n[[liner.ornament]]\nname = "leaf"\n'
        "rect = [300, 400, 200, 300]\n[rules]\ndam_width = 25\ndam_clearance = 6\n"
        "edge_margin = 12\nset_out = 1\n"
    )
    folder = wall_file.parent
    assert run(["wall", "wall.toml", "-o", "order.toml"]) == 0
    text = head + (folder / "order.toml").read_text(encoding="utf-8")
    (folder / "job.toml").write_text(text, encoding="utf-8")
    assert run(["plan", "job.toml", "-o", "plan", "--quiet"]) == 0
    return folder


PLANNED = ["--job", "job.toml", "--schedule", "plan/schedule.json"]


def test_elevations_are_drawn_of_both_skins(planned, capsys):
    """A file for each, told at the end; written anew they are replaced."""
    capsys.readouterr()
    for _ in range(2):
        assert run(["wall", "wall.toml", "--elevations", "faces.svg", *PLANNED]) == 0
        out = capsys.readouterr().out
        assert out.endswith("\nWritten: faces-inside.svg, faces-outside.svg.\n")
    for side in ("inside", "outside"):
        assert f"seen from {side}" in (planned / f"faces-{side}.svg").read_text(encoding="utf-8")


def test_elevations_come_whole_or_not_at_all(planned, capsys):
    """One foreign file in the way and nothing is written, the order neither."""
    (planned / "faces-outside.svg").write_text("mine", encoding="utf-8")
    args = ["-o", "fresh.toml", "--elevations", "faces.svg", *PLANNED]
    assert run(["wall", "wall.toml", *args]) == 2
    assert "--elevations: must not replace a file that nesting did not" in capsys.readouterr().err
    assert not (planned / "faces-inside.svg").exists()
    assert not (planned / "fresh.toml").exists()


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["--elevations", "e.svg"], "--elevations needs --job and --schedule."),
        (PLANNED, "--job: the wall must say how its skins are tied"),
        (["--elevations", "e.pdf", *PLANNED], "--elevations: must name a file that ends with .svg"),
        (
            ["--elevations", "e.svg", "--svg", "e-inside.svg", *PLANNED],
            "The files read and written must be different files.",
        ),
        (
            ["--elevations", "e.svg", "--job", "job.toml", "--schedule", "none.json"],
            "none.json: there is no such file",
        ),
    ],
)
def test_elevations_asked_for_wrongly_end_with_two(planned, capsys, args, told):
    """One line on standard error and no file."""
    before = sorted(planned.iterdir())
    assert run(["wall", "wall.toml", *args]) == 2
    assert told in capsys.readouterr().err
    assert sorted(planned.iterdir()) == before


RUN = """\
title = "Bath house, screen"
units = "mm"
[liner]
thickness = 13
[wall]
cavity = 150
panel_thickness = 19
height = 650
joint = 20
[[part]]
name = "S"
form = "run"
length = 800
panels = 1
"""
TIES = "[ties]\nspacing = 400\nrows = 3\nedge_distance = 60\nhollow_distance = 40\n"


@pytest.fixture
def screen(tmp_path, monkeypatch):
    """Write a wall with ties, the job of its order with a hollow heron, and the job's plan."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "wall.toml").write_text(RUN + TIES, encoding="utf-8")
    assert run(["wall", "wall.toml", "-o", "order.toml"]) == 0
    head = change(
        ('"heron"\n', '"heron"\nrelief = 12\non_panel = "hollow"\n'),
        text=JOB[: JOB.index("[[bed]]")],
    )
    order = (tmp_path / "order.toml").read_text(encoding="utf-8")
    order = order.replace("[[panel]]", '[[panel]]\nmust_show = ["heron"]')
    (tmp_path / "job.toml").write_text(head + order, encoding="utf-8")
    assert run(["plan", "job.toml", "-o", "out", "--quiet"]) == 0
    return tmp_path


def test_ties_keep_clear_of_the_hollows_of_the_planned_job(screen, capsys):
    """Both panels show the heron, 300 to 520 mm along: inserts go to 240 and, beyond it, to 560."""
    given = ["--job", "job.toml", "--schedule", "out/schedule.json"]
    assert run(["wall", "wall.toml", *given, "--ties", "ties.pdf"]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "325, 590 60, 240, 740 740, 560, 60" in text
    assert text.endswith("Written: ties.pdf.")
    assert (screen / "ties.pdf").read_bytes().startswith(b"%PDF")
    assert run(["wall", "wall.toml", *given, "--json"]) == 0
    (pair,) = json.loads(capsys.readouterr().out)["ties"]
    assert pair["ties"][4]["inner"] == [240, 325]


def test_the_packet_of_the_job_shows_the_inserts(screen, capsys):
    """With --wall a section stands before the cautions; the hollow is drawn on both backs."""
    given = ["job.toml", "--schedule", "out/schedule.json", "-o", "packet", "--json"]
    capsys.readouterr()
    assert run(["packet", *given, "--wall", "wall.toml"]) == 0
    names = [each["name"] for each in json.loads(capsys.readouterr().out)["sections"]]
    assert names[names.index("ties") + 1] == "cautions"
    page = (screen / "packet" / "packet.html").read_text(encoding="utf-8")
    assert "740, 560, 60" in page
    assert page.count('id="ties-') >= 2


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["--job", "job.toml"], "--job: must go with --schedule; give both or neither."),
        (["--ties", "ties.svg"], "--ties: must name a file that ends with .pdf, got ties.svg"),
    ],
)
def test_options_of_ties_are_checked(screen, capsys, args, told):
    """One line, exit code 2, nothing written."""
    capsys.readouterr()
    before = sorted(screen.iterdir())
    assert run(["wall", "wall.toml", *args]) == 2
    assert told in capsys.readouterr().err
    assert sorted(screen.iterdir()) == before


def test_a_wall_without_ties_has_none_to_draw(wall_file, capsys):
    """The table is asked for where sheets are, and by the packet."""
    assert run(["wall", "wall.toml", "--ties", "ties.pdf"]) == 2
    told = "the wall must say how its skins are tied; give it a table [ties]."
    assert f"--ties: {told}" in capsys.readouterr().err
