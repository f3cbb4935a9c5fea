"""Help pages: an example for each command that is right, and names the shell completes."""

import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from nesting.cli import nesting, run
from nesting.commands.help import EXAMPLES

ROOT = Path(__file__).parents[3]
LINES = [line for lines in EXAMPLES.values() for line in lines]


def test_every_command_has_an_example_and_no_example_lacks_its_command():
    """The examples stand under the names of the commands."""
    assert set(EXAMPLES) == set(nesting.commands)
    assert all(shlex.split(each)[1] == name for name in EXAMPLES for each in EXAMPLES[name])


@pytest.mark.parametrize("line", LINES)
def test_an_example_names_options_and_files_that_exist(line):
    """The command takes the words as they stand, and the examples' files are in the project."""
    words = shlex.split(line)[1:]
    context = nesting.commands[words[0]].make_context(words[0], words[1:])
    assert context.params or words == ["schema"]
    named = [word for word in words if word.startswith(("examples/", "output_svg/"))]
    assert named or words == ["schema"]
    assert [word for word in named if not (ROOT / word).exists()] == []


@pytest.mark.parametrize("name", nesting.commands)
def test_a_help_page_shows_its_examples(name, capsys):
    """They stand whole on lines of their own, to be copied."""
    assert run([name, "--help"]) == 0
    page = capsys.readouterr().out
    assert all(f"\n    {line}\n" in page for line in EXAMPLES[name])


@pytest.mark.parametrize(
    ("words", "completed"),
    [
        ("nesting qu", "plain,quantities"),
        ("nesting plan exa", "file,exa"),
        ("nesting plan a.toml -o ou", "dir,ou"),
        ("nesting check a.toml ou", "file,ou"),
        ("nesting template a.toml --land", "plain,--landscape"),
    ],
)
def test_the_shell_completes_commands_options_and_files(words, completed):
    """What click asks the shell to complete: a word, a file or a folder."""
    asked = {"COMP_WORDS": words, "COMP_CWORD": str(len(words.split()) - 1)}
    ended = subprocess.run(
        [sys.executable, "-c", "from nesting.cli import main; main()"],
        env={**os.environ, **asked, "_NESTING_COMPLETE": "bash_complete"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert ended.stdout.split() == [completed]


@pytest.mark.parametrize("module", ["nesting", "nesting.cli"])
def test_the_modules_run_as_the_command_does(module):
    """``python -m`` with the package or its command line is the command, exit code and all."""
    ended = subprocess.run(
        [sys.executable, "-m", module, "plan"], capture_output=True, text=True, check=False
    )
    assert ended.returncode == 2
    assert ended.stderr == "nesting: Missing argument 'JOB'. See 'nesting plan --help'.\n"
