"""Many liners asked for many sizes: one question per file, answered anywhere.

A question and its answer are plain values that can be sent to another process; whoever calls
chooses the executor, any of `concurrent.futures` or one with the same ``map``.
"""

from collections.abc import Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from nesting.drawings.stamps import stamped
from nesting.drawings.svg import to_svg
from nesting.errors import InputError, NestingError, naming, shown
from nesting.files.lengths import LengthReaders, read_tolerance
from nesting.files.sizes import parse_size, sides_in_feet
from nesting.fitting.answer import Fit, fit_size
from nesting.fitting.nearest import make_finder
from nesting.fitting.picture import draw_fit
from nesting.fitting.report import fit_record, report_fit
from nesting.jobs.read import read_job
from nesting.maps.ground import survey
from nesting.schedules.stamps import stamp_job
from nesting.units import parse_steps
from nesting.values.bed import Bed
from nesting.values.bend import bend_of
from nesting.values.job import Job
from nesting.values.panels import MeasuredOn, Panel
from nesting.values.tolerances import CLASSES, class_limits

MARK = "Panel"
"""What the one panel is called in drawings."""


@dataclass(frozen=True, slots=True)
class Question:
    """Which sizes to try on the liner of one file; lengths as typed, in the file's own units.

    ``bed`` is empty for every bed. ``tolerance`` is empty, the name of a class, or two limits with
    a comma between. ``drawn`` asks for drawings, as of that time, ``mends`` for the smallest change
    to the liner, ``exact`` for lengths in decimals.
    """

    path: str
    sizes: tuple[str, ...]
    bed: str = ""
    measured_on: MeasuredOn = "face"
    thickness: str = ""
    tolerance: str = ""
    drawn: datetime | None = None
    mends: bool = False
    exact: bool = False


@dataclass(frozen=True, slots=True)
class Answers:
    """What one file gives: per size and bed a JSON record, a text and a drawing; or its errors."""

    path: str
    records: tuple[dict[str, object], ...] = ()
    texts: tuple[str, ...] = ()
    drawings: tuple[str, ...] = ()
    errors: str = ""


def list_liner_files(path: Path) -> list[Path]:
    """Return the file itself, or the TOML files of a folder in the order of their names.

    Raises InputError where there is no such file or the folder has none.
    """
    if not path.is_dir():
        return [path]
    found = sorted(each for each in path.glob("*.toml") if each.is_file())
    if not found:
        raise InputError(str(path), "a folder of liners holds .toml files, and this one has none")
    return found


def screen(questions: Sequence[Question], executor: Executor | None = None) -> list[Answers]:
    """Return the answers in the order of the questions, whoever worked them out."""
    if executor is None:
        return [answer(question) for question in questions]
    return list(executor.map(answer, questions))


def answer(question: Question) -> Answers:
    """Return what one file gives; trouble with the file is part of the answer."""
    try:
        job = read_job(Path(question.path), order_needed=False)
        return _fitted(question, job, list(_fits(question, job)))
    except NestingError as error:
        return Answers(question.path, errors=str(error))


def _fits(question: Question, job: Job) -> Iterator[Fit]:
    ground = survey(job.liner, job.rules)
    finder = make_finder(ground, len(question.sizes) * len(job.beds))
    for text in question.sizes:
        for bed in _beds(question, job):
            panel = _panel(question, job, text, bed)
            try:
                bend = bend_of(job, bed.name)
                yield fit_size(ground, panel, bend, finder=finder, mend=question.mends)
            except ValueError as error:
                rule = f"no panel on bed {bed.name!r} can have that size: {error}"
                lacking = panel.measured_on == "back" and not panel.thickness
                remedy = "give --thickness" if lacking else ""
                where = f"{question.path}: size {shown(text)}"
                raise InputError(where, rule, remedy=remedy) from error


def _fitted(question: Question, job: Job, fits: list[Fit]) -> Answers:
    name = Path(question.path).name
    drawings = list(_drawings(question, job, fits))
    return Answers(
        question.path,
        tuple(fit_record(job, fit, name) for fit in fits),
        tuple(report_fit(job, fit, exact=question.exact) for fit in fits),
        tuple(drawings),
    )


def _drawings(question: Question, job: Job, fits: list[Fit]) -> Iterator[str]:
    """Yield the drawing of each size as SVG, "" where it has no place; none where none is asked."""
    if question.drawn is None:
        return
    stamp = stamp_job(question.drawn, job)
    for number, fit in enumerate(fits, start=1):
        if fit.seated:
            yield to_svg(stamped(draw_fit(job, fit, fit.seated, f"fit-{number:02d}"), stamp))
        else:
            yield ""


def _beds(question: Question, job: Job) -> tuple[Bed, ...]:
    if not question.bed:
        return job.beds
    found = tuple(bed for bed in job.beds if bed.name == question.bed)
    if not found:
        known = ", ".join(repr(bed.name) for bed in job.beds)
        rule = "there is no such bed"
        raise InputError(f"{question.path}: --bed", rule, shown(question.bed), f"known: {known}")
    return found


def _panel(question: Question, job: Job, text: str, bed: Bed) -> Panel:
    try:
        width, height = parse_size(text, job.units)
    except InputError as error:
        where = f"{question.path}: {error.where.replace('Size', 'size', 1)}"
        raise InputError(where, error.rule, error.got, error.remedy) from error
    thickness = _thickness(question, job)
    limits, up, name = _tolerance(question, job, width, height)
    return Panel(
        MARK,
        width,
        height,
        1,
        bed.name,
        question.measured_on,
        tolerance=limits,
        tolerance_height=up,
        tolerance_class=name,
        thickness=thickness,
        in_feet=sides_in_feet(text) if job.units == "in" else (False, False),
    )


def _thickness(question: Question, job: Job) -> int:
    if not question.thickness:
        return 0
    with naming("--thickness"):
        return parse_steps(question.thickness, job.units)


def _tolerance(
    question: Question, job: Job, width: int, height: int
) -> tuple[tuple[int, int], tuple[int, int], str]:
    """Return the limits of width and of height [steps], and the name of their class if any."""
    given: object = question.tolerance
    if not given:
        return (0, 0), (0, 0), ""
    if "," in question.tolerance:
        given = [part.strip() for part in question.tolerance.split(",")]
    with naming("--tolerance"):
        limits, name = read_tolerance(LengthReaders(job.units), CLASSES)(given)
        if name:
            return class_limits(name, width), class_limits(name, height), name
    if -limits[0] >= min(width, height):
        raise InputError("--tolerance", "must leave a size > 0 mm", got=shown(question.tolerance))
    return limits, limits, ""
