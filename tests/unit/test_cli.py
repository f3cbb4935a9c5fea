"""The command line: what is printed where, and the exit code of every ending.

The job file, the search, the checker and the drawings have tests of their own; here small stand-ins
take their places, so that each ending can be brought about.
"""

import errno
import io
import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import click
import pytest
from ferry import make_ferry_job, make_ferry_schedule, make_unproved_schedule

import nesting
from nesting.checking.findings import Finding
from nesting.cli import run
from nesting.errors import InputError, InputErrors, NoScheduleError
from nesting.files.marks import DXF_MARK
from nesting.values.casts import totals

SCHEDULE_JSON = '{"format": "nesting-schedule", "layouts": [{"layout": 1}]}\n'
FILES = {"schedule.json": SCHEDULE_JSON, "layout-01.svg": "<svg/>", "overview.svg": "<svg/>"}
RESULT = (
    "Ferry terminal, waiting hall: 7 casts from 1 layout; at least 7 casts needed; "
    "fewest casts PROVED.\n"
)
COMMAND = [sys.executable, "-c", "from nesting.cli import main; main()"]


class Shop:
    """Stand-ins for the pieces the commands call, and what they were called with."""

    def __init__(self):
        self.schedule = make_ferry_schedule()
        self.findings = ()
        self.stated = None
        self.trouble = {}
        self.called = []
        self.limit = None
        self.progress = ("bound 7", "7 casts")

    def pass_through(self, piece, value):
        """Note that the piece was called, then return its value or raise its trouble."""
        self.called.append(piece)
        if piece in self.trouble:
            raise self.trouble[piece]
        return value

    def schedule_casts(self, job, *, time_limit=None, progress=None):
        """Speak of progress where somebody listens, and return the schedule."""
        self.limit = time_limit
        for word in self.progress if progress else ():
            progress(word)
        return self.pass_through("search", self.schedule)


@pytest.fixture
def shop(monkeypatch):
    """Put the stand-ins in place of the pieces."""
    shop = Shop()
    pieces = {
        "jobs.read": {"read_job": lambda path: shop.pass_through("job", make_ferry_job())},
        "planning.schedule": {"schedule_casts": shop.schedule_casts},
        "checking.schedule": {
            "check_schedule": lambda job, plan: shop.pass_through("check", shop.findings)
        },
        "schedules.write": {
            "schedule_to_json": lambda schedule, job: SCHEDULE_JSON,
            "read_schedule": lambda path: shop.pass_through("read", shop.schedule),
            "read_totals": lambda path: shop.stated or totals(shop.schedule),
        },
        "drawings.planfiles": {
            "write_plan_files": lambda job, plan, dxf: shop.pass_through(
                "draw", FILES | ({"layout-01.dxf": DXF_MARK} if dxf else {})
            )
        },
    }
    for name, functions in pieces.items():
        monkeypatch.setitem(sys.modules, f"nesting.{name}", SimpleNamespace(**functions))
    return shop


def read_folder(folder):
    """Return the text of each file in the folder by its name."""
    return {path.name: path.read_text() for path in folder.iterdir()}


