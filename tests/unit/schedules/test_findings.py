"""A schedule that is given is taken only where nothing is wrong with it."""

from dataclasses import replace

import pytest
from handjob import hand_job, hand_schedule

from nesting.errors import FaultyScheduleError, InputErrors
from nesting.schedules.findings import read_sound_schedule
from nesting.schedules.write import schedule_to_json


def write(folder, schedule):
    """Write a schedule and return its file."""
    path = folder / "plan.json"
    path.write_text(schedule_to_json(schedule, hand_job()), encoding="utf-8")
    return str(path)


def test_a_sound_schedule_comes_back_equal(tmp_path):
    """The layouts of the hand-sized job are read as they were written."""
    found = read_sound_schedule(hand_job(), write(tmp_path, hand_schedule()))
    assert found.layouts == hand_schedule().layouts


def test_a_schedule_with_a_fault_is_refused(tmp_path):
    """A layout left out leaves the order unfilled."""
    short = replace(hand_schedule(), layouts=hand_schedule().layouts[:1])
    with pytest.raises(FaultyScheduleError, match=r"must be without fault, got [0-9]+ fault"):
        read_sound_schedule(hand_job(), write(tmp_path, short))


def test_a_missing_file_is_told(tmp_path):
    """There is nothing to check."""
    with pytest.raises(InputErrors, match="there is no such file"):
        read_sound_schedule(hand_job(), str(tmp_path / "none.json"))
