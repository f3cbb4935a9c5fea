"""The zones command: what is printed, what is written, and how it ends."""

import json
from pathlib import Path

import pytest
from jobtext import change
from motiffiles import MOTIF, change_motif

from nesting.cli import run
from nesting.jobs.read import read_job

FERRY = Path(__file__).parents[3] / "examples" / "ferry-terminal.toml"


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Write the small motif into an empty folder and go there."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "motif.toml").write_text(MOTIF, encoding="utf-8")
    return tmp_path


def test_without_a_folder_nothing_is_written(folder, capsys):
    """The report is printed, and how to get the files."""
    assert run(["zones", "motif.toml"]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith("Bath house, frieze to be: liner 652 x 400 mm")
    assert printed.out.endswith(
        "Nothing was written; give a folder with -o for the new liner and the drawings.\n"
    )
    assert [path.name for path in folder.iterdir()] == ["motif.toml"]


def test_the_written_job_is_planned_at_once(folder, capsys):
    """With a folder the new liner is there, and plan takes it."""
    assert run(["zones", "motif.toml", "-o", "out"]) == 0
    assert capsys.readouterr().out.endswith(
        "Written to out: job.toml, carving.svg, trade.svg, report.txt.\n"
    )
    assert run(["plan", "out/job.toml", "--quiet"]) == 0
    assert "5 casts, 2 sets of dams, 2 layouts" in capsys.readouterr().out


@pytest.mark.long
@pytest.mark.parametrize("args", [["motif.toml"], ["--keep", str(FERRY), "1750x900"]])
def test_a_job_of_its_own_is_replaced_and_no_other(folder, args, capsys):
    """The first line tells; a job written by hand stays, and nothing is written beside it."""
    job = folder / "out" / "job.toml"
    assert run(["zones", *args, "-o", "out"]) == 0
    first, _, rest = job.read_text(encoding="utf-8").partition("\n")
    job.write_text(first, encoding="utf-8")
    assert run(["zones", *args, "-o", "out"]) == 0
    assert job.read_text(encoding="utf-8") == f"{first}\n{rest}"
    for path in (folder / "out").iterdir():
        path.unlink()
    job.write_text("# mine\n", encoding="utf-8")
    capsys.readouterr()
    assert run(["zones", *args, "-o", "out"]) == 2
    rule = "-o: must not replace a file that nesting zones did not write, got out/job.toml"
    assert rule in capsys.readouterr().err
    assert [path.name for path in (folder / "out").iterdir()] == ["job.toml"]


def test_json_prints_nothing_else(folder, capsys):
    """Standard output is one JSON document, of either kind."""
    assert run(["zones", "motif.toml", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["format"] == "nesting-zones"
    assert run(["zones", "--keep", str(FERRY), "1750x900", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["format"] == "nesting-repair"


@pytest.mark.parametrize("args", [["motif.toml"], ["--keep", str(FERRY), "1750x900"]])
def test_a_time_limit_that_leaves_no_answer_ends_with_three(folder, args, capsys):
    """One line tells that it was the time, and nothing is written."""
    assert run(["zones", *args, "-o", "out", "--time-limit", "1e-9"]) == 3
    printed = capsys.readouterr()
    assert (printed.out, printed.err.count("\n")) == ("", 1)
    assert "time limit" in printed.err
    assert not (folder / "out").exists()


def test_a_size_is_read_as_by_fit(folder, capsys):
    """A multiplication sign and units will do."""
    for size in ("1750\u00d7900", "1.75 m x 900 mm"):
        assert run(["zones", "--keep", str(FERRY), size, "--json"]) == 0
        (panel,) = json.loads(capsys.readouterr().out)["panels"]
        assert (panel["mark"], panel["least"]) == ("1750x900", 75)


def test_a_kept_liner_tells_the_least_change(folder, capsys):
    """The ferry terminal's liner gives 1750 x 900 once a zone is 75 mm wider."""
    assert run(["zones", "--keep", str(FERRY), "1750x900"]) == 0
    told = capsys.readouterr().out
    assert "widen zone 'west' to the left   75 mm      832.5" in told
    assert "Least trim or widening 75 mm. PROVED" in told


@pytest.mark.long
def test_a_mended_liner_keeps_all_its_job_says(folder):
    """Its own tables with a size; with an order, that one's, but for the rubber of the liner."""
    job = read_job(FERRY)
    args = ["zones", "--keep", str(FERRY), "1750x900", "-o", "out"]
    assert run(args) == 0
    mended = read_job(folder / "out" / "job.toml")
    assert (mended.rules, mended.beds, mended.shop) == (job.rules, job.beds, job.shop)
    assert mended.materials == job.materials
    order = change(
        ("[740, 900]", "[1750, 900]"),
        ("density = 1150", "density = 1100"),
        ("points = 2", "points = 3"),
        ("liners = 2", "liners = 4"),
        text=FERRY.read_text(encoding="utf-8"),
    )
    (folder / "order.toml").write_text(order, encoding="utf-8")
    assert run([*args[:3], "order.toml", "-o", "other"]) == 0
    mended = read_job(folder / "other" / "job.toml")
    assert (mended.shop.liners, mended.materials.lifting.points) == (4, 3)
    assert mended.materials.rubber == job.materials.rubber


def test_an_order_on_a_kept_liner_is_looked_at_size_by_size(folder, capsys):
    """Each size of the order has its line; its own liner is left aside."""
    assert run(["zones", "--keep", str(FERRY), str(FERRY)]) == 0
    assert capsys.readouterr().out.count("has a place on the liner as it is") == 7


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["none.toml"], "none.toml: there is no such file."),
        (["motif.toml", "-o", ""], "-o: must name a folder"),
        (["motif.toml", "-o", "motif.toml"], "must be a folder that can be written to"),
        (["--keep", str(FERRY), "900"], "900: there is no such file"),
        (["--keep", str(FERRY), "90ax500"], "Size '90ax500': must be a length, got '90a'; write"),
        (["--keep", str(FERRY), "900x0"], "Size '900x0': width and height must be > 0 mm"),
        (
            ["--keep", str(FERRY), "motif.toml"],
            "this is a motif, not a job; give it to nesting zones as FILE, without --keep.",
        ),
        (["--keep", "motif.toml", "9x9"], "nesting zones as FILE, without --keep."),
        (["--keep", str(FERRY), "order.toml"], "names an ornament the kept liner does not have"),
        (["--keep", str(FERRY), "9x9", "-o", ""], "-o: must name a folder"),
        ([], "Missing argument 'FILE'. See 'nesting zones --help'."),
    ],
)
def test_wrong_input_ends_with_two_and_writes_nothing(folder, capsys, args, told):
    """Lines on standard error, nothing on standard output, no new file."""
    begin, end = MOTIF.index("[zones]"), MOTIF.index("[[panel]]")
    order = MOTIF[:begin] + MOTIF[end:]
    (folder / "order.toml").write_text(order, encoding="utf-8")
    assert run(["zones", *args]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert sorted(path.name for path in folder.iterdir()) == ["motif.toml", "order.toml"]


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["motif.toml"], "its flat width of 910 mm is more than the greatest liner's 900 mm"),
        (
            ["--keep", str(FERRY), "2500x900"],
            "no ornament taken away or trimmed and no ground made plain",
        ),
    ],
)
def test_a_wish_nothing_meets_ends_with_three(folder, capsys, args, told):
    """With the reason on standard error."""
    text = change_motif(("[330, 400]", "[910, 400]"))
    (folder / "motif.toml").write_text(text, encoding="utf-8")
    assert run(["zones", *args]) == 3
    assert told in capsys.readouterr().err
