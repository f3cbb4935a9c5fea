"""The wall command: what is printed, what is written, and how it ends."""

import json

import pytest
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
