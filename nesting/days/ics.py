r"""A calendar as an iCalendar file (RFC 5545), which any calendar program reads.

Times are local and without a zone (3.3.5, form 1): seven in the morning is seven on the shop's own
clock. Nothing in the file depends on when it is written.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby
from uuid import NAMESPACE_URL, uuid5

from nesting.drawings.lettering import clean
from nesting.files.columns import count_of
from nesting.values.calendar import CastCalendar, DayCast, Due, Task
from nesting.values.names import liner_name
from nesting.values.shopdays import ShopDays

PRODID = "-//nesting//casting calendar//EN"
LONGEST_LINE = 75
"""Most octets of a line, its break not counted (3.1)."""


@dataclass(frozen=True, slots=True)
class _Event:
    """One VEVENT; ``key`` tells it from the others and stays the same from run to run."""

    key: str
    summary: str
    begins: date | datetime
    ends: date | datetime
    details: tuple[str, ...] = ()


def write_ics(calendar: CastCalendar, shop: ShopDays) -> str:
    """Return the file's text: every cast, every demoulding, and all-day marks for due dates.

    ``shop`` tells whether there are several beds of one name, which then have numbers.
    """
    stamp = f"{calendar.start:%Y%m%d}T000000Z"
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODID}"]
    for event in _list_events(calendar, shop):
        lines += _event_lines(calendar.job, stamp, event)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded}\r\n" for line in lines for folded in fold_line(line))


def escape_text(text: str) -> str:
    r"""Return a text as a property holds it (3.3.11); control characters are left out.

    >>> print(escape_text("2 x A1; heron, reeds"))
    2 x A1\; heron\, reeds
    """
    lines = [clean(line) for line in text.splitlines()]
    for mark in ("\\", ";", ","):
        lines = [line.replace(mark, f"\\{mark}") for line in lines]
    return "\\n".join(lines)


def fold_line(line: str) -> list[str]:
    """Return a content line in lines of at most 75 octets, all but the first indented (3.1).

    No letter is broken, however many octets it takes.

    >>> [len(each) for each in fold_line("X" * 160)]
    [75, 75, 12]
    """
    folded, room = [""], LONGEST_LINE
    for letter in line:
        octets = len(letter.encode("utf-8"))
        if octets > room:
            folded.append(" ")
            room = LONGEST_LINE - 1
        folded[-1] += letter
        room -= octets
    return folded


def _event_lines(job: str, stamp: str, event: _Event) -> list[str]:
    lines = [
        "BEGIN:VEVENT",
        f"UID:{uuid5(NAMESPACE_URL, f'nesting:{job}:{event.key}')}",
        f"DTSTAMP:{stamp}",
        f"DTSTART{_moment(event.begins)}",
    ]
    if event.ends > event.begins:  # both are dates, or both have times
        lines.append(f"DTEND{_moment(event.ends)}")
    lines.append(f"SUMMARY:{escape_text(event.summary)}")
    if event.details:
        lines.append(f"DESCRIPTION:{escape_text(chr(10).join(event.details))}")
    if not isinstance(event.begins, datetime):
        lines.append("TRANSP:TRANSPARENT")
    return [*lines, "END:VEVENT"]


def _moment(moment: date | datetime) -> str:
    """Return a date, or a local time without a zone, behind its property's name.

    >>> _moment(date(2026, 3, 2)), _moment(datetime(2026, 3, 2, 7, 30))
    (';VALUE=DATE:20260302', ':20260302T073000')
    """
    if isinstance(moment, datetime):
        return f":{moment:%Y%m%dT%H%M%S}"
    return f";VALUE=DATE:{moment:%Y%m%d}"


def _list_events(calendar: CastCalendar, shop: ShopDays) -> Iterator[_Event]:
    for cast in calendar.casts:
        yield from _cast_events(cast, shop.name_bed(cast.bed, cast.bed_number))
    for due in calendar.dues:
        yield _due_event(due)


def _cast_events(cast: DayCast, bed: str) -> Iterator[_Event]:
    """Yield the days of work on a cast, set-out days before it each for itself, and demoulding."""
    place = f"{liner_name(cast.liner)}, bed {bed}"
    what = f"layout {cast.layout}: {', '.join(cast.marks)}"
    days = [tuple(tasks) for _, tasks in groupby(cast.tasks, key=lambda task: task.begins.date())]
    for number, tasks in enumerate(days, start=1):
        is_cast = number == len(days)
        work = f"Cast {cast.number}{_changes(cast)}"
        if not is_cast:
            work = f"{tasks[0].name.capitalize()} for cast {cast.number}"
        yield _Event(
            f"cast {cast.number}" if is_cast else f"cast {cast.number}, day {number}",
            f"{work}: layout {cast.layout}, {place}",
            tasks[0].begins,
            tasks[-1].ends,
            (what, *map(_task_text, tasks)),
        )
    summary = f"Demould cast {cast.number}: {', '.join(cast.marks)}, {place}"
    yield _Event(f"demould {cast.number}", summary, cast.demould.begins, cast.demould.ends)


def _changes(cast: DayCast) -> str:
    changes = ["bed change"] * cast.is_bed_change + ["re-set"] * cast.is_reset
    return f" ({' and '.join(changes)})" if changes else ""


def _task_text(task: Task) -> str:
    name = "haze window, judged by eye" if task.name == "haze" else task.name
    return f"{task.begins:%H:%M} to {task.ends:%H:%M} {name}"


def _due_event(due: Due) -> _Event:
    late = f", {count_of(due.days_late, 'day')} late" if due.days_late else ""
    return _Event(
        f"due {due.mark}",
        f"Due: {due.mark} (last panel demoulded {due.done}{late})",
        due.due,
        due.due + timedelta(days=1),
    )
