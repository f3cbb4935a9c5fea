"""Broken and hostile drawings: one line each, at once, in little memory, and never a traceback."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from hostilefiles import list_dxfs, list_svgs

pytestmark = pytest.mark.long


SCRIPT = Path(__file__).parents[2] / "readhostile.py"
LIMIT_S, LIMIT_MIB = 5, 500


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory):
    """Return what came of each file, and the most memory used, read in one process of its own."""
    folder = tmp_path_factory.mktemp("hostile")
    for ending, files in (("svg", list_svgs()), ("dxf", list_dxfs())):
        for name, content in files:
            (folder / f"{name}.{ending}").write_bytes(content)
    ended = subprocess.run(
        [sys.executable, str(SCRIPT), str(folder)], capture_output=True, text=True, check=True
    )
    *found, memory = map(json.loads, ended.stdout.splitlines())
    assert ended.stderr == ""
    return found, memory["memory"]


def test_there_are_enough_of_each():
    """More than thirty of each kind, all of different names."""
    for files in (list_svgs(), list_dxfs()):
        assert len({name for name, _ in files}) == len(files) > 30


def test_every_file_was_read_to_its_end(outcomes):
    """None stopped the process."""
    assert len(outcomes[0]) == len(list_svgs()) + len(list_dxfs())


def test_each_ends_as_done_or_as_wrong_input(outcomes):
    """Never by a fault of our own or with a traceback; what is wrong is said by the line."""
    for each in outcomes[0]:
        assert each["code"] in (0, 2), each
        assert "Traceback" not in each["told"], each
        assert (each["code"] == 2) == bool(each["told"]), each
        assert all(line.startswith("nesting: ") for line in each["told"].splitlines()), each


def test_none_takes_long_or_much(outcomes):
    """Seconds of the processor for each file, and memory for all together."""
    found, memory = outcomes
    assert [each for each in found if each["took"] > LIMIT_S] == []
    assert memory < LIMIT_MIB


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("entity_bomb.svg", "an entity must be short and hold no other"),
        ("entity_outside.svg", "an entity must not reach outside the file"),
        ("deep.svg", "elements nest at most 200 deep"),
        ("wide.svg", "a drawing has at most 200000 elements"),
        ("use_bomb.svg", "copies made by use may come to 20000 elements"),
        ("path_huge.svg", "a path has at most 200000 curves"),
        ("zigzag.svg", "it crosses itself, with more than 1000 points"),
        ("written_bombs.dxf", "a drawing has at most 100000 entities"),
        ("written_many.dxf", "a drawing has at most 100000 entities"),
        ("nan.dxf", "its coordinates are not finite or too far out"),
        ("open_outline.dxf", "it does not close: a gap of 3 mm at (0, 0)"),
    ],
)
def test_why_each_was_refused(outcomes, name, told):
    """The line says what the file did."""
    (found,) = [each for each in outcomes[0] if each["name"] == name]
    assert told in found["told"]
