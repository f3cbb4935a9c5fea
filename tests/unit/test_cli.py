"""The command line: what is printed where, and the exit code of every ending.

What commands call has tests of its own; here small stand-ins take its place.
"""

import io
import os
import subprocess
import sys

import click
import pytest
from ferry import make_ferry_schedule
from standins import stand_in

from nesting.cli import run
from nesting.commands.help import EXAMPLES
from nesting.errors import InputError, InputErrors, NoScheduleError

COMMAND = [sys.executable, "-c", "from nesting.cli import main; main()"]


@pytest.fixture
def shop(monkeypatch):
    """Put the stand-ins in place of the pieces."""
    return stand_in(monkeypatch)


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


@pytest.mark.parametrize(
    ("args", "loaded"),
    [("--help", set(EXAMPLES)), ("--version", set()), ("check --help", {"check"})],
)
def test_help_and_version_load_click_and_little_else(args, loaded):
    """Of ours, the modules of the commands that are shown and what they share; nothing heavy."""
    script = (
        f"import sys; from nesting.cli import run; run({args.split()}); "
        "print(*(m for m in sys.modules if m.startswith('nesting')), file=sys.stderr); "
        "heavy = {'numpy', 'shapely', 'pyclipper', 'svgwrite', 'highspy', 'reportlab'}; "
        "print(*heavy & set(sys.modules), file=sys.stderr)"
    )
    ended = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    found = set(ended.stderr.split()) - {"nesting", "nesting.errors", "nesting.cli"}
    commands = {name.rpartition(".")[2] for name in found}
    assert found <= {"nesting.commands", *(f"nesting.commands.{name}" for name in commands)}
    assert commands & set(EXAMPLES) == loaded
