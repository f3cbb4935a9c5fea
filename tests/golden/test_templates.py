"""A full-size template among the examples, byte for byte; ``pytest --redraw`` writes anew.

A PDF is compared with its parts unpacked, since what packs them may differ from machine to machine.
"""

from pathlib import Path

import pytest
from pdfink import unpack

from nesting.cli import run
from nesting.templates.files import TEMPLATE

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "output_svg" / "ferry-terminal-template"
COMMAND = [
    "template",
    str(ROOT / "examples" / "ferry-terminal.toml"),
    "--schedule",
    str(ROOT / "output_svg" / "ferry-terminal" / "schedule.json"),
    *("--layout", "1", "--dam", "2", "--svg-sheets", "--json"),
]


@pytest.fixture
def fresh(tmp_path, capsys):
    """Return the files of the template, made anew."""
    assert run([*COMMAND, "-o", str(tmp_path / "out")]) == 0
    return {path.name: path.read_bytes() for path in sorted((tmp_path / "out").iterdir())}


def test_the_template_is_the_committed_one(fresh, request):
    """PDF, sheets and list are the committed ones, and nothing stale lies beside them."""
    for name, content in fresh.items():
        if request.config.getoption("--redraw"):
            FOLDER.mkdir(parents=True, exist_ok=True)
            (FOLDER / name).write_bytes(content)
        assert unpack((FOLDER / name).read_bytes()) == unpack(content), name
    assert sorted(fresh) == sorted(path.name for path in FOLDER.iterdir())
    assert TEMPLATE.marker in fresh


def test_unpacking_keeps_what_is_drawn(fresh):
    """The end of the dam stands in an unpacked stream, so that a moved line would be seen."""
    streams = [each[1] for each in unpack(fresh["template.pdf"]) if isinstance(each, tuple)]
    assert any(b"1575 890 l" in stream for stream in streams)
    assert len(streams) > 5
