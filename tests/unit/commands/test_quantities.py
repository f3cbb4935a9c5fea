"""The quantities command: planned or given a schedule, printed, written, and how it ends."""

import json

import pytest
from jobtext import JOB

from nesting.cli import run

TABLES = ["batches.csv", "casts.csv", "days.csv", "panels.csv"]


def test_a_given_schedule_is_reckoned(shop, capsys):
    """The report begins with the result and ends with the cautions; nothing is written."""
    assert run(["quantities", "job.toml", "--schedule", "schedule.json"]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith("Bath house, foyer: 3 panels in 2 casts; ")
    assert printed.out.endswith("no insert, lift, panel or structure is certified.\n")
    assert printed.err == ""
    assert len(list(shop.iterdir())) == 2


def test_without_a_schedule_the_job_is_planned(shop, capsys):
    """The plan is the one the schedule holds, so the figures are the same."""
    assert run(["quantities", "job.toml", "--json", "--time-limit", "20"]) == 0
    planned = json.loads(capsys.readouterr().out)
    assert run(["quantities", "job.toml", "--json", "--schedule", "schedule.json"]) == 0
    assert json.loads(capsys.readouterr().out)["order"] == planned["order"]


def test_a_faulty_schedule_is_refused(shop, capsys):
    """Exit code 5, the file, how many faults, and each with its code; no figures."""
    path = shop / "schedule.json"
    path.write_text(path.read_text().replace('"x": 825', '"x": 815'), encoding="utf-8")
    assert run(["quantities", "job.toml", "--schedule", "schedule.json", "-o", "out"]) == 5
    printed = capsys.readouterr()
    assert printed.out == ""
    first, *rest = printed.err.splitlines()
    assert "schedule.json: the schedule must be without fault, got" in first
    assert first.endswith("plan the job anew.")
    assert any(": 205 " in line for line in rest)
    assert not (shop / "out").exists()


def test_tables_are_written_into_the_folder(shop, capsys):
    """The folder is made, four files are replaced, others stay, and the last line says so."""
    folder = shop / "out" / "figures"
    args = ["quantities", "job.toml", "--schedule", "schedule.json", "-o", "out/figures"]
    assert run(args) == 0
    written = "\nWritten to out/figures: panels.csv, casts.csv, batches.csv, days.csv.\n"
    assert capsys.readouterr().out.endswith(written)
    assert sorted(path.name for path in folder.iterdir()) == TABLES
    (folder / "mine.csv").write_text("mine")
    (folder / "days.csv").write_text("first_day,last_day,as before\n")
    assert run([*args, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["format"] == "nesting-quantities"
    assert sorted(path.name for path in folder.iterdir()) == sorted([*TABLES, "mine.csv"])
    assert (folder / "days.csv").read_text().startswith("first_day,")


def test_the_mix_of_each_day_is_that_of_the_calendar(shop, capsys):
    """With --start, or a start in the job, days are dated; without, they are one cast a day."""
    args = ["quantities", "job.toml", "--schedule", "schedule.json"]
    assert run(args) == 0
    assert (
        "Mix for each day, one cast a day as no start is given, in kg;" in capsys.readouterr().out
    )
    assert run([*args, "--start", "2026-03-06"]) == 0
    printed = capsys.readouterr().out
    assert "Mix for each day of the calendar, in kg;" in printed
    days = [line.split()[1] for line in printed.splitlines() if line.startswith(("  Fri", "  Mon"))]
    assert days == ["2026-03-06", "2026-03-09"]
    (shop / "job.toml").write_text(f"{JOB}[calendar]\nstart = 2026-03-06\n")
    assert run([*args, "--json"]) == 0
    days = json.loads(capsys.readouterr().out)["days"]
    assert [day["first_date"] for day in days] == ["2026-03-06", "2026-03-09"]


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["none.toml"], "none.toml: there is no such file."),
        (["job.toml", "--schedule", "none.json"], "none.json: there is no such file."),
        (["job.toml", "--schedule", "job.toml"], "job.toml"),
        (["job.toml", "--schedule", "schedule.json", "-o", ""], "-o: must name a folder"),
        (
            ["job.toml", "--schedule", "schedule.json", "-o", "job.toml"],
            "Output folder 'job.toml'",
        ),
        (
            ["job.toml", "--schedule", "schedule.json", "-o", "job.toml/x/y"],
            "mend that or give another folder with -o.",
        ),
        (["job.toml", "--time-limit", "0"], "--time-limit must be a number of seconds > 0"),
        (["job.toml", "--start", "2026-02-30"], "--start: there is no such day, got"),
        ([], "Missing argument 'JOB'. See 'nesting quantities --help'."),
    ],
)
def test_wrong_input_ends_with_two_and_writes_nothing(shop, capsys, args, told):
    """One line on standard error, no traceback, and the folder as it was."""
    assert run(["quantities", *args]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert "Traceback" not in printed.err
    assert sorted(path.name for path in shop.iterdir()) == ["job.toml", "schedule.json"]


def test_a_file_that_cannot_be_replaced_leaves_the_folder_as_it_was(shop, capsys):
    """A folder where a table would go is told, and no other table is written."""
    (shop / "out" / "casts.csv").mkdir(parents=True)
    args = ["quantities", "job.toml", "--schedule", "schedule.json", "-o", "out"]
    assert run(args) == 2
    assert "casts.csv: the file must be writable" in capsys.readouterr().err
    assert [path.name for path in (shop / "out").iterdir()] == ["casts.csv"]


def test_mistakes_of_the_tables_are_told(shop, capsys):
    """Two mistakes give two lines and exit code 2."""
    (shop / "job.toml").write_text(f"{JOB}[batch]\nmixer = 0\n[lifting]\npoint = 2\n")
    assert run(["quantities", "job.toml"]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert "batch.mixer: must be > 0 kg, got 0 kg." in lines[0]
    assert "lifting.point: unknown key; the nearest known key is points." in lines[1]


def test_a_panel_thinner_than_its_face_coat_is_told(shop, capsys):
    """What only the quantities need is refused here, in one line."""
    text = JOB.replace("quantity = 1\n", "quantity = 1\nthickness = 3\n", 1)
    (shop / "job.toml").write_text(text)
    assert run(["quantities", "job.toml", "--schedule", "schedule.json"]) == 2
    assert "Panel 'A1': thickness must be > 4 mm, the face coat's" in capsys.readouterr().err
