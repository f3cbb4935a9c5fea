"""The files of one answer: the new liner as a job, the drawing to carve from, chart and text."""

from collections.abc import Sequence
from datetime import datetime

from nesting.drawings.stamps import stamped
from nesting.drawings.svg import to_svg
from nesting.files.marks import ZONES_MARK
from nesting.jobs.write import write_job
from nesting.schedules.stamps import stamp_job
from nesting.zones.carving import draw_carving
from nesting.zones.chart import draw_trade
from nesting.zones.report import report_zones, tell_use
from nesting.zones.trade import Trade
from nesting.zones.uses import Use


def write_zone_files(trade: Trade, uses: Sequence[Use], drawn: datetime) -> dict[str, str]:
    """Return the text of every file by its name; job.toml is ready to be planned.

    The drawings say that they were ``drawn`` then.
    """
    best = trade.best.zoning
    stamp = stamp_job(drawn, best.job)
    remarks = [f"{best.motif.job.title}: the liner with its plain strips, {ZONES_MARK}."]
    remarks += [tell_use(best.motif, use) for use in uses]
    return {
        "job.toml": write_job(best.job, remarks),
        "carving.svg": to_svg(stamped(draw_carving(trade.best, uses), stamp)),
        "trade.svg": to_svg(stamped(draw_trade(trade), stamp)),
        "report.txt": report_zones(trade, uses) + "\n",
    }
