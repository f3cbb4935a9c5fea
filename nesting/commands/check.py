"""The command ``nesting check``: a schedule judged against its job.

Only click is imported before the command runs.
"""

from pathlib import Path

import click

from nesting.commands.options import command, json_option
from nesting.commands.say import say

EXIT_FAULTS_FOUND = 5


@command(
    "Check a schedule against its job, rule by rule.",
    click.argument("job_file", metavar="JOB"),
    click.argument("schedule_file", metavar="SCHEDULE"),
    json_option("the findings"),
)
def check(job_file: str, schedule_file: str, as_json: bool) -> int:
    """Check SCHEDULE, a schedule.json, against JOB, rule by rule.

    Every fault is printed with its code. Ends with 0 where there is none and with 5 otherwise.
    Sizes are judged on exact numbers, never on rounded ones: the absolute method of ASTM E29.
    """
    from nesting.checking.areas import check_totals
    from nesting.checking.schedule import check_schedule
    from nesting.jobs.read import read_job
    from nesting.schedules.findings import findings_to_json, list_findings
    from nesting.schedules.write import read_schedule, read_totals

    job = read_job(Path(job_file))
    schedule = read_schedule(Path(schedule_file))
    stated = read_totals(Path(schedule_file))
    findings = (*check_schedule(job, schedule), *check_totals(schedule, stated))
    if as_json:
        say(findings_to_json(job, schedule, findings))
    else:
        say(list_findings(schedule_file, job, schedule, findings))
    return EXIT_FAULTS_FOUND if findings else 0
