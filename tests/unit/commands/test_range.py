"""The range command: what is printed, what is written, and how it ends."""

import json

import pytest

from nesting.cli import run

LINER = """\
units = "mm"
[liner]
name = "waves"
size = [600, 300]
thickness = 13
unmarked = "blank"
[[liner.ornament]]
name = "wave"
rect = [100, 100, 200, 60]
[rules]
dam_width = 25
dam_clearance = 6
edge_margin = 12
set_out = 1
[[bed]]
name = "table"
form = "flat"
[[bed]]
name = "long drum"
form = "convex"
radius = 2000
curved_axis = "x"
neutral = 0.5
"""


@pytest.fixture
def liner_file(tmp_path, monkeypatch):
    """Write the small liner into an empty folder and go there."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "liner.toml").write_text(LINER, encoding="utf-8")
    return tmp_path / "liner.toml"


def names(liner_file):
    """Return what lies in the folder."""
    return sorted(path.name for path in liner_file.parent.iterdir())


def test_without_names_nothing_is_written(liner_file, capsys):
    """The report is printed, and how to get the chart."""
    assert run(["range", "liner.toml"]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith("waves: every size")
    assert printed.out.endswith("Nothing was written; name a file with -o for the chart.\n")
    assert names(liner_file) == ["liner.toml"]


def test_decimals_stand_in_a_column_of_their_own_where_asked(liner_file, capsys):
    """On the drum faces are longer than whole mm; without --exact they are full or scant."""
    assert run(["range", "liner.toml", "--bed", "long drum"]) == 0
    plain = capsys.readouterr().out
    assert run(["range", "liner.toml", "--bed", "long drum", "--exact"]) == 0
    told = capsys.readouterr().out
    assert "602 scant" in plain
    assert "601.944" not in plain
    assert "least width 601.944, greatest width 601.944" in told
    assert "Full is a little more than the mark before it" in plain


def test_several_beds_give_a_chart_each(liner_file, capsys):
    """The bed's name stands behind the chart's, in letters a file name may have."""
    assert run(["range", "liner.toml", "-o", "chart.svg"]) == 0
    assert capsys.readouterr().out.endswith("\nWritten: chart-table.svg, chart-long-drum.svg.\n")
    assert names(liner_file) == ["chart-long-drum.svg", "chart-table.svg", "liner.toml"]


def test_beds_whose_names_fall_together_are_numbered(liner_file):
    """Two names that differ in a blank only do not write over each other."""
    liner_file.write_text(LINER.replace('"table"', '"long-drum"'), encoding="utf-8")
    assert run(["range", "liner.toml", "-o", "chart.svg"]) == 0
    assert names(liner_file) == ["chart-long-drum-1.svg", "chart-long-drum-2.svg", "liner.toml"]


def test_one_bed_gives_the_chart_named(liner_file, capsys):
    """With --bed there is one chart and one section."""
    assert run(["range", "liner.toml", "--bed", "table", "-o", "chart.svg"]) == 0
    assert "drum" not in capsys.readouterr().out
    assert names(liner_file) == ["chart.svg", "liner.toml"]
    assert "<svg" in (liner_file.parent / "chart.svg").read_text(encoding="utf-8")


def test_json_prints_nothing_else(liner_file, capsys):
    """Standard output is one JSON document even where charts are written."""
    assert run(["range", "liner.toml", "--json", "-o", "chart.svg"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert [bed["bed"] for bed in document["beds"]] == ["table", "long drum"]
    assert len(names(liner_file)) == 3


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["none.toml"], "none.toml: there is no such file."),
        (["liner.toml", "--bed", "hollow"], "got hollow; name one of: table, long drum."),
        (["liner.toml", "-o", "chart"], "must name a file that ends with .svg, got chart;"),
        (["liner.toml", "--bed", "table", "-o", "./liner.toml"], "write liner.svg, say."),
        (["liner.toml", "-o", "no/such/chart.svg"], "the file must be writable"),
        (["liner.toml", "-o", ""], "must name a file"),
        ([], "Missing argument 'FILE'. See 'nesting range --help'."),
    ],
)
def test_wrong_words_end_with_two_and_write_nothing(liner_file, capsys, args, told):
    """One line on standard error, and nothing lies beside the liner file."""
    assert run(["range", *args]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert "Traceback" not in printed.err
    assert names(liner_file) == ["liner.toml"]


def test_every_mistake_of_the_file_is_told(liner_file, capsys):
    """Two mistakes give two lines and exit code 2."""
    text = LINER.replace("dam_width = 25", "dam_width = -1").replace("thickness", "thicknes")
    liner_file.write_text(text, encoding="utf-8")
    assert run(["range", "liner.toml", "-o", "chart.svg"]) == 2
    assert len(capsys.readouterr().err.splitlines()) >= 2
    assert names(liner_file) == ["liner.toml"]
