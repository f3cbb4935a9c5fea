"""The README keeps its word: its commands, its output, its sample job, its codes and its links."""

import contextlib
import io
import itertools
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
COMMANDS = (ROOT / "docs" / "commands.md").read_text(encoding="utf-8")
PLAN = ["plan", EXAMPLE, "-o", FOLDER]
SIZES = ["1500x900", "2 ft 3 1/2 in x 1 ft 8 in"]
SHOWN = {
    "plan": ("README.md", PLAN, r"\A(?:.*\n)*?(?=\nLayout 2\b)"),
    "areas": ("docs/commands.md", PLAN, r"^Areas in (?:.*\n)*\Z"),
    "weights": (
        "docs/commands.md",
        ["quantities", EXAMPLE, "--schedule", f"{FOLDER}/schedule.json"],
        r"\A(?:.*\n)*?(?=\nHandling\b)",
    ),
    "refused": (
        "docs/fit.md",
        ["fit", EXAMPLE, *SIZES, "--bed", "drum", "-o", "trial"],
        r"^Liner .* does not fit\.\n(?:  .*\n)+",
    ),
}
"""Of each output shown: its mark, its page, the command that prints it, and which part is shown."""


def read_blocks(language):
    """Return the text of every fenced block of the README in the language."""
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


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


@pytest.fixture(scope="session")
def example_folder(tmp_path_factory):
    """Return a folder with the examples, in which the example order is planned."""
    folder = tmp_path_factory.mktemp("readme")
    shutil.copytree(ROOT / "examples", folder / "examples")
    with contextlib.chdir(folder), contextlib.redirect_stdout(io.StringIO()):
        assert run(PLAN) == 0
    return folder


@pytest.mark.parametrize("mark", SHOWN)
def test_the_shown_output_is_what_the_command_prints(
    mark, example_folder, monkeypatch, capsys, request
):
    """The part shown is that of today's output, whole; ``pytest --redraw`` pastes it anew."""
    name, words, pattern = SHOWN[mark]
    monkeypatch.chdir(example_folder)
    assert run(words) == 0
    fresh = re.search(pattern, capsys.readouterr().out, re.MULTILINE)[0]
    assert len(fresh) > 200
    text = (ROOT / name).read_text(encoding="utf-8")
    assert shlex.join(words) in text.replace('"', "'")
    block = re.compile(rf"(?<=<!-- {mark} begins -->\n```text\n).*?(?=```\n<!-- {mark} ends)", re.S)
    if request.config.getoption("--redraw"):
        text = block.sub(lambda _: fresh, text)
        (ROOT / name).write_text(text, encoding="utf-8", newline="\n")
    assert block.search(text)[0] == fresh, "look at what changed, then pytest --redraw"


def test_every_shown_output_is_checked():
    """No page has output between marks that no command fills."""
    pages = [ROOT / name for name in ("README.md", "docs/commands.md", "docs/fit.md")]
    marks = [re.findall(r"<!-- ([a-z ]+) begins -->", page.read_text("utf-8")) for page in pages]
    assert sorted(itertools.chain.from_iterable(marks)) == sorted(SHOWN)


def test_a_hurried_reader_reads_it_to_the_end():
    """The page is short, and says how to write a job before it shows long output."""
    assert len(README.splitlines()) <= 130
    assert README.index("## Write a job") < README.index("```text")


def test_the_sample_job_can_be_planned(tmp_path, capsys):
    """The job shown is whole: it is read, scheduled, checked and proved as it stands."""
    (job,) = read_blocks("toml")
    (tmp_path / "job.toml").write_text(job, encoding="utf-8")
    assert run(["plan", str(tmp_path / "job.toml"), "--quiet"]) == 0
    assert capsys.readouterr().out == (
        "Bath house, foyer: 3 casts, 1 set of dams, 1 layout; at least 3 needed; "
        "fewest casts PROVED.\n"
    )


def test_the_exit_codes_are_those_of_the_help_page():
    """Code for code, docs and help say the same, and every error's code is among them."""
    told = dict(re.findall(r"^\| (\d+) \| (.*) \|$", COMMANDS, re.MULTILINE))
    helped = dict(re.findall(r"^  (\d+) +(.*)$", NOTES, re.MULTILINE))
    assert {code: text.replace("`", "") for code, text in told.items()} == helped
    kinds = [kind for kind in vars(errors).values() if isinstance(kind, type)]
    codes = {str(kind.exit_code) for kind in kinds if issubclass(kind, errors.NestingError)}
    assert codes <= set(told)


def test_options_named_exist():
    """Every option that README and commands page name is an option of a command."""
    commands = [nesting, *nesting.commands.values()]
    params = [each for command in commands for each in command.params]
    options = {name for each in params for name in (*each.opts, *each.secondary_opts)}
    assert set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", README + COMMANDS)) <= options | {"--help"}


def test_every_page_is_in_the_reading_order():
    """The list at the end of the README names each page of docs once, so it is their index."""
    links = re.findall(r"\]\((docs/[\w-]+\.md)\)", README.split("## Read on")[1])
    assert sorted(links) == sorted(f"docs/{path.name}" for path in (ROOT / "docs").glob("*.md"))


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
