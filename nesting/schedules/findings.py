"""What the checker found in a schedule, as text and as JSON."""

from __future__ import annotations

import json
from collections.abc import Sequence

from nesting.checking.findings import Finding
from nesting.files.columns import count_of
from nesting.values.job import Job


def findings_to_json(job: Job, findings: Sequence[Finding]) -> str:
    """Return the findings on a schedule of the job as a JSON document."""
    listed = [{"code": finding.code, "text": str(finding)} for finding in findings]
    document = {
        "format": "nesting-findings",
        "version": 1,
        "job": job.title,
        "passed": not findings,
        "findings": listed,
    }
    return json.dumps(document, indent=1, allow_nan=False)


def list_findings(schedule_file: str, findings: Sequence[Finding]) -> str:
    """Return the findings as lines of text, the file named on the first."""
    if not findings:
        return f"{schedule_file}: no fault found; every rule is kept."
    count = count_of(len(findings), "fault")
    return "\n".join([f"{schedule_file}: {count} found.", *(str(each) for each in findings)])
