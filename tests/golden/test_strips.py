"""The strips of an example, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

from printtime import DRAWN

from nesting.days.plan import plan_days
from nesting.jobs.read import read_job
from nesting.schedules.stamps import stamp_plan
from nesting.schedules.write import read_schedule
from nesting.strips.export import write_strip_files
from nesting.strips.plan import plan_strips
from nesting.strips.report import report_strips

ROOT = Path(__file__).parents[2]


def test_the_ferry_terminal_comes_to_the_committed_strips(request):
    """Its list, its re-set sheets and its report, and nothing stale beside them."""
    job = read_job(ROOT / "examples" / "ferry-terminal.toml")
    schedule = read_schedule(ROOT / "output_svg" / "ferry-terminal" / "schedule.json")
    plan = plan_strips(job, schedule, plan_days(job, schedule))
    folder = ROOT / "output_svg" / "ferry-terminal-strips"
    files = write_strip_files(job, plan, stamp_plan(DRAWN, job, schedule))
    files["report.txt"] = report_strips(job, plan) + "\n"
    for name, text in files.items():
        if request.config.getoption("--redraw"):
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(text.encode("utf-8"))
        assert (folder / name).read_bytes() == text.encode("utf-8")
    assert sorted(files) == sorted(each.name for each in folder.iterdir())
