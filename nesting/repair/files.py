"""The files of a mended liner: the job on it, the drawing to mend it by, and the text."""

from collections.abc import Sequence
from datetime import datetime

from nesting.drawings.stamps import stamped
from nesting.drawings.svg import to_svg
from nesting.files.marks import ZONES_MARK
from nesting.jobs.write import write_job
from nesting.repair.mend import Mended, Repair
from nesting.repair.picture import draw_repair
from nesting.repair.report import report_repairs, tell_ground
from nesting.schedules.stamps import stamp_job
from nesting.values.job import Job


def write_repair_files(
    job: Job, repairs: Sequence[Repair], mended: Mended, drawn: datetime
) -> dict[str, str]:
    """Return the text of every file by its name; job.toml is ready to be planned.

    The drawing says that it was ``drawn`` then.
    """
    remarks = [f"Liner {job.liner.name}, mended, {ZONES_MARK} --keep."]
    for patch in mended.patches:
        remarks += [f"ornament {name} is taken away" for name in patch.removed]
        remarks += [
            f"made plain for {patch.mark}: {tell_ground(job, part.bounds)}" for part in patch.ground
        ]
    return {
        "job.toml": write_job(mended.job, remarks),
        "repair.svg": to_svg(
            stamped(draw_repair(job, mended.patches), stamp_job(drawn, mended.job))
        ),
        "report.txt": report_repairs(job, repairs) + "\n",
    }
