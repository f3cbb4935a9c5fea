"""The charts of the liner files among the examples, byte for byte; ``--redraw`` writes anew."""

from pathlib import Path

import pytest

from nesting.cli import run

ROOT = Path(__file__).parents[2]
LINERS = sorted((ROOT / "examples" / "liners").glob("*.toml"))
FILES = {"reeds": ["sizes-drum.svg", "sizes-table.svg"]}


def test_there_is_an_example():
    """The folder has a liner file."""
    assert [path.stem for path in LINERS] == list(FILES)


@pytest.mark.parametrize("path", LINERS, ids=lambda path: path.stem)
def test_a_liner_comes_to_the_committed_charts(path, request, tmp_path, capsys):
    """Charts and report are the committed ones, and nothing stale lies beside them."""
    folder = ROOT / "output_svg" / f"{path.stem}-range"
    assert run(["range", str(path), "-o", str(tmp_path / "sizes.svg")]) == 0
    report = capsys.readouterr().out.rpartition("\n\n")[0] + "\n"
    (tmp_path / "report.txt").write_text(report, encoding="utf-8", newline="\n")
    names = ["report.txt", *FILES[path.stem]]
    assert sorted(each.name for each in tmp_path.iterdir()) == names
    for name in names:
        text = (tmp_path / name).read_bytes()
        if request.config.getoption("--redraw"):
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(text)
        assert (folder / name).read_bytes() == text
    assert sorted(each.name for each in folder.iterdir()) == names
