"""The motifs among the examples, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

import pytest
from printtime import DRAWN

from nesting.checking.schedule import check_schedule
from nesting.jobs.motif import read_motif
from nesting.jobs.read import read_job
from nesting.planning.schedule import schedule_casts
from nesting.zones.files import write_zone_files
from nesting.zones.trade import plan_motif
from nesting.zones.uses import list_uses, lost_sizes

pytestmark = pytest.mark.long


ROOT = Path(__file__).parents[2]
MOTIFS = sorted((ROOT / "examples" / "motifs").glob("*.toml"))


def test_there_is_an_example():
    """The folder has motifs."""
    assert [path.stem for path in MOTIFS] == ["frieze-to-be"]


@pytest.mark.parametrize("path", MOTIFS, ids=lambda path: path.stem)
def test_a_motif_comes_to_the_committed_liner_and_drawings(path, request):
    """Job, drawings and report are the committed ones, and nothing stale lies beside them."""
    trade = plan_motif(read_motif(path))
    files = write_zone_files(trade, list_uses(trade.best.zoning), DRAWN)
    folder = ROOT / "output_svg" / path.stem
    for name, text in files.items():
        if request.config.getoption("--redraw"):
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text, encoding="utf-8", newline="\n")
        assert (folder / name).read_text(encoding="utf-8") == text
    assert sorted(files) == sorted(each.name for each in folder.iterdir())


@pytest.mark.parametrize("path", MOTIFS, ids=lambda path: path.stem)
def test_the_written_job_can_be_planned(path):
    """The committed job is read, every size has a place, and its plan is proved and checked."""
    job = read_job(ROOT / "output_svg" / path.stem / "job.toml")
    assert lost_sizes(job) == []
    schedule = schedule_casts(job)
    assert schedule.proved
    assert check_schedule(job, schedule) == ()
