"""The command ``nesting template``: full-size paper templates of layouts, dams, panels and ribs.

Only click is imported before the command runs.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from nesting.commands.filenames import name_folder
from nesting.commands.options import (
    SCHEDULE_OPTIONS,
    command,
    exact_option,
    json_option,
    output_option,
)
from nesting.commands.say import say, written_to
from nesting.commands.schedule import take_schedule
from nesting.errors import InputError, naming, shown

if TYPE_CHECKING:
    from nesting.templates.content import Template
    from nesting.templates.fullsize import FullSize
    from nesting.templates.sheets import PaperChoice
    from nesting.values.bed import Bed
    from nesting.values.casts import Dam, Layout, Schedule
    from nesting.values.job import Job
    from nesting.values.stamp import Stamp

T = TypeVar("T")
_SUBJECTS = (
    "name what to draw: --layout N, --layout N with --dam NUMBER or --panel MARK, --panel MARK, "
    "or --bed NAME."
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the options ask for, as written."""

    schedule_file: str | None
    time_limit: float
    layout: int | None
    dam: str | None
    panel: str | None
    bed: str | None
    paper: str | None
    margin: str
    overlap: str
    landscape: bool | None
    mirror: bool
    on_face: bool
    profile: bool
    rib_spacing: str
    rib_depth: str
    deck: str


@command(
    "Print a layout, a dam, a panel or a bed's ribs full size on paper.",
    *SCHEDULE_OPTIONS,
    output_option("FOLDER", "Write the template here."),
    click.option("--layout", type=int, metavar="N", help="Draw layout N."),
    click.option("--dam", metavar="NUMBER", help="Of the layout, draw this dam only."),
    click.option("--panel", metavar="MARK", help="Draw this panel's outline, alone or as placed."),
    click.option("--bed", metavar="NAME", help="Draw the ribs of this curved bed."),
    click.option(
        "--paper", metavar="PAPER", help="a4 to a0, letter, tabloid, ansi-d, arch-d, roll:914mm ..."
    ),
    click.option(
        "--margin", metavar="LENGTH", default="10 mm", help="What the printer leaves blank; 10 mm."
    ),
    click.option(
        "--overlap", metavar="LENGTH", default="16 mm", help="How far neighbours overlap; 16 mm."
    ),
    click.option(
        "--landscape/--portrait", default=None, help="How sheets lie; else with fewer sheets."
    ),
    click.option("--mirror", is_flag=True, help="Reverse x, for tracing through from the back."),
    click.option("--on-face", is_flag=True, help="Of a curved bed, draw the developed face."),
    click.option(
        "--profile", is_flag=True, help="Of a dam cut to a bed's curve, draw its profile."
    ),
    click.option(
        "--rib-spacing", metavar="LENGTH", default="300 mm", help="Most distance of ribs; 300 mm."
    ),
    click.option(
        "--rib-depth", metavar="LENGTH", default="100 mm", help="Least height of a rib; 100 mm."
    ),
    click.option(
        "--deck",
        metavar="LENGTH",
        default="0 mm",
        help="Thickness of the sheet bent over ribs; none.",
    ),
    click.option("--svg-sheets", is_flag=True, help="With -o, write each sheet as SVG too."),
    exact_option,
    json_option("the sheets"),
)
def template(
    job_file: str,
    output: str | None,
    svg_sheets: bool,
    exact: bool,
    as_json: bool,
    **options: object,
) -> None:
    """Draw part of JOB full size on as many sheets of paper as it takes, to lay and trace.

    With -o, FOLDER gets template.pdf and template.json: both or neither. They replace a
    template that is there; other files are left alone. Paper is A4, or letter for inch
    jobs; plain numbers are in the job's units.
    """
    wanted = Wanted(**options)  # type: ignore[arg-type]
    _refuse_mixed(wanted)
    from nesting.drawings.lettering import clean
    from nesting.files.output import prove_writable, write_folder
    from nesting.jobs.read import read_job
    from nesting.templates.files import TEMPLATE, write_template_files
    from nesting.templates.report import report_template
    from nesting.templates.sheets import tile_lines

    target = None if output is None else name_folder(output)
    job = read_job(Path(job_file))
    setting = _read_setting(wanted, job)
    if target is not None:
        prove_writable(target, TEMPLATE)
    schedule = None
    if wanted.layout is not None:
        schedule = take_schedule(job, wanted.schedule_file, wanted.time_limit)
    drawn, title, mirrored = _draw(job, schedule, wanted), clean(job.title), wanted.mirror
    tiling = tile_lines([line.points for line in drawn.lines], setting)
    files = write_template_files(
        drawn, tiling, title, job.units, _stamp(job, schedule), mirrored=mirrored, svg=svg_sheets
    )
    if target is not None:
        write_folder(target, files, TEMPLATE)
    if as_json:
        say(str(files[TEMPLATE.marker]))
        return
    say(report_template(title, drawn, tiling, job.tape, mirrored=mirrored, exact=exact))
    say(f"\n{written_to(output, _names(files), 'the PDF')}")


