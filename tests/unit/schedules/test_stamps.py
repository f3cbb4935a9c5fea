"""The sheet code: one for a job and its schedule, however they came about."""

from dataclasses import replace

from handjob import hand_job, hand_schedule
from printtime import DRAWN

from nesting.jobs.read import read_job_text
from nesting.jobs.write import write_job
from nesting.schedules.stamps import code_plan, stamp_job, stamp_plan
from nesting.schedules.write import read_schedule, schedule_to_json

JOB, SCHEDULE = hand_job(), hand_schedule()


def test_what_was_read_back_has_the_same_code(tmp_path):
    """Job and schedule from their files, remarks on top of the one."""
    path = tmp_path / "schedule.json"
    path.write_text(schedule_to_json(SCHEDULE, JOB), encoding="utf-8")
    job = read_job_text(write_job(JOB, ["as ordered by telephone"]), "job.toml")
    assert code_plan(job, read_schedule(path)) == code_plan(JOB, SCHEDULE)


def test_any_figure_changes_the_code():
    """A dam wider by a step, one panel more, another title, another schedule: each has its own."""
    rules = replace(JOB.rules, dam_width=JOB.rules.dam_width + 1)
    more = replace(JOB.panels[0], quantity=JOB.panels[0].quantity + 1)
    codes = {
        code_plan(JOB, SCHEDULE),
        code_plan(replace(JOB, rules=rules), SCHEDULE),
        code_plan(replace(JOB, panels=(more, *JOB.panels[1:])), SCHEDULE),
        code_plan(replace(JOB, title="Foyer"), SCHEDULE),
        code_plan(JOB, replace(SCHEDULE, layouts=SCHEDULE.layouts[:1])),
    }
    assert len(codes) == 5


def test_a_stamp_has_the_time_and_the_code():
    """Of a plan that of job and schedule, of a job that of the job alone."""
    plan, job = stamp_plan(DRAWN, JOB, SCHEDULE), stamp_job(DRAWN, JOB)
    assert (plan.drawn, plan.code) == (DRAWN, code_plan(JOB, SCHEDULE))
    assert job.code != plan.code
    assert job.words == f"2026-03-02 08:05, code {job.code}"
