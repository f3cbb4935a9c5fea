"""The command ``nesting zones``: where a liner must stay plain, before or after it is carved.

Only click is imported before the command runs.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.filenames import prove_folder
from nesting.commands.options import command, json_option, output_option, time_option
from nesting.commands.say import say, written_to
from nesting.errors import InputError, InputErrors, NoScheduleError

if TYPE_CHECKING:
    from nesting.repair.mend import Repair
    from nesting.search.solver import Deadline
    from nesting.values.job import Job
    from nesting.values.panels import Panel


@command(
    "Find where a liner must stay plain so that it gives every size.",
    click.argument("wanted", metavar="FILE"),
    output_option("FOLDER", "Write the new liner and drawings here."),
    click.option(
        "--keep",
        "liner_file",
        metavar="LINER",
        help="Start from this liner; FILE is then a size such as 1500x900, or an order.",
    ),
    json_option("the answer"),
    time_option,
)
def zones(
    wanted: str, output: str | None, liner_file: str | None, as_json: bool, time_limit: float
) -> None:
    """Find where plain ground must be left on the motif in FILE, before it is carved.

    The least liner that gives every size, proved; what each plain strip is for; how far each
    dam may be off; what more rubber buys. With -o, FOLDER gets job.toml, ready for nesting
    plan, carving.svg, trade.svg and report.txt; a former answer of this command is replaced,
    other files are not.

    With --keep, the least that must be taken off or filled up on a liner that exists, so that it
    gives a size, or each size of an order. FOLDER then gets job.toml, the mended liner ready
    for nesting plan, repair.svg and report.txt.
    """
    if liner_file is None:
        say(_plan_motif(wanted, output, time_limit, as_json=as_json))
        return
    say(_repair(liner_file, wanted, output, time_limit, as_json=as_json))


def _plan_motif(wanted: str, folder: str | None, time_limit: float, *, as_json: bool) -> str:
    """Return what is printed for a motif, its files written where a folder is given."""
    from nesting.commands.console import note_progress
    from nesting.files.clock import read_clock
    from nesting.files.output import write_into
    from nesting.jobs.motif import read_motif
    from nesting.zones.files import write_zone_files
    from nesting.zones.report import report_zones, zones_to_json
    from nesting.zones.trade import plan_motif
    from nesting.zones.uses import list_uses

    motif = read_motif(Path(wanted))
    _check_folder(folder)
    trade = plan_motif(motif, note_progress, time_limit)
    uses = list_uses(trade.best.zoning)
    files: Mapping[str, str] = {}
    if folder is not None:
        files = write_zone_files(trade, uses, read_clock())
        write_into(Path(folder), files)
    if as_json:
        return zones_to_json(trade, uses)
    end = written_to(folder, files, "the new liner and the drawings")
    return f"{report_zones(trade, uses)}\n\n{end}"


def _check_folder(folder: str | None) -> None:
    """Try the folder; a job.toml of ours in it accounts for the report beside it."""
    from nesting.files.marks import MARK, ZONES_MARK

    if folder is None:
        return
    marks = {"job.toml": ZONES_MARK}
    marks |= dict.fromkeys(("carving.svg", "trade.svg", "repair.svg"), MARK)
    if not Path(folder, "job.toml").exists():
        marks["report.txt"] = ZONES_MARK
    prove_folder(folder, marks, "nesting zones")


def _repair(
    liner_file: str, wanted: str, folder: str | None, time_limit: float, *, as_json: bool
) -> str:
    """Return what is printed for a liner that is kept; NoScheduleError where nothing helps."""
    from nesting.jobs.read import read_job
    from nesting.repair.mend import plan_repair
    from nesting.repair.report import repairs_to_json, report_repairs
    from nesting.search.solver import Deadline

    with _advising_on_motifs():
        job = read_job(Path(liner_file), order_needed=False)
        _check_folder(folder)
        job, panels = _read_wanted(job, wanted)
    deadline = Deadline(time_limit)
    repairs = [plan_repair(job, panel, deadline) for panel in panels]
    if not any(repair.can_have_place for repair in repairs):
        raise NoScheduleError(_refusals(job, repairs))
    written = "" if folder is None else _write_mended(job, panels, repairs, folder, deadline)
    if as_json:
        return repairs_to_json(job, repairs)
    return "\n\n".join(part for part in (report_repairs(job, repairs), written) if part)


@contextmanager
def _advising_on_motifs() -> Iterator[None]:
    """Say of a motif that was given beside --keep how it is given instead."""
    from nesting.files.kinds import TO_ZONES

    try:
        yield
    except InputErrors as errors:
        told = [
            InputError(each.where, each.rule, each.got, f"{TO_ZONES} as FILE, without --keep")
            if each.remedy == TO_ZONES
            else each
            for each in errors.errors
        ]
        raise InputErrors(told) from errors


def _write_mended(
    job: Job, panels: tuple[Panel, ...], repairs: list[Repair], folder: str, deadline: Deadline
) -> str:
    """Write the mended liner's files and return what is said of that."""
    from nesting.files.clock import read_clock
    from nesting.files.output import write_into
    from nesting.repair.files import write_repair_files
    from nesting.repair.mend import mend_liner
    from nesting.search.solver import TimeUpError

    lost = [repair for repair in repairs if not repair.has_place and repair.patch is None]
    try:
        mended = None if lost else mend_liner(job, panels, deadline)
    except TimeUpError as error:
        told = "The time limit was reached before the liner was mended for every size."
        raise NoScheduleError([f"{told} Nothing was written; allow more time."]) from error
    if mended is None:
        raise NoScheduleError(_refusals(job, lost or repairs))
    if not mended.patches:
        return "Nothing was written: every size has a place on the liner as it is."
    files = write_repair_files(job, repairs, mended, read_clock())
    write_into(Path(folder), files)
    return written_to(folder, files, "")


def _read_wanted(job: Job, wanted: str) -> tuple[Job, tuple[Panel, ...]]:
    """Return the job with the beds wanted, and the panels: one size, or those of an order."""
    from dataclasses import replace

    from nesting.files.sizes import is_size, parse_size, size_mark
    from nesting.jobs.read import read_job
    from nesting.values.panels import Panel

    if is_size(wanted):
        size = parse_size(wanted, job.units)
        return job, (Panel(size_mark(size, job.units), *size, 1, job.beds[0].name),)
    order = read_job(Path(wanted))
    _refuse_strangers(job, order, wanted)
    materials = replace(order.materials, rubber=job.materials.rubber)  # that of the kept liner
    job = replace(job, beds=order.beds, panels=(), materials=materials, shop=order.shop)
    return job, order.panels


def _refuse_strangers(job: Job, order: Job, wanted: str) -> None:
    """Refuse an order that names ornaments the kept liner does not have."""
    known = {ornament.name for ornament in job.liner.ornaments}
    for panel in order.panels:
        for name in (*panel.must_show, *panel.must_hide):
            if name not in known:
                rule = f"panel {panel.mark!r} names an ornament the kept liner does not have"
                raise InputError(wanted, rule, got=repr(name))


def _refusals(job: Job, repairs: list[Repair]) -> list[str]:
    from nesting.repair.report import TIME_UP

    never = "no ornament taken away or trimmed and no ground made plain gives it a place"
    return [
        f"Panel {repair.panel.mark!r} "
        f"({job.tape.size_words(repair.panel.width, repair.panel.height)}): "
        f"{f'{TIME_UP}; allow more time' if repair.stopped else never}."
        for repair in repairs
    ]
