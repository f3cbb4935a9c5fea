"""The command ``nesting fit``, run as people run it."""

import json

import pytest
from jobtext import JOB, write_job

from nesting.cli import run


@pytest.fixture
def liner(tmp_path):
    """Return a liner file."""
    return str(write_job(tmp_path, JOB, "reeds.toml"))


def test_sizes_are_answered_in_the_order_asked(liner, capsys):
    """One paragraph each, on every bed; the command ends with 0 whether they fit or not."""
    assert run(["fit", liner, "850x650", "800x650"]) == 0
    printed = capsys.readouterr().out.split("\n\n")
    assert "850 x 650 mm: does not fit." in printed[0]
    assert "800 x 650 mm: fits." in printed[1]


def test_json_is_a_list_and_nothing_else(liner, capsys):
    """One object per liner, bed and size."""
    assert run(["fit", liner, "800x650", "850x650", "--json"]) == 0
    records = json.loads(capsys.readouterr().out)["answers"]
    assert [(each["size"], each["fits"]) for each in records] == [
        ([800, 650], True),
        ([850, 650], False),
    ]


def test_a_folder_is_answered_whole_and_its_bad_file_told(liner, tmp_path, capsys):
    """The others are answered; the command ends with 2."""
    write_job(tmp_path, JOB.replace("thickness = 13", "thickness = 0"), "waves.toml")
    assert run(["fit", str(tmp_path), "800x650", "--json", "--processes", "1"]) == 2
    printed = capsys.readouterr()
    assert [each["file"] for each in json.loads(printed.out)["answers"]] == ["reeds.toml"]
    assert "nesting: waves.toml:7: liner.thickness: must be > 0 mm" in printed.err


def test_two_liners_of_one_name_are_told_apart_by_their_files(liner, tmp_path, capsys):
    """Each answer over a folder begins with the file's name; the JSON has it under ``file``."""
    write_job(tmp_path, JOB, "copy.toml")
    assert run(["fit", str(tmp_path), "800x650", "--processes", "1"]) == 0
    printed = capsys.readouterr().out.split("\n\n")
    assert [text.split(": ")[0] for text in printed] == ["copy.toml", "reeds.toml"]
    assert all(": Liner 'reeds', bed 'table', 800 x 650 mm: fits." in text for text in printed)
    assert run(["fit", str(tmp_path), "800x650", "--processes", "1", "--json"]) == 0
    records = json.loads(capsys.readouterr().out)["answers"]
    assert [(each["file"], each["liner"]) for each in records] == [
        ("copy.toml", "reeds"),
        ("reeds.toml", "reeds"),
    ]


def test_drawings_are_written_for_sizes_that_fit(liner, tmp_path, capsys):
    """By the file's name and the number of the answer."""
    folder = tmp_path / "out" / "deep"
    assert run(["fit", liner, "850x650", "800x650", "-o", str(folder)]) == 0
    assert [path.name for path in folder.iterdir()] == ["reeds-02.svg"]
    assert f"Written to {folder}: 1 drawing." in capsys.readouterr().out


@pytest.mark.parametrize(
    ("args", "message"),
    [
        (["850"], "nesting: Size: must be a width and a height with an x between, got '850'"),
        (["8x9", "-o", ""], "-o: must name a folder; give its path after -o."),
        (["8x9", "--bed", "drum"], "--bed: there is no such bed, got 'drum'; known: 'table'."),
        (["8x9", "--tolerance", "tight"], "--tolerance: there is no such tolerance class"),
        (["8x9", "--processes", "0"], "0 is not in the range 1<=x<=64"),
        (["8x9", "--scheduler", "tcp://127.0.0.1:9"], "--scheduler: no scheduler answers there"),
        ([], "Missing argument 'SIZE...'"),
    ],
)
def test_what_cannot_be_done_is_told_in_one_line(liner, args, message, capsys, monkeypatch):
    """With code 2, and nothing on standard output."""
    monkeypatch.setattr("nesting.commands.fit.CONNECT_S", 1)
    assert run(["fit", liner, *args]) == 2
    printed = capsys.readouterr()
    assert message in printed.err
    assert printed.out == ""


def test_a_file_with_mistakes_is_told_as_by_plan(tmp_path, capsys):
    """Every mistake of the one file."""
    path = write_job(tmp_path, JOB.replace("thickness = 13", "thickness = 0"))
    assert run(["fit", str(path), "8x9"]) == 2
    assert capsys.readouterr().err.startswith("nesting: job.toml:7: liner.thickness: must be > 0")


def test_a_folder_that_cannot_be_written_leaves_nothing(liner, tmp_path, capsys):
    """A file stands where the folder would be."""
    (tmp_path / "taken").write_text("reeds")
    assert run(["fit", liner, "800x650", "-o", str(tmp_path / "taken")]) == 2
    assert "must be a folder that can be written to" in capsys.readouterr().err
