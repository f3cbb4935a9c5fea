"""The files of one answer."""

from motiffiles import load_motif
from printtime import DRAWN

from nesting.jobs.read import read_job
from nesting.zones.files import write_zone_files
from nesting.zones.trade import plan_motif
from nesting.zones.uses import list_uses


def test_the_job_reads_back_equal_and_says_what_the_strips_are_for(tmp_path):
    """Four files; the job's first lines are remarks."""
    trade = plan_motif(load_motif(tmp_path))
    files = write_zone_files(trade, list_uses(trade.best.zoning), DRAWN)
    assert list(files) == ["job.toml", "carving.svg", "trade.svg", "report.txt"]
    assert "# strip S1 at x 300 to 352, 52 mm: gives A1 and B1\n" in files["job.toml"]
    (tmp_path / "job.toml").write_text(files["job.toml"], encoding="utf-8")
    assert read_job(tmp_path / "job.toml") == trade.best.zoning.job
    told = f"{DRAWN:%Y-%m-%d %H:%M}, code "
    assert all(told in files[name] for name in ("carving.svg", "trade.svg"))
