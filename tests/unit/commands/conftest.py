"""What tests of commands that take a job and its schedule start from."""

import pytest
from handjob import hand_job, hand_schedule
from jobtext import JOB

from nesting.schedules.write import schedule_to_json


@pytest.fixture
def shop(tmp_path, monkeypatch):
    """Write the hand-sized job and its schedule into an empty folder and go there."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    text = schedule_to_json(hand_schedule(), hand_job())
    (tmp_path / "schedule.json").write_text(text, encoding="utf-8")
    return tmp_path
