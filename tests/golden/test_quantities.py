"""The quantities of one example, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

from nesting.amounts.quantities import reckon_quantities
from nesting.amounts.report import report_quantities
from nesting.days.plan import plan_days
from nesting.jobs.read import read_job
from nesting.schedules.write import read_schedule

ROOT = Path(__file__).parents[2]
REPORT = Path(__file__).parent / "reports" / "ferry-terminal-quantities.txt"


def test_the_ferry_terminal_comes_to_the_committed_quantities(request):
    """From the committed job and schedule, every table of the report with prices and all."""
    job = read_job(ROOT / "examples" / "ferry-terminal.toml")
    schedule = read_schedule(ROOT / "output_svg" / "ferry-terminal" / "schedule.json")
    found = reckon_quantities(job, schedule, plan_days(job, schedule))
    text = report_quantities(job, found) + "\n"
    if request.config.getoption("--redraw"):
        REPORT.write_text(text, encoding="utf-8", newline="\n")
    assert REPORT.read_text(encoding="utf-8") == text, "look at what changed, then --redraw"
