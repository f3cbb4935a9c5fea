"""The command ``nesting plan``: what it prints and writes, and what it refuses before a search."""

import errno
import os
import sys

import pytest
from ferry import make_unproved_schedule
from standins import FILES, RESULT, SCHEDULE_JSON, read_folder, stand_in

from nesting.checking.findings import Finding
from nesting.cli import run
from nesting.files.marks import DXF_MARK


@pytest.fixture
def shop(monkeypatch):
    """Put the stand-ins in place of the pieces."""
    return stand_in(monkeypatch)


def test_plan_writes_the_folder_and_prints_the_report(shop, tmp_path, capsys):
    """With a folder, every file is written and the report ends with where they are."""
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out")]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith(RESULT)
    assert printed.out.endswith(
        f"\nWritten to {tmp_path / 'out'}: schedule.json, layout-01.svg, "
        "a face-MARK.svg for each kind of panel, overview.svg.\n"
    )
    assert printed.err == ""
    assert read_folder(tmp_path / "out") == FILES


def test_plan_without_a_folder_writes_nothing_and_says_so(shop, tmp_path, monkeypatch, capsys):
    """Without a folder the report is printed, and its end tells how to get the files."""
    monkeypatch.chdir(tmp_path)
    assert run(["plan", "job.toml"]) == 0
    assert capsys.readouterr().out.endswith(
        "\nNothing was written; give a folder with -o for the schedule and the drawings.\n"
    )
    assert list(tmp_path.iterdir()) == []
    assert "draw" not in shop.called


def test_layouts_come_as_dxf_too_where_asked(shop, tmp_path, capsys):
    """With --dxf each layout has a DXF beside its SVG; a plan without takes it away again."""
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out"), "--dxf"]) == 0
    assert capsys.readouterr().out.endswith(
        "schedule.json, layout-01.svg, each as .dxf too, "
        "a face-MARK.svg for each kind of panel, overview.svg.\n"
    )
    assert read_folder(tmp_path / "out") == FILES | {"layout-01.dxf": DXF_MARK}
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out")]) == 0
    assert read_folder(tmp_path / "out") == FILES


def test_a_dxf_drawn_on_since_is_not_replaced(shop, tmp_path, capsys):
    """A layout saved by other hands has lost its mark, and the plan will not touch the folder."""
    assert run(["plan", "job.toml", "-o", str(tmp_path), "--dxf"]) == 0
    (tmp_path / "layout-01.dxf").write_text("0\nSECTION\n", encoding="ascii")
    assert run(["plan", "job.toml", "-o", str(tmp_path), "--dxf"]) == 2
    assert "got layout-01.dxf; move it away" in capsys.readouterr().err


def test_dxf_without_a_folder_is_refused(shop, capsys):
    """There is nowhere to write it."""
    assert run(["plan", "job.toml", "--dxf"]) == 2
    assert "--dxf needs a folder, give it with -o." in capsys.readouterr().err
    assert shop.called == []


def test_dxf_without_its_package_is_refused_before_the_search(shop, tmp_path, monkeypatch, capsys):
    """The line says which package is missing and how to get it."""
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out"), "--dxf"]) == 2
    told = "--dxf: DXF needs the package ezdxf, got none; "
    told += "in the folder of nesting run .venv/bin/pip install '.[cad]'."
    assert told in capsys.readouterr().err
    assert "search" not in shop.called


def test_json_prints_the_schedule_and_nothing_else(shop, tmp_path, capsys):
    """Standard output holds the very text of schedule.json, which is still written."""
    assert run(["plan", "job.toml", "--json", "-o", str(tmp_path / "out")]) == 0
    assert capsys.readouterr().out == SCHEDULE_JSON
    assert read_folder(tmp_path / "out") == FILES


def test_quiet_prints_the_one_line_of_the_result(shop, capsys):
    """Quiet leaves the line with casts, bound and verdict."""
    assert run(["plan", "job.toml", "--quiet"]) == 0
    assert capsys.readouterr() == (RESULT, "")


