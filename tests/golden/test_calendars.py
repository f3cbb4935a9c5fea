"""The calendar of an example, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

from printtime import DRAWN

from nesting.days.export import write_calendar_files
from nesting.days.plan import plan_days
from nesting.days.report import report_calendar
from nesting.jobs.read import read_job
from nesting.schedules.stamps import stamp_plan
from nesting.schedules.write import read_schedule

ROOT = Path(__file__).parents[2]


def test_the_ferry_terminal_comes_to_the_committed_days(request):
    """Its files and its report, and nothing stale beside them."""
    job = read_job(ROOT / "examples" / "ferry-terminal.toml")
    schedule = read_schedule(ROOT / "output_svg" / "ferry-terminal" / "schedule.json")
    calendar = plan_days(job, schedule)
    folder = ROOT / "output_svg" / "ferry-terminal-calendar"
    files = write_calendar_files(job, calendar, stamp_plan(DRAWN, job, schedule))
    files["report.txt"] = report_calendar(job, calendar) + "\n"
    for name, text in files.items():
        if request.config.getoption("--redraw"):
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(text.encode("utf-8"))
        assert (folder / name).read_bytes() == text.encode("utf-8")
    assert sorted(files) == sorted(each.name for each in folder.iterdir())
