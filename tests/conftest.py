"""What every test may ask for: the hand-sized job and its schedule."""

import pytest
from handjob import hand_job, hand_schedule
from hypothesis import settings
from printtime import stop_clock

from nesting.values.casts import Schedule
from nesting.values.job import Job

stop_clock()
settings.register_profile("plain", derandomize=True, deadline=None)
settings.register_profile("roaming", deadline=None, print_blob=True)
settings.load_profile("plain")


@pytest.fixture
def job() -> Job:
    """Return the hand-sized job."""
    return hand_job()


@pytest.fixture
def schedule() -> Schedule:
    """Return the schedule that fills it."""
    return hand_schedule()


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the one switch that redraws what golden tests compare."""
    parser.addoption("--redraw", action="store_true", help="write the golden files anew")


@pytest.hookimpl(tryfirst=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """Redraw in one process: several tests may write into one page."""
    return 0 if config.getoption("--redraw") else None
