"""What the checker found in a schedule, as text and as JSON; those taken are without faults."""

from collections.abc import Sequence
from pathlib import Path

from nesting.checking.areas import check_totals
from nesting.checking.findings import Finding
from nesting.checking.schedule import check_schedule
from nesting.errors import FaultyScheduleError, RefusedError
from nesting.files.columns import count_of
from nesting.files.document import to_json
from nesting.planning.schedule import schedule_casts
from nesting.schedules.stamps import code_plan
from nesting.schedules.write import read_schedule, read_totals
from nesting.values.casts import Schedule
from nesting.values.job import Job


def read_sound_schedule(job: Job, schedule_file: str) -> Schedule:
    """Return the schedule of a file; FaultyScheduleError where the checker finds anything in it."""
    schedule = read_schedule(Path(schedule_file))
    stated = read_totals(Path(schedule_file))
    findings = (*check_schedule(job, schedule), *check_totals(schedule, stated))
    if findings:
        raise FaultyScheduleError(schedule_file, findings)
    return schedule


def plan_sound_casts(job: Job, time_limit: float) -> Schedule:
    """Return the schedule of a job; RefusedError where the independent checker objects to it."""
    schedule = schedule_casts(job, time_limit=time_limit)
    findings = check_schedule(job, schedule)
    if findings:
        raise RefusedError(findings)
    return schedule


def findings_to_json(job: Job, schedule: Schedule, findings: Sequence[Finding]) -> str:
    """Return the findings on a schedule of the job as a JSON document."""
    listed = [{"code": finding.code, "text": str(finding)} for finding in findings]
    document = {
        "job": job.title,
        "sheet_code": code_plan(job, schedule),
        "passed": not findings,
        "findings": listed,
    }
    return to_json("nesting-findings", 1, document)


def list_findings(
    schedule_file: str, job: Job, schedule: Schedule, findings: Sequence[Finding]
) -> str:
    """Return the findings as lines of text, the file named on the first, the sheet code after."""
    result = f"{count_of(len(findings), 'fault')} found."
    if not findings:
        result = "no fault found; every rule is kept."
    code = f"Its drawings have the sheet code {code_plan(job, schedule)}."
    return "\n".join([f"{schedule_file}: {result}", code, *(str(each) for each in findings)])
