"""The README keeps its word: its commands, its output, its sample job, its codes and its links."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from nesting import errors
from nesting.cli import NOTES, nesting, run

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
EXAMPLE = "examples/ferry-terminal.toml"
FOLDER = "output_svg/ferry-terminal"
PLAN_COMMAND = (
    "python3 -m venv .venv && .venv/bin/pip install . && "
    f".venv/bin/nesting plan {EXAMPLE} -o {FOLDER}"
)
TEST_COMMAND = (
    "python3 -m venv .venv && .venv/bin/pip install '.[test]' && .venv/bin/python -m pytest"
)
CUT = "[...]"
"""A line of the shown output that stands for lines left out."""


def read_blocks(language):
    """Return the text of every fenced block in the language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def read_shown_output(mark="output"):
    """Return the output between the README's two marks, as pieces parted at the cuts."""
    marks = rf"<!-- {mark} begins? -->(.*)<!-- {mark} ends? -->"
    between = re.search(marks, README, re.DOTALL)
    block = re.fullmatch(r"\s*```text\n(.*)```\s*", between[1], re.DOTALL)
    return block[1].split(f"{CUT}\n") if block else []


@pytest.mark.parametrize("command", [PLAN_COMMAND, TEST_COMMAND])
def test_both_commands_stand_whole_on_one_line(command):
    """Each command can be copied as it is and run."""
    assert f"{command}\n" in read_blocks("sh")


def test_the_ci_runs_the_readmes_test_command():
    """The test command is read from the README, where its pattern finds that line only."""
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    pattern = re.search(r'grep -F "(.*)" README\.md', script)[1]
    assert [line for line in README.splitlines() if pattern in line] == [TEST_COMMAND]
    assert TEST_COMMAND not in script


def test_the_shown_output_is_what_the_command_prints(tmp_path, monkeypatch, capsys):
    """Every piece of the shown output is printed, in that order, and the ends are the ends."""
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    assert run(["plan", EXAMPLE, "-o", FOLDER]) == 0
    printed = capsys.readouterr().out
    pieces = read_shown_output()
    assert len("".join(pieces)) > 500
    assert printed.startswith(pieces[0])
    assert printed.endswith(pieces[-1])
    at = 0
    for piece in pieces:
        at = printed.index(piece, at) + len(piece)


def test_the_shown_answer_to_a_size_is_what_the_command_prints(tmp_path, monkeypatch, capsys):
    """The answer shown is among those printed."""
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    (command,) = [line for line in README.splitlines() if " fit examples/" in line]
    assert run(shlex.split(command)[1:]) == 0
    (shown,) = [piece for piece in read_shown_output("fit") if piece]
    assert shown.strip() in capsys.readouterr().out
    assert [path.name for path in (tmp_path / "trial").iterdir()] == ["ferry-terminal-01.svg"]


def test_the_shown_quantities_are_what_the_command_prints(monkeypatch, capsys):
    """Every piece shown of the second command is printed, in that order, from end to end."""
    monkeypatch.chdir(ROOT)
    (command,) = [line for line in README.splitlines() if " quantities examples/" in line]
    assert run(command.split()[1:]) == 0
    printed = capsys.readouterr().out
    pieces = read_shown_output("quantities")
    assert len("".join(pieces)) > 500
    assert printed.startswith(pieces[0])
    assert printed.endswith(pieces[-1])
    at = 0
    for piece in pieces:
        at = printed.index(piece, at) + len(piece)


def test_the_sample_job_can_be_planned(tmp_path, capsys):
    """The job shown is whole: it is read, scheduled, checked and proved as it stands."""
    (job,) = read_blocks("toml")
    (tmp_path / "job.toml").write_text(job, encoding="utf-8")
    assert run(["plan", str(tmp_path / "job.toml"), "--quiet"]) == 0
    assert capsys.readouterr().out == (
        "Bath house, foyer: 3 casts from 1 layout; at least 3 casts needed; fewest casts PROVED.\n"
    )


def test_the_exit_codes_are_those_of_the_help_page():
    """Code for code, README and help say the same, and every error's code is among them."""
    told = dict(re.findall(r"^\| (\d+) \| (.*) \|$", README, re.MULTILINE))
    helped = dict(re.findall(r"^  (\d+) +(.*)$", NOTES, re.MULTILINE))
    assert {code: text.replace("`", "") for code, text in told.items()} == helped
    kinds = [kind for kind in vars(errors).values() if isinstance(kind, type)]
    codes = {str(kind.exit_code) for kind in kinds if issubclass(kind, errors.NestingError)}
    assert codes <= set(told)


def test_options_named_exist():
    """Every option the README names is an option of a command."""
    commands = [nesting, *nesting.commands.values()]
    params = [each for command in commands for each in command.params]
    options = {name for each in params for name in (*each.opts, *each.secondary_opts)}
    assert set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", README)) <= options


def test_links_lead_somewhere():
    """Every page and drawing the README links to is there."""
    links = re.findall(r"\]\(([^)#:]+)\)", README)
    assert len(links) > 7
    assert [link for link in links if not (ROOT / link).is_file()] == []


@pytest.mark.parametrize(
    "words",
    [
        "Local codes and licensed practice rule",
        "29 CFR 1926.1153",
        "Wet cement",
        "NIOSH",
        "python3-venv",
    ],
)
def test_cautions_and_set_up_are_told(words):
    """What can hurt, what rules, and what a fresh machine needs first are on the page."""
    assert words in README
