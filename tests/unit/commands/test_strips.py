"""The strips command: what is printed, what is written, and how it ends."""

import json

from jobtext import JOB

from nesting.cli import run

GIVEN = ["strips", "job.toml", "--schedule", "schedule.json"]
STOCK = "\n[dams]\nstock = [2440]\nkerf = 3\n"


def test_list_and_sheets_are_written_and_named(shop, capsys):
    """The report ends with the folder and its files."""
    (shop / "job.toml").write_text(JOB + STOCK, encoding="utf-8")
    assert run([*GIVEN, "-o", "out"]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith("Bath house, foyer: 3 dams in 2 sets of dams from 3 strips; ")
    assert printed.out.endswith("\nWritten to out: strips.json, reset-01.svg.\n")
    assert printed.err == ""
    assert {path.name for path in (shop / "out").iterdir()} == {"strips.json", "reset-01.svg"}


def test_without_a_folder_nothing_is_written(shop, capsys):
    """How to get the files is told."""
    assert run(GIVEN) == 0
    end = "\nNothing was written; give a folder with -o for the list and the re-set sheets.\n"
    assert capsys.readouterr().out.endswith(end)
    assert len(list(shop.iterdir())) == 2


def test_json_prints_nothing_else(shop, capsys):
    """Standard output is the document that is written."""
    assert run([*GIVEN, "--json", "-o", "out"]) == 0
    printed = capsys.readouterr().out
    assert printed == (shop / "out" / "strips.json").read_text(encoding="utf-8")
    assert len(json.loads(printed)["strips"]) == 3


def test_re_sets_follow_the_days_where_a_start_is_given(shop, capsys):
    """With --start the calendar's order holds."""
    assert run([*GIVEN, "--start", "2026-03-02", "--json"]) == 0
    layings = json.loads(capsys.readouterr().out)["layings"]
    assert sorted(cast for each in layings for cast in each["casts"]) == [1, 2]


def test_a_strip_longer_than_all_stock_ends_with_2(shop, capsys):
    """One line says which dam, and nothing is written."""
    (shop / "job.toml").write_text(JOB + STOCK.replace("2440", "1000"), encoding="utf-8")
    assert run([*GIVEN, "-o", "out"]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert "dams.stock: must hold a length for every strip; the longest is 1000 mm" in line
    assert not (shop / "out").exists()