def _refuse_mixed(wanted: Wanted) -> None:
    """Raise a usage error where the options do not name one thing to draw."""
    if wanted.bed is not None and (wanted.layout, wanted.dam, wanted.panel) != (None, None, None):
        raise click.UsageError("--bed is drawn alone, without --layout, --dam and --panel.")
    if wanted.dam is not None and wanted.panel is not None:
        raise click.UsageError("--dam and --panel cannot be used together.")
    if wanted.dam is not None and wanted.layout is None:
        raise click.UsageError("--dam needs --layout N, whose dam it is.")
    if (wanted.layout, wanted.panel, wanted.bed) == (None, None, None):
        raise click.UsageError(_SUBJECTS)
    if wanted.profile and (wanted.dam is None or wanted.on_face):
        raise click.UsageError("--profile needs --dam NUMBER, and goes without --on-face.")
    if wanted.bed is not None and wanted.on_face:
        raise click.UsageError("--on-face is for layouts, dams and panels, not for --bed.")


def _read_setting(wanted: Wanted, job: Job) -> PaperChoice:
    from nesting.drawings.papers import find_paper
    from nesting.templates.sheets import PaperChoice
    from nesting.templates.tilestrip import FOOT, MIRRORED_FOOT

    paper = find_paper(
        wanted.paper if wanted.paper is not None else {"mm": "a4", "in": "letter"}[job.units]
    )
    margin = _read_length("--margin", wanted.margin, job)
    overlap = _read_length("--overlap", wanted.overlap, job)
    way = None if wanted.landscape is None else "landscape" if wanted.landscape else "portrait"
    return PaperChoice(paper, margin, overlap, MIRRORED_FOOT if wanted.mirror else FOOT, way)  # type: ignore[arg-type]


def _read_length(option: str, text: str, job: Job) -> float:
    """Return an option's length [mm], a bare number taken in the job's units."""
    from nesting.units import parse_length

    with naming(option):
        return float(parse_length(text, job.units))


def _stamp(job: Job, schedule: Schedule | None) -> Stamp:
    """Return the stamp of the sheets now, by the schedule where they show some of it."""
    from nesting.files.clock import read_clock
    from nesting.schedules.stamps import stamp_job, stamp_plan

    if schedule is None:
        return stamp_job(read_clock(), job)
    return stamp_plan(read_clock(), job, schedule)


def _draw(job: Job, schedule: Schedule | None, wanted: Wanted) -> Template:
    from nesting.templates.content import panel_template

    if wanted.bed is not None:
        return _draw_ribs(job, wanted)
    if schedule is not None:
        return _draw_layout(job, schedule, wanted)
    panel = _pick("--panel", wanted.panel or "", {each.mark: each for each in job.panels})
    return panel_template(job, panel, _size(job, job.bed(panel.bed), wanted))


