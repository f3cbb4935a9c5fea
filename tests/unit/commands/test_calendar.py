"""The calendar command: what is printed, what is written, and how it ends."""

import json

import pytest
from jobtext import JOB

from nesting.cli import run
from nesting.commands import calendar as cli_calendar
from nesting.days import plan as castdays
from nesting.days.export import CALENDAR_FILES

CALENDAR = "\n[calendar]\nstart = 2026-03-02\n"


@pytest.fixture
def shop(shop):
    """Give the job a start."""
    (shop / "job.toml").write_text(JOB + CALENDAR, encoding="utf-8")
    return shop


GIVEN = ["calendar", "job.toml", "--schedule", "schedule.json"]


def test_all_files_are_written_and_named(shop, capsys):
    """The report ends with the folder and its four files."""
    assert run([*GIVEN, "-o", "out"]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith("Bath house, foyer: 2 casts on 1 liner")
    assert printed.out.endswith(
        "\nWritten to out: calendar.json, calendar.csv, calendar.ics, calendar.svg.\n"
    )
    assert printed.err == ""
    assert {path.name for path in (shop / "out").iterdir()} == set(CALENDAR_FILES)
    assert b"\r\n" in (shop / "out" / "calendar.ics").read_bytes()


def test_without_a_folder_nothing_is_written(shop, capsys):
    """How to get the files is told."""
    assert run(GIVEN) == 0
    end = "\nNothing was written; give a folder with -o for the files.\n"
    assert capsys.readouterr().out.endswith(end)
    assert len(list(shop.iterdir())) == 2


def test_without_a_schedule_the_job_is_planned(shop, capsys):
    """The same two casts come out."""
    assert run(["calendar", "job.toml", "--json"]) == 0
    assert len(json.loads(capsys.readouterr().out)["casts"]) == 2


def test_json_and_csv_print_nothing_else(shop, capsys):
    """Standard output is one document, or one table with its head."""
    assert run([*GIVEN, "--json", "-o", "out"]) == 0
    assert capsys.readouterr().out == (shop / "out" / "calendar.json").read_text(encoding="utf-8")
    assert run([*GIVEN, "--csv"]) == 0
    assert len(capsys.readouterr().out.splitlines()) == 3
    assert run([*GIVEN, "--csv", "--json"]) == 2
    assert "--json and --csv cannot be used together." in capsys.readouterr().err


def test_the_start_can_be_given(shop, capsys):
    """It goes before the job's own."""
    assert run([*GIVEN, "--start", "2026-05-04", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["start"] == "2026-05-04"


@pytest.mark.parametrize(
    ("args", "code", "told"),
    [
        ([*GIVEN, "--start", "2026-02-30"], 2, "--start: there is no such day, got '2026-02-30'."),
        ([*GIVEN, "--start", "monday"], 2, "--start: must be a date like 2026-03-02"),
        ([*GIVEN, "-o", ""], 2, "-o: must name a folder; give its path after -o."),
        ([*GIVEN, "-o", "job.toml"], 2, "must be a folder that can be written to"),
        (["calendar", "none.toml"], 2, "none.toml: there is no such file."),
        (["calendar", "job.toml", "--schedule", "no.json"], 2, "no.json: there is no such file."),
        (["calendar"], 2, "Missing argument 'JOB'. See 'nesting calendar --help'."),
        ([*GIVEN, "--time-limit", "0"], 2, "--time-limit must be a number of seconds > 0, got 0."),
    ],
)
def test_wrong_input_ends_on_one_line(shop, capsys, args, code, told):
    """One line on standard error, nothing printed, nothing written."""
    assert run(args) == code
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert printed.err.count("\n") == 1
    assert len(list(shop.iterdir())) == 2


def test_hours_too_short_end_with_three(shop, capsys):
    """No calendar exists; the reason is told."""
    text = f'{JOB}{CALENDAR}opens = "07:00"\ncloses = "08:00"\n'
    (shop / "job.toml").write_text(text, encoding="utf-8")
    assert run([*GIVEN, "-o", "out"]) == 3
    assert "One cast takes 2 h 40 min of work" in capsys.readouterr().err
    assert not (shop / "out").exists()


def test_a_job_without_a_start_is_told(shop, capsys):
    """What to give stands in the line."""
    (shop / "job.toml").write_text(JOB, encoding="utf-8")
    assert run(GIVEN) == 2
    assert "calendar.start: a calendar needs a day to start on" in capsys.readouterr().err


def test_a_faulty_schedule_is_refused_as_by_check(shop, capsys):
    """Exit 5, the finding's code, and nothing written."""
    text = (shop / "schedule.json").read_text(encoding="utf-8")
    (shop / "schedule.json").write_text(
        text.replace('"repeats": 1', '"repeats": 2', 1), encoding="utf-8"
    )
    assert run([*GIVEN, "-o", "out"]) == 5
    assert "nesting: 402 panel 'A1'" in capsys.readouterr().err
    assert not (shop / "out").exists()


def test_a_calendar_our_checker_refuses_is_not_written(shop, capsys, monkeypatch):
    """Exit 4 and the fault."""
    real = castdays.plan_days

    def drop_last(*args, **options):
        from dataclasses import replace

        planned = real(*args, **options)
        return replace(planned, casts=planned.casts[:-1])

    monkeypatch.setattr("nesting.days.plan.plan_days", drop_last)
    assert run([*GIVEN, "-o", "out"]) == 4
    assert "must be cast 1 times" in capsys.readouterr().err
    assert not (shop / "out").exists()


def test_a_second_run_replaces_its_own_files_only(shop):
    """Notes stay; a calendar of ours is overwritten; somebody else's calendar.svg is refused."""
    assert run([*GIVEN, "-o", "out"]) == 0
    (shop / "out" / "notes.txt").write_text("mine")
    assert run([*GIVEN, "-o", "out", "--start", "2026-05-04"]) == 0
    assert (shop / "out" / "notes.txt").read_text() == "mine"
    assert "20260504T070000" in (shop / "out" / "calendar.ics").read_text()
    (shop / "other").mkdir()
    (shop / "other" / "calendar.svg").write_text("mine")
    assert run([*GIVEN, "-o", "other"]) == 2
    assert (shop / "other" / "calendar.svg").read_text() == "mine"


def test_a_plan_and_a_calendar_share_a_folder(shop):
    """Neither touches the other's files."""
    assert run(["plan", "job.toml", "-o", "out"]) == 0
    assert run([*GIVEN, "-o", "out"]) == 0
    assert run(["plan", "job.toml", "-o", "out"]) == 0
    names = {path.name for path in (shop / "out").iterdir()}
    assert names > {"schedule.json", "overview.svg", *CALENDAR_FILES}


def test_only_click_is_imported_at_first():
    """Everything heavy is imported inside functions."""
    names = vars(cli_calendar)
    assert "click" in names
    assert "plan_days" not in names
