"""The packet command: planned or given a schedule, written whole or not at all, how it ends."""

import json

import pytest

from nesting.cli import run

GIVEN = ["packet", "job.toml", "--schedule", "schedule.json"]


def test_both_files_are_written_and_told(shop, capsys):
    """The folder is made with its parents; other files in it stay."""
    assert run([*GIVEN, "-o", "out/packet"]) == 0
    assert capsys.readouterr().out == (
        "Bath house, foyer: a packet with a page for each of 2 layouts.\n"
        "Written to out/packet: packet.html, packet.pdf.\n"
    )
    (shop / "out/packet/mine.txt").write_text("mine")
    first = {path.name: path.read_bytes() for path in (shop / "out/packet").iterdir()}
    assert run([*GIVEN, "-o", "out/packet"]) == 0
    assert {path.name: path.read_bytes() for path in (shop / "out/packet").iterdir()} == first
    assert sorted(first) == ["mine.txt", "packet.html", "packet.pdf"]


def test_without_a_schedule_the_job_is_planned(shop, capsys):
    """The plan is the one the schedule holds, so both packets are the same."""
    assert run(["packet", "job.toml", "-o", "planned", "--time-limit", "20", "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["files"] == ["packet.html", "packet.pdf"]
    assert run([*GIVEN, "-o", "given"]) == 0
    pages = [(shop / each / "packet.html").read_text() for each in ("planned", "given")]
    assert pages[0].count("<section") == pages[1].count("<section") == 14


def test_decimals_stand_in_a_column_of_their_own_where_asked(shop, capsys):
    """Every figure of this job is whole, so the column has none to tell."""
    for name, options in (("plain", []), ("exact", ["--exact"])):
        assert run([*GIVEN, "-o", name, *options]) == 0
    assert "exact</th>" not in (shop / "plain/packet.html").read_text(encoding="utf-8")
    assert "exact</th>" in (shop / "exact/packet.html").read_text(encoding="utf-8")


def test_a_start_adds_the_days(shop, capsys):
    """The calendar begins on it; without one the job names none, and there is no calendar."""
    assert run([*GIVEN, "-o", "out", "--start", "2026-05-04", "--json"]) == 0
    sections = json.loads(capsys.readouterr().out)["sections"]
    assert "calendar" in [each["name"] for each in sections]
    assert "Monday 2026-05-04" in (shop / "out/packet.html").read_text(encoding="utf-8")


def test_a_faulty_schedule_is_refused(shop, capsys):
    """Exit code 5 and no packet: nobody casts from a plan with a fault."""
    path = shop / "schedule.json"
    path.write_text(path.read_text().replace('"x": 825', '"x": 815'), encoding="utf-8")
    assert run([*GIVEN, "-o", "out"]) == 5
    printed = capsys.readouterr()
    assert printed.out == ""
    assert "the schedule must be without fault" in printed.err
    assert not (shop / "out").exists()


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (["job.toml"], "-o: must name a folder; give its path after -o."),
        (["job.toml", "-o", ""], "-o: must name a folder; give its path after -o."),
        (["none.toml", "-o", "out"], "none.toml: there is no such file."),
        (["job.toml", "-o", "job.toml"], "Output folder 'job.toml'"),
        (["job.toml", "-o", "job.toml/x"], "must be a folder that can be written to"),
        ([*GIVEN[1:3], "none.json", "-o", "out"], "none.json: there is no such file."),
        ([*GIVEN[1:], "-o", "out", "--start", "monday"], "--start: must be a date like 2026-03-02"),
        (["-o", "out"], "Missing argument 'JOB'. See 'nesting packet --help'."),
    ],
)
def test_wrong_input_ends_with_two_and_writes_nothing(shop, capsys, args, told):
    """One line on standard error, no traceback, and the folder as it was."""
    assert run(["packet", *args]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told in printed.err
    assert "Traceback" not in printed.err
    assert sorted(path.name for path in shop.iterdir()) == ["job.toml", "schedule.json"]


def test_a_file_that_cannot_be_replaced_leaves_the_other_unwritten(shop, capsys):
    """A folder where the PDF would go is told, and no page is written."""
    (shop / "out" / "packet.pdf").mkdir(parents=True)
    assert run([*GIVEN, "-o", "out"]) == 2
    assert "packet.pdf: the file must be writable" in capsys.readouterr().err
    assert [path.name for path in (shop / "out").iterdir()] == ["packet.pdf"]
