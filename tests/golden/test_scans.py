"""The scan among the examples, byte for byte; ``pytest --redraw`` writes anew."""

from fractions import Fraction
from pathlib import Path

import numpy as np
from makescans import MM, RULES, example_grey
from PIL import Image
from printtime import sheet

from nesting.jobs.read import read_job
from nesting.jobs.write import write_liner
from nesting.scans.picture import draw_scan
from nesting.scans.read import read_scanned_liner
from nesting.scans.report import found_liner, report_scan
from nesting.scans.scale import ScanScale

ROOT = Path(__file__).parents[2]
SCAN = ROOT / "examples" / "scans" / "reeds-and-heron.png"
LINER = SCAN.with_suffix(".toml")
FOLDER = ROOT / "output_svg" / "reeds-and-heron"
SCALE = ScanScale(width=Fraction(2400), relief=Fraction(14))
ORDER = """title = "Library, garden wall"
units = "mm"

[liner]
file = '{liner}'

[rules]
dam_width = 25
dam_clearance = 6
edge_margin = 12

[[panel]]
mark = "A1"
size = [760, 880]
quantity = 2
must_show = ["ornament 4"]
"""


def test_the_scan_is_the_one_its_maker_makes():
    """The committed picture holds the numbers of the seeded maker, in less than 60 kB."""
    with Image.open(SCAN) as picture:
        assert (np.array(picture) == example_grey()).all()
    assert SCAN.stat().st_size < 60_000


def test_the_scan_comes_to_the_committed_liner_and_picture(request):
    """Liner, picture and report are the committed ones, and nothing stale lies beside them."""
    found = read_scanned_liner(SCAN, SCALE, RULES, "reeds and heron", 13 * MM)
    text = write_liner(found_liner(found, SCAN.name, "mm"))
    files = {
        LINER: text,
        FOLDER / "picture.svg": sheet(draw_scan(found, "reeds and heron", "mm"), text),
        FOLDER / "report.txt": report_scan(found, SCAN.name, "mm") + "\n",
    }
    for path, text in files.items():
        if request.config.getoption("--redraw"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8", newline="\n")
        assert path.read_text(encoding="utf-8") == text
    beside = [*SCAN.parent.iterdir(), *FOLDER.iterdir()]
    assert sorted(beside) == sorted([SCAN, *files])


def test_the_committed_liner_is_read_back_equal(tmp_path):
    """A job that names the liner's file has just the ornaments and zones that were found."""
    (tmp_path / "job.toml").write_text(ORDER.format(liner=LINER.as_posix()), encoding="utf-8")
    liner = read_job(tmp_path / "job.toml").liner
    found = read_scanned_liner(SCAN, SCALE, RULES, "reeds and heron", 13 * MM)
    assert liner == found.liner
