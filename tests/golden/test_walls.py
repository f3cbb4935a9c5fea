"""The walls among the examples, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

import pytest
from printtime import sheet

from nesting.walls.cladding import divide_wall
from nesting.walls.plan import draw_wall
from nesting.walls.read import read_wall, write_order
from nesting.walls.report import report_wall, wall_to_json
from nesting.walls.ties import tie_skins
from nesting.walls.tiesheet import draw_tie_sheets

ROOT = Path(__file__).parents[2]
WALLS = sorted((ROOT / "examples" / "walls").glob("*.toml"))


def test_there_is_an_example():
    """The folder has walls."""
    assert [path.stem for path in WALLS] == ["bath-house-apse", "reading-room-drum"]


@pytest.mark.parametrize("path", WALLS, ids=lambda path: path.stem)
def test_a_wall_comes_to_the_committed_order_and_plan(path, request):
    """Order, plan, report and sheets are the committed ones, and nothing stale lies beside them."""
    wall = read_wall(path)
    stretches = divide_wall(wall)
    tied = tie_skins(wall, stretches) if wall.ties else None
    folder = ROOT / "output_svg" / path.stem
    shown = wall_to_json(wall, stretches, tied)
    files = {
        "order.toml": write_order(wall, stretches),
        "plan.svg": sheet(draw_wall(wall, stretches), shown),
        "report.txt": report_wall(wall, stretches, tied) + "\n",
    }
    for drawing in draw_tie_sheets(wall, tied) if tied else ():
        files[f"{drawing.name}.svg"] = sheet(drawing, shown)
    for name, text in files.items():
        if request.config.getoption("--redraw"):
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text, encoding="utf-8", newline="\n")
        assert (folder / name).read_text(encoding="utf-8") == text
    assert sorted(files) == sorted(each.name for each in folder.iterdir())
