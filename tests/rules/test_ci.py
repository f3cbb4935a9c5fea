"""What `.ci/run` demands before it tests anything, and that its look at the installed package sees.

A file of data left out of the package is found by a command that needs it, or by comparing.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DATA = {
    "bench/page.html": "page: ",
    "packets/packet.css": "packet ",
    "packets/packet.js": "packet ",
    "drawings/fonts/DejaVuSans.ttf": "template ",
    "drawings/fonts/DejaVuSans-Bold.ttf": "template ",
    "py.typed": "py.typed is not in the installed package",
    "drawings/fonts/LICENSE": "drawings/fonts/LICENSE is not in the installed package",
}
"""What is left out, and how the line begins that tells."""


def run_ci(folder, readme, **environment):
    """Run the script as far as it goes where there is no browser and nothing to install one."""
    tools = folder / "bin"
    tools.mkdir()
    for name in ("bash", "dirname", "grep", "wc", "id"):
        (tools / name).symlink_to(shutil.which(name))
    (folder / ".ci").mkdir()
    shutil.copy(ROOT / ".ci" / "run", folder / ".ci")
    (folder / "README.md").write_text(readme, encoding="utf-8")
    ended = subprocess.run(
        [tools / "bash", folder / ".ci" / "run"],
        capture_output=True,
        text=True,
        env={"PATH": str(tools), **environment},
        check=False,
    )
    return ended.returncode, ended.stderr


def test_a_readme_without_the_test_command_is_told(tmp_path):
    """It ends with 1 and a line of its own."""
    assert run_ci(tmp_path, "# nesting\n") == (
        1,
        ".ci/run: README.md must hold the test command, a line with pip install '.[test]'; "
        "write it there\n",
    )


def test_a_readme_with_two_test_commands_is_told(tmp_path):
    """Which of them is meant is not guessed."""
    code, told = run_ci(tmp_path, "pip install '.[test]'\n" * 2)
    assert code == 1
    assert "on exactly one line" in told


def test_where_it_must_not_skip_a_missing_browser_ends_it(tmp_path):
    """With CI=true tests in a browser are no longer left out in silence."""
    code, told = run_ci(tmp_path, "pip install '.[test]'\n", CI="true")
    assert code == 1
    assert told.startswith(".ci/run: with CI=true there must be chromium and its chromedriver")


def test_every_file_of_data_is_known_here():
    """What lies in the package besides modules is what the test below leaves out one by one."""
    files = [path for path in (ROOT / "nesting").rglob("*") if path.is_file()]
    data = {str(path.relative_to(ROOT / "nesting")) for path in files if path.suffix[:3] != ".py"}
    assert data == set(DATA)


def check_installed(folder):
    """Return what the look at the package in the folder ends with and tells."""
    ended = subprocess.run(
        [sys.executable, str(ROOT / ".ci" / "installed.py"), str(ROOT)],
        cwd="/",
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(folder)},
        check=False,
    )
    return ended.returncode, ended.stderr


@pytest.mark.long
@pytest.mark.parametrize("name", DATA)
def test_a_package_that_lacks_a_file_of_data_fails(name, tmp_path):
    """One line tells what failed."""
    shutil.copytree(ROOT / "nesting", tmp_path / "nesting")
    (tmp_path / "nesting" / name).unlink()
    code, told = check_installed(tmp_path)
    assert code == 1
    assert told.startswith(f".ci/installed.py: {DATA[name]}")
    assert len(told.splitlines()) == 1
