"""A calendar as text."""

from itertools import pairwise

from nesting.files.columns import INDENT, TextTable, count_of, wrap_text
from nesting.schedules.cautions import short_cautions
from nesting.values.calendar import Aim, CastCalendar, DayCast, Due
from nesting.values.job import Job
from nesting.values.shopdays import duration_text

_HEAD = [
    "day", "cast", "layout", "liner", "bed", "before it", "face coat", "haze", "backing", "demould",
]  # fmt: skip
NOT_CERTIFIED = (
    "These are dates and times, and nothing more: no demoulding, lift, panel or hours of work are "
    "certified."
)
ADVICE = (
    "Promise the days on which the last panel is demoulded, or start earlier, work on more days, "
    "or give more liners or beds in [calendar]."
)
WET = (
    "Cure: a mix of this job has no polymer. Its panels are kept wet for 7 days (textbook), which "
    "are not in this calendar."
)
_LEFT = ("day", "bed", "before it", "demould")


def report_calendar(job: Job, calendar: CastCalendar) -> str:
    """Return the whole report, without a final newline."""
    sections = [
        wrap_text(write_result(calendar)),
        [line for note in calendar.notes for line in wrap_text(f"Note: {note}")],
        times_table(job, calendar).told,
        [line for text in write_hazes(job) for line in wrap_text(text)],
        _list_dues(calendar),
        wrap_text(write_aims(job, calendar)),
        short_cautions(NOT_CERTIFIED),
    ]
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def write_result(calendar: CastCalendar) -> str:
    """Return the one line of the result."""
    liners = len({cast.liner for cast in calendar.casts})
    return (
        f"{calendar.job}: {count_of(len(calendar.casts), 'cast')} on {count_of(liners, 'liner')}, "
        f"{calendar.start:%A} {calendar.start} to {calendar.finish:%A} {calendar.finish}; "
        f"{_late_text(calendar)}; "
        f"{count_of(calendar.resets, 're-set')} and "
        f"{count_of(calendar.bed_changes, 'bed change')}, "
        f"{_verdict('fewest', calendar.changes)}; "
        f"{count_of(calendar.days.value, 'working day')}, {_verdict('fewest', calendar.days)}."
    )


def _late_text(calendar: CastCalendar) -> str:
    if not calendar.dues:
        return "no due dates"
    if not calendar.late.value:
        return "every due date holds"
    days = count_of(calendar.late.value, "day")
    return f"{days} late, summed over panels, {_verdict('least', calendar.late)}"


def _verdict(word: str, aim: Aim) -> str:
    return f"{word} PROVED" if aim.proved else f"{word} NOT PROVED (at least {aim.bound})"


def times_table(job: Job, calendar: CastCalendar) -> TextTable:
    """Return a row for each cast in the order of the days; only the first of a day names it."""
    title = "Days, times by the shop's clock; the liner and its bed are taken until demoulding:"
    rows = [_cast_row(job, cast) for cast in calendar.casts]
    for (day, *_), row in reversed(list(pairwise(rows))):
        row[0] = "" if row[0] == day else row[0]
    return TextTable(title, _HEAD, rows, _LEFT)


def _cast_row(job: Job, cast: DayCast) -> list[str]:
    haze = cast.task("haze")
    return [
        f"{cast.day:%a} {cast.day}",
        str(cast.number),
        str(cast.layout),
        str(cast.liner),
        job.shop.name_bed(cast.bed, cast.bed_number),
        _before_text(cast),
        f"{cast.task('face coat').begins:%H:%M}",
        f"{haze.begins:%H:%M}-{haze.ends:%H:%M}",
        f"{haze.ends:%H:%M}-{cast.covered:%H:%M}",
        f"{cast.demould.begins:%a %m-%d %H:%M}",
    ]


def _before_text(cast: DayCast) -> str:
    """Return ``bed change, re-set 07:30``; a day too where the work begins on an earlier one."""
    if not cast.before:
        return "-"
    begins = cast.before[0].begins
    moment = f"{begins:%H:%M}" if begins.date() == cast.day else f"{begins:%a %m-%d %H:%M}"
    return f"{', '.join(dict.fromkeys(task.name for task in cast.before))} {moment}"


def write_hazes(job: Job) -> tuple[str, ...]:
    """Return what must be known of the haze window, the time under cover and a wet cure."""
    times = job.shop.times
    polymer = job.materials.face.polymer and job.materials.backing.polymer
    least, most = times.haze
    return (
        f"Haze: the backing goes on when the face coat's haze is right, judged by eye. The window "
        f"shown is {least} to {most} min after the face coat (common practice, no source); the day "
        "is planned for its end. Shop conditions rule.",
        write_cover(job),
        *([] if polymer else [WET]),
    )


def write_cover(job: Job) -> str:
    """Return how long a cast stays under cover, as the job has it."""
    return (
        f"Cover: at least {duration_text(job.shop.times.cover)} from the backing to demoulding; "
        "mix and warmth rule, and 16 to 24 h at 60 F (16 C) or more are common practice, no source."
    )


def _list_dues(calendar: CastCalendar) -> list[str]:
    table = due_table(calendar)
    advice = wrap_text(ADVICE, INDENT) if calendar.late.value else []
    return [*table.told, *advice] if calendar.dues else []


def due_table(calendar: CastCalendar) -> TextTable:
    """Return a row for each mark with a due date."""
    head = ["mark", "due", "last panel demoulded", "panels late", "days late"]
    rows = [_due_row(due) for due in calendar.dues]
    title = "Due dates:"
    if calendar.late.value:
        reason = "cannot all hold" if calendar.late.bound else "do not all hold"
        title = f"Due dates; they {reason}, and lateness goes before every other aim:"
    return TextTable(title, head, rows, ("mark", "due", "last panel demoulded"))


def _due_row(due: Due) -> list[str]:
    done = f"{due.done:%a} {due.done}"
    days = str(due.days_late) if due.days_late else "-"
    return [due.mark, f"{due.due:%a} {due.due}", done, str(due.panels_late or "-"), days]


def write_aims(job: Job, calendar: CastCalendar) -> str:
    """Return what the order aims at, the most important first, and what of it is proved."""
    aims = [
        ("days late over all panels", calendar.late),
        ("re-sets and bed changes together", calendar.changes),
        ("working days", calendar.days),
    ]
    if job.shop.first == "finish":
        aims[1:] = reversed(aims[1:])
    listed = "; ".join(
        f"{name} {aim.value}, {'PROVED' if aim.proved else f'NOT PROVED, at least {aim.bound}'}"
        for name, aim in aims
    )
    return f"Made as few as can be, in this order: {listed}."