def test_verbose_tells_how_the_search_goes(shop, capsys):
    """Verbose puts the search's words and the time of each piece on standard error."""
    assert run(["plan", "job.toml", "--quiet", "--json"]) == 0
    assert capsys.readouterr().err == ""
    assert run(["plan", "job.toml", "--verbose"]) == 0
    lines = capsys.readouterr().err.splitlines()
    assert lines[1:3] == ["nesting: bound 7", "nesting: 7 casts"]
    assert [line.split(" took ")[0] for line in (lines[0], *lines[3:])] == [
        "nesting: reading the job",
        "nesting: the search",
        "nesting: the check",
    ]


def test_quiet_and_verbose_exclude_each_other(shop, capsys):
    """Asking for both is a usage error."""
    assert run(["plan", "job.toml", "--quiet", "--verbose"]) == 2
    assert "--quiet and --verbose cannot be used together." in capsys.readouterr().err


def test_progress_is_shown_on_a_terminal_only(shop, monkeypatch, capsys):
    """On a terminal one line is rewritten and wiped; elsewhere standard error stays empty."""
    assert run(["plan", "job.toml"]) == 0
    assert capsys.readouterr().err == ""
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    assert run(["plan", "job.toml"]) == 0
    shown = capsys.readouterr().err
    assert shown.startswith("\r0 s  bound 7")
    assert shown.endswith(" \r")
    assert "\n" not in shown


def test_the_time_limit_reaches_the_search(shop, capsys):
    """Seconds may have decimals; without the option it is a minute."""
    assert run(["plan", "job.toml", "--time-limit", "2.5", "--quiet"]) == 0
    assert shop.limit == 2.5
    assert run(["plan", "job.toml", "--quiet"]) == 0
    assert shop.limit == 60


@pytest.mark.parametrize("seconds", ["0", "-1", "nan", "inf", "-inf", "1e999", "soon", ""])
def test_a_time_limit_must_be_a_positive_number(shop, capsys, seconds):
    """Whatever is no positive, finite number of seconds is refused before the job is read."""
    assert run(["plan", "job.toml", f"--time-limit={seconds}"]) == 2
    assert capsys.readouterr() == (
        "",
        f"nesting: --time-limit must be a number of seconds > 0, got {seconds}. "
        "See 'nesting plan --help'.\n",
    )
    assert shop.called == []


def test_a_schedule_our_checker_refuses_is_not_written(shop, tmp_path, capsys):
    """Findings end the run with 4, one line each, and the folder is not made."""
    shop.findings = (Finding(206, "layout 1, dam 3", "it stands along no panel"),)
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out")]) == 4
    assert capsys.readouterr() == (
        "",
        "nesting: Our own checker refused our own schedule; nothing was written.\n"
        "nesting: 206 layout 1, dam 3: it stands along no panel.\n",
    )
    assert list(tmp_path.iterdir()) == []


def test_the_folder_is_tried_before_the_search(shop, tmp_path, capsys):
    """A folder that cannot be written to is told before any time is spent."""
    (tmp_path / "file").write_text("mine")
    assert run(["plan", "job.toml", "-o", str(tmp_path / "file")]) == 2
    assert "must be a folder that can be written to" in capsys.readouterr().err
    assert shop.called == ["job"]
    assert read_folder(tmp_path) == {"file": "mine"}


def test_an_empty_folder_name_is_refused(shop, capsys):
    """An empty name would stand for the working folder, so it is refused."""
    assert run(["plan", "job.toml", "-o", ""]) == 2
    assert capsys.readouterr().err == ("nesting: -o: must name a folder; give its path after -o.\n")


def test_a_full_disk_leaves_the_former_plan(shop, tmp_path, monkeypatch, capsys):
    """When the disk fills, the run ends with 2 and the folder is as it was."""
    former = {**FILES, "overview.svg": "former"}
    for name, text in former.items():
        (tmp_path / name).write_text(text)

    def fsync(_number):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("os.fsync", fsync)
    assert run(["plan", "job.toml", "-o", str(tmp_path)]) == 2
    assert "got no space left on device" in capsys.readouterr().err
    assert read_folder(tmp_path) == former


def test_an_unproved_schedule_is_still_a_success(shop, capsys):
    """NOT PROVED is told in words; the exit code is 0, for the plan can be cast."""
    shop.schedule = make_unproved_schedule()
    assert run(["plan", "job.toml", "--quiet"]) == 0
    assert "NOT PROVED" in capsys.readouterr().out
