"""The files of a mended liner: a job that can be planned, the drawing, the text."""

from dataclasses import replace

import pytest
from makemotifs import MM
from motiffiles import load_motif
from printtime import DRAWN

from nesting.checking.schedule import check_schedule
from nesting.jobs.read import read_job
from nesting.planning.schedule import schedule_casts
from nesting.repair.files import write_repair_files
from nesting.repair.mend import mend_liner, plan_repair
from nesting.repair.picture import draw_repair
from nesting.search.solver import Deadline
from nesting.values.motif import make_job
from nesting.values.panels import Panel

WIDE = Panel("N1", 340 * MM, 400 * MM, 2, "flat")
LESS = Panel("N2", 200 * MM, 150 * MM, 1, "flat", must_hide=("wave",))


@pytest.fixture(scope="module")
def job(tmp_path_factory):
    """Return a liner with wave and leaf, plain from 300 to 352, with its own order."""
    return make_job(load_motif(tmp_path_factory.mktemp("motif")), (52 * MM,))


@pytest.fixture(scope="module")
def mended(job):
    """Return it mended for two sizes more."""
    return mend_liner(job, (WIDE, LESS), Deadline())


def test_the_mended_job_is_planned_with_the_old_order(job, mended, tmp_path):
    """What was written reads back, has a plan of all sizes, and the checker has no finding."""
    files = write_repair_files(job, [plan_repair(job, WIDE, Deadline())], mended, DRAWN)
    assert list(files) == ["job.toml", "repair.svg", "report.txt"]
    assert f"{DRAWN:%Y-%m-%d %H:%M}, code " in files["repair.svg"]
    (tmp_path / "job.toml").write_text(files["job.toml"], encoding="utf-8")
    again = read_job(tmp_path / "job.toml")
    assert again == mended.job
    schedule = schedule_casts(again)
    assert check_schedule(again, schedule) == ()
    assert {mark: n for mark, n in schedule.panels.items() if n} == {
        "A1": 2, "B1": 3, "N1": 2, "N2": 1,
    }  # fmt: skip
    assert "# made plain for N1: x 352 to 360, y 0 to 400" in files["job.toml"]


def test_each_patch_is_the_least_for_what_was_mended_before(mended):
    """The wider one takes 8 mm along the strip, by hand; what wave and leaf are is left."""
    first = mended.patches[0]
    assert (first.mark, first.area, first.removed) == ("N1", 8 * 400 * MM**2, ())
    assert [each.mark for each in mended.patches] == ["N1", "N2"]


def test_the_drawing_hatches_and_measures_what_is_made_plain(job, mended):
    """Each piece has a name, its sides as figures, and what it is for."""
    drawing = draw_repair(job, mended.patches)
    words = {text.words for text in drawing.texts}
    assert {"patch 1", "352", "360"} <= words
    assert any(each.startswith("patch 1: x 352 to 360, y 0 to 400") for each in words)
    hatched = next(layer.shapes for layer in drawing.layers if layer.name == "changed")
    assert len(hatched) == sum(len(patch.ground) for patch in mended.patches)


def test_nothing_is_mended_where_all_have_a_place(job):
    """And a size larger than the liner cannot be mended for."""
    assert mend_liner(job, (replace(WIDE, width=330 * MM),), Deadline()).patches == ()
    assert mend_liner(job, (replace(WIDE, width=900 * MM),), Deadline()) is None
