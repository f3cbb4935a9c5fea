"""What every test may ask for: the hand-sized job and its schedule."""

import pytest
from handjob import hand_job, hand_schedule

from nesting.casts import Schedule
from nesting.job import Job


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
