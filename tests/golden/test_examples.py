"""The examples planned, drawn and reported, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

import pytest
from printtime import DRAWN

from nesting.checking.schedule import check_schedule
from nesting.drawings.planfiles import write_plan_files
from nesting.errors import NoScheduleError
from nesting.files.output import SCHEDULE_FILE
from nesting.jobs.read import read_job
from nesting.planning.schedule import schedule_casts
from nesting.schedules.report import report_schedule
from nesting.schedules.write import read_schedule

ROOT = Path(__file__).parents[2]
REPORTS = Path(__file__).parent / "reports"
IMPOSSIBLE = "boat-house-too-long"
EXAMPLES = sorted(
    path.stem for path in (ROOT / "examples").glob("*.toml") if path.stem != IMPOSSIBLE
)


def compare(path: Path, text: str, redraw: bool) -> None:
    """Compare the text with the file, or write it there first."""
    if redraw:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    assert path.read_text(encoding="utf-8") == text, f"{path} differs; look, then pytest --redraw"


@pytest.fixture(params=EXAMPLES)
def example(request):
    """Return the name of one example that can be made, whether to redraw, and its job."""
    job = read_job(ROOT / "examples" / f"{request.param}.toml")
    return request.param, request.config.getoption("--redraw"), job


def test_there_are_five_examples():
    """One more example cannot be made."""
    assert len(EXAMPLES) >= 4
    assert (ROOT / "examples" / f"{IMPOSSIBLE}.toml").exists()


def test_an_example_is_planned_as_committed(example):
    """The plan is proved, checked, and the committed one; so are its drawings and its report."""
    name, redraw, job = example
    schedule = schedule_casts(job)
    assert schedule.proved
    assert check_schedule(job, schedule) == ()
    files = write_plan_files(job, schedule, DRAWN)
    for file, text in files.items():
        compare(ROOT / "output_svg" / name / file, text, redraw)
    for path in (ROOT / "output_svg" / name).iterdir() if redraw else ():
        if path.name not in files:
            path.unlink()
    compare(REPORTS / f"{name}.txt", report_schedule(job, schedule) + "\n", redraw)


def test_a_committed_schedule_draws_the_committed_drawings(example):
    """Drawing needs the schedule file only, and nothing stale lies beside the drawings."""
    name, _, job = example
    folder = ROOT / "output_svg" / name
    files = write_plan_files(job, read_schedule(folder / SCHEDULE_FILE), DRAWN)
    assert sorted(files) == sorted(path.name for path in folder.iterdir())
    for file, text in files.items():
        assert (folder / file).read_text(encoding="utf-8") == text


def test_the_impossible_example_says_why():
    """Each panel without a place has its reason and what would mend it."""
    with pytest.raises(NoScheduleError) as refused:
        schedule_casts(read_job(ROOT / "examples" / f"{IMPOSSIBLE}.toml"))
    show, long = refused.value.reasons
    assert "'D2' (900 x 850 mm" in show
    assert "none that shows 'standing heron'" in show
    assert "width 755 mm" in show
    assert "'D3' (2100 x 850 mm" in long
    assert "more than the liner's 2000 mm" in long