def test_plan_writes_the_folder_and_prints_the_report(shop, tmp_path, capsys):
    """With a folder, every file is written and the report ends with where they are."""
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out")]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith(RESULT)
    assert printed.out.endswith(
        f"\nWritten to {tmp_path / 'out'}: schedule.json, layout-01.svg, overview.svg.\n"
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
        "schedule.json, layout-01.svg, each as .dxf too, overview.svg.\n"
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
    shop.findings = (Finding(206, "layout 1, dam 'D3'", "it stands along no panel"),)
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out")]) == 4
    assert capsys.readouterr() == (
        "",
        "nesting: Our own checker refused our own schedule; nothing was written.\n"
        "nesting: 206 layout 1, dam 'D3': it stands along no panel.\n",
    )
    assert list(tmp_path.iterdir()) == []


def test_a_job_without_schedule_ends_with_the_reasons(shop, tmp_path, capsys):
    """An order that cannot be made ends with 3 and one line per panel."""
    shop.trouble["search"] = NoScheduleError(["Panel 'P3' fits no cast.", "Panel 'P4' neither."])
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out")]) == 3
    assert capsys.readouterr() == (
        "",
        "nesting: Panel 'P3' fits no cast.\nnesting: Panel 'P4' neither.\n",
    )
    assert list(tmp_path.iterdir()) == []


def test_every_mistake_of_the_job_has_its_line(shop, capsys):
    """Mistakes in the input end with 2, one line each, before any search."""
    shop.trouble["job"] = InputErrors(
        [InputError("job.toml:5: liner.heigth", "unknown key"), InputError("job.toml", "no order")]
    )
    assert run(["plan", "job.toml"]) == 2
    assert capsys.readouterr() == (
        "",
        "nesting: job.toml:5: liner.heigth: unknown key.\nnesting: job.toml: no order.\n",
    )
    assert shop.called == ["job"]


def test_names_in_messages_cannot_steer_the_terminal(shop, capsys):
    """Control characters in a message are shown as escapes."""
    shop.trouble["job"] = InputError("job.toml", "unknown key", got="'\x1b[2J'")
    assert run(["plan", "job.toml"]) == 2
    assert capsys.readouterr().err == "nesting: job.toml: unknown key, got '\\u001b[2J'.\n"


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


def test_trouble_of_our_own_is_one_line(shop, capsys):
    """An error nobody foresaw ends with 1 and no traceback."""
    shop.trouble["search"] = ZeroDivisionError("division by zero")
    assert run(["plan", "job.toml"]) == 1
    assert capsys.readouterr() == (
        "",
        "nesting: something went wrong in nesting itself (ZeroDivisionError); "
        "run with --debug to see where.\n",
    )


def test_debug_shows_where_trouble_began(shop, capsys):
    """With --debug the traceback stands above the line."""
    shop.trouble["search"] = ZeroDivisionError("division by zero")
    assert run(["plan", "job.toml", "--debug"]) == 1
    assert capsys.readouterr().err.startswith("Traceback (most recent call last):\n")


def test_ctrl_c_ends_with_130(shop, tmp_path, capsys):
    """Stopping by hand ends with 130, one line, and nothing written."""
    shop.trouble["search"] = KeyboardInterrupt()
    assert run(["plan", "job.toml", "-o", str(tmp_path / "out")]) == 130
    assert capsys.readouterr().err.strip() == "nesting: stopped."
    assert list(tmp_path.iterdir()) == []


def test_check_passes_a_schedule_without_fault(shop, capsys):
    """No finding is exit 0 and one line that says so."""
    assert run(["check", "job.toml", "schedule.json"]) == 0
    assert capsys.readouterr() == ("schedule.json: no fault found; every rule is kept.\n", "")


def test_check_prints_each_finding_with_its_code(shop, capsys):
    """Findings are exit 5 and one line each."""
    shop.findings = (
        Finding(206, "layout 1, dam 'D3'", "it stands along no panel"),
        Finding(401, "mark 'A1'", "the casts yield 6 of 7 panels"),
    )
    assert run(["check", "job.toml", "schedule.json"]) == 5
    assert capsys.readouterr().out.splitlines() == [
        "schedule.json: 2 faults found.",
        "206 layout 1, dam 'D3': it stands along no panel.",
        "401 mark 'A1': the casts yield 6 of 7 panels.",
    ]


def test_check_judges_the_totals_a_file_states(shop, capsys):
    """A schedule whose file states another idle area than its casts have is at fault."""
    shop.stated = replace(totals(shop.schedule), idle_area=1)
    assert run(["check", "job.toml", "schedule.json"]) == 5
    assert "\n502 schedule: idle_area must total" in capsys.readouterr().out


@pytest.mark.parametrize("count", [0, 1])
def test_check_gives_findings_as_json(shop, capsys, count):
    """The document says whether the schedule passed, and lists code and text of each finding."""
    shop.findings = (Finding(206, "dam 'D3'", "it stands along no panel"),) * count
    assert run(["check", "job.toml", "schedule.json", "--json"]) == 5 * count
    assert json.loads(capsys.readouterr().out) == {
        "format": "nesting-findings",
        "version": 1,
        "job": "Ferry terminal, waiting hall",
        "passed": count == 0,
        "findings": [{"code": 206, "text": "206 dam 'D3': it stands along no panel."}] * count,
    }


def test_check_reports_a_schedule_it_cannot_read(shop, capsys):
    """A schedule that cannot be read is exit 2, not a fault of the schedule."""
    shop.trouble["read"] = InputError("schedule.json", "must be JSON")
    assert run(["check", "job.toml", "schedule.json"]) == 2
    assert capsys.readouterr().err == "nesting: schedule.json: must be JSON.\n"


def test_an_unproved_schedule_is_still_a_success(shop, capsys):
    """NOT PROVED is told in words; the exit code is 0, for the plan can be cast."""
    shop.schedule = make_unproved_schedule()
    assert run(["plan", "job.toml", "--quiet"]) == 0
    assert "NOT PROVED" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["plan"], "Missing argument 'JOB'. See 'nesting plan --help'."),
        (["check", "job.toml"], "Missing argument 'SCHEDULE'. See 'nesting check --help'."),
        (["plon"], "No such command 'plon'"),
        (["plan", "job.toml", "--jsn"], "--json"),
        (["plan", "a.toml", "b.toml"], "b.toml"),
        (["plan", "job.toml", "-o"], "-o"),
    ],
)
def test_usage_errors_end_with_2_on_one_line(shop, capsys, words, told):
    """A command line that cannot be read is told in one line with where to look."""
    assert run(words) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.count("\n") == 1
    assert told in printed.err