def _draw_layout(job: Job, schedule: Schedule, wanted: Wanted) -> Template:
    from nesting.templates.content import dam_template, layout_template, placed_panel_template
    from nesting.values.names import dam_name

    numbered = {str(layout.number): layout for layout in schedule.layouts}
    layout: Layout = _pick("--layout", str(wanted.layout), numbered)
    size = _size(job, job.bed(layout.bed), wanted)
    where = f" (layout {wanted.layout})"
    if wanted.dam is not None:
        name = dam_name(int(wanted.dam)) if wanted.dam.isdecimal() else wanted.dam
        dam = _pick("--dam", name, {each.name: each for each in layout.dams}, where)
        if wanted.profile:
            cut_for = numbered.get(str(layout.same_dams_as), layout)
            return _draw_profile(job, cut_for, dam, wanted)
        return dam_template(job, layout, dam, size)
    if wanted.panel is not None:
        placed = {each.mark: each for each in reversed(layout.panels)}
        panel = _pick("--panel", wanted.panel, dict(reversed(placed.items())), where)
        return placed_panel_template(job, layout, panel, size)
    return layout_template(job, layout, size)


def _draw_profile(job: Job, layout: Layout, dam: Dam, wanted: Wanted) -> Template:
    from nesting.templates.profile import profile_template

    try:
        return profile_template(job, layout, dam, mirrored=wanted.mirror)
    except ValueError as error:
        rule, remedy = "needs a dam cut to the curve of its bed", 'give [dams] on_curve = "cut"'
        raise InputError("--profile", rule, str(error), remedy) from error


def _draw_ribs(job: Job, wanted: Wanted) -> Template:
    from nesting.templates.ribs import rib_template, shape_rib
    from nesting.values.bend import bend_of

    curved = {bed.name: bed for bed in job.beds if bed.form != "flat"}
    name = wanted.bed or ""
    if name not in curved and name in {bed.name for bed in job.beds}:
        raise InputError(
            "--bed", "must be a curved bed", f"{shown(name)}, which is flat", _known(curved)
        )
    bed: Bed = _pick("--bed", name, curved)
    spacing, depth, deck = (
        _read_length(option, text, job)
        for option, text in (
            ("--rib-spacing", wanted.rib_spacing),
            ("--rib-depth", wanted.rib_depth),
            ("--deck", wanted.deck),
        )
    )
    if spacing < 20:
        raise InputError("--rib-spacing", "must be 20 mm or more", f"{spacing:g} mm")
    try:
        box = job.liner.outline.bounds
        rib = shape_rib(bend_of(job, name), box, spacing=spacing, deck=deck, depth=depth)
    except ValueError as error:
        raise InputError("--bed", str(error)) from error
    return rib_template(job, bed, rib)


def _size(job: Job, bed: Bed, wanted: Wanted) -> FullSize:
    from nesting.templates.fullsize import FullSize, on_face
    from nesting.values.bend import bend_of

    if not wanted.on_face:
        return FullSize(mirrored=wanted.mirror)
    if bed.form == "flat":
        remedy = "leave the option out: on a flat bed face and liner have one size"
        raise InputError(
            "--on-face", "needs a curved bed", f"{shown(bed.name)}, which is flat", remedy
        )
    return on_face(bend_of(job, bed.name), mirrored=wanted.mirror)


def _pick(option: str, name: str, known: Mapping[str, T], where: str = "") -> T:
    """Return what bears the name; InputError, with the names there are, where nothing does."""
    if name not in known:
        what = option.removeprefix("--")
        raise InputError(
            f"{option}{where}", f"there must be such a {what}", shown(name), _known(known)
        )
    return known[name]


def _known(known: Mapping[str, object]) -> str:
    names = [shown(name, 40).strip("'") for name in known]
    listed = ", ".join(names[:30]) + (f" and {len(names) - 30} more" if len(names) > 30 else "")
    return f"there are {listed}" if names else "there are none"


def _names(files: Iterable[str]) -> list[str]:
    """Return the files of a template as they are told, its sheets by the first and the last."""
    drawings = [name for name in files if name.endswith(".svg")]
    told = drawings if len(drawings) < 2 else [f"{drawings[0]} to {drawings[-1]}"]
    return ["template.pdf", "template.json", *told]
