"""The drawings among the examples, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

import pytest
from printtime import sheet

from nesting.drawings.dxf import liner_to_dxf
from nesting.drawings.linersvg import liner_to_svg
from nesting.jobs.read import read_liner_file
from nesting.jobs.write import write_liner
from nesting.liners.options import DrawingOptions
from nesting.liners.picture import draw_liner
from nesting.liners.read import read_drawing
from nesting.liners.report import report_liner

ROOT = Path(__file__).parents[2]
DRAWINGS = sorted((ROOT / "examples" / "drawings").glob("*.[ds][xv][fg]"))
OPTIONS = DrawingOptions(thickness=13 * 8000)


def test_there_is_an_example_of_each_kind():
    """One DXF and one SVG."""
    assert [path.name for path in DRAWINGS] == ["herons.svg", "reeds.dxf"]


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_a_drawing_comes_to_the_committed_liner_and_picture(path, request):
    """Liner, picture and report are the committed ones, and nothing stale lies beside them."""
    found = read_drawing(path, OPTIONS)
    folder = ROOT / "output_svg" / path.stem
    files = {
        path.with_suffix(".toml"): write_liner(found),
        folder / "picture.svg": sheet(draw_liner(found), write_liner(found)),
        folder / "report.txt": report_liner(found) + "\n",
    }
    for file, text in files.items():
        if request.config.getoption("--redraw"):
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8", newline="\n")
        assert file.read_text(encoding="utf-8") == text
    assert sorted(each.name for each in folder.iterdir()) == ["picture.svg", "report.txt"]
    assert read_liner_file(path.with_suffix(".toml")) == (found.liner, found.units)


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
@pytest.mark.parametrize("ending", ["dxf", "svg"])
def test_a_drawing_survives_the_way_back_to_a_drawing(path, ending, tmp_path):
    """Flattened once, a liner goes to a drawing of either kind and comes back without a change."""
    found = read_drawing(path, OPTIONS)
    back = tmp_path / f"back.{ending}"
    text = liner_to_svg(found.liner) if ending == "svg" else liner_to_dxf(found.liner)
    back.write_text(text, encoding="utf-8")
    assert read_drawing(back, DrawingOptions()).liner == found.liner