def test_the_help_page_serves_a_person_at_a_casting_bed(capsys):
    """Help tells what is done, both commands, an example, every exit code and the cautions."""
    assert run(["--help"]) == 0
    page = capsys.readouterr().out
    for words in ("where each dam goes", "plan ", "check ", "nesting plan examples/", "Caution"):
        assert words in page
    for code in ("0", "1", "2", "3", "4", "5", "130"):
        assert f"\n    {code} " in page
    assert page.isascii()
    assert page.index("  plan ") < page.index("  check ")
    assert max(map(len, page.splitlines())) <= 100


def test_no_command_shows_the_help_page(capsys):
    """The bare name is a question, answered by the help page."""
    assert run([]) == 0
    bare = capsys.readouterr().out
    assert run(["--help"]) == 0
    assert capsys.readouterr().out == bare


def test_the_version_is_printed(capsys):
    """The version is one line, and says so where the package is not installed."""
    assert run(["--version"]) == 0
    assert capsys.readouterr().out.startswith("nesting")


def test_every_option_has_its_help():
    """No option goes unexplained on the help pages."""
    from nesting.cli import nesting

    options = [
        option
        for command in (nesting, *nesting.commands.values())
        for option in command.params
        if isinstance(option, click.Option)
    ]
    assert len(options) > 6
    assert all(option.help for option in options)


def test_text_for_an_ascii_stream_is_ascii(shop, monkeypatch):
    """Names beyond ASCII are escaped where standard output is ASCII."""
    shop.schedule = make_ferry_schedule()
    stream = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr(sys, "stdout", stream)
    monkeypatch.setattr(
        "nesting.schedules.report.write_result", lambda schedule: "Wzg\u00f3rze \u0142\u00f3d"
    )
    assert run(["plan", "job.toml", "--quiet"]) == 0
    stream.flush()
    assert stream.buffer.getvalue() == b"Wzg\\u00f3rze \\u0142\\u00f3d\n"


def test_a_reader_that_leaves_early_is_no_fault():
    """Writing into a closed pipe ends quietly and with success."""
    reading, writing = os.pipe()
    os.close(reading)
    ended = subprocess.run(
        [*COMMAND, "--help"], stdout=writing, stderr=subprocess.PIPE, text=True, check=False
    )
    os.close(writing)
    assert (ended.returncode, ended.stderr) == (0, "")


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs /dev/full")
def test_standard_output_on_a_full_disk_is_told():
    """Text that cannot be printed ends with 2 and one line."""
    with open("/dev/full", "w") as full:
        ended = subprocess.run(
            [*COMMAND, "--help"], stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert ended.returncode == 2
    assert ended.stderr == (
        "nesting: Standard output: must take the text, got no space left on device.\n"
    )


def test_help_imports_nothing_heavy():
    """The help page needs click, the modules of the commands and two small ones more."""
    script = (
        "import sys; from nesting.cli import run; run(['--help']); "
        "print(*sorted(m for m in sys.modules if m.startswith('nesting')), file=sys.stderr); "
        "heavy = {'numpy', 'shapely', 'pyclipper', 'svgwrite', 'highspy', 'reportlab'}; "
        "heavy &= set(sys.modules); "
        "print(*heavy, file=sys.stderr)"
    )
    ended = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    folder = Path(nesting.__file__).parent / "commands"
    commands = [f"nesting.commands.{path.stem}" for path in sorted(folder.glob("[!_]*.py"))]
    others = ["nesting", "nesting.cli", "nesting.commands", "nesting.errors"]
    assert sorted(ended.stderr.split()) == sorted([*others, *commands])
