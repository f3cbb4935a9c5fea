"""Reads the ``[calendar]`` table of a job: the shop's days, liners, beds and times."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date

from nesting.errors import InputError, InputErrors, shown
from nesting.files.dates import (
    WEEKDAYS,
    read_date,
    read_minutes,
    read_time,
    read_weekday,
)
from nesting.files.readers import read_choice, read_each, read_whole
from nesting.files.tomlcheck import Table, whole
from nesting.values.panels import Panel
from nesting.values.shopdays import USUAL_DAYS, ShopDays, Times, duration_text

MOST_LINERS = 20
"""Most liners, and most beds of one name."""
MOST_A_DAY = 8
"""Most casts of one liner in a day."""
_MOST_DATES = 2_000
_NO_COUNTS: tuple[tuple[str, int], ...] = ()


def read_calendar(
    top: Table, beds: tuple[str, ...] | None, panels: Sequence[Panel] | None, *, allowed: bool
) -> ShopDays | None:
    """Return the shop's days as the ``[calendar]`` table of a file gives them.

    Parameters
    ----------
    top
        The whole file; without the table every default holds.
    beds
        The names of the job's beds, None where they are not all known.
    panels
        The order, each bed of which must be there; None where it is not known.
    allowed
        Whether the file may have the table: a liner file may not.
    """
    if not allowed:
        top.refuse("calendar", "a liner file holds no calendar", "move it to a job file")
        return USUAL_DAYS
    table = top.table("calendar", needed=False)
    if table is None:
        return None if top.is_mistaken("calendar") else USUAL_DAYS
    start = table.take("start", read_date, date.max)
    shop = whole(
        ShopDays,
        start=start,
        casts_per_day=table.take("casts_per_day", read_whole(1, MOST_A_DAY), 1),
        liners=table.take("liners", read_whole(1, MOST_LINERS), 1),
        beds=_read_beds(table, beds, panels),
        first=table.take("first", read_choice("changes", "finish"), USUAL_DAYS.first),
        opens=table.take("opens", read_time, USUAL_DAYS.opens),
        closes=table.take("closes", read_time, USUAL_DAYS.closes),
        weekdays_off=_read_weekdays(table),
        dates_off=table.take("dates_off", _read_dates, ()),
        times=_read_times(table),
    )
    if shop is not None and shop.opens >= shop.closes:
        got = f"{shop.opens:%H:%M} and {shop.closes:%H:%M}"
        remedy = "work over midnight is not planned; give hours of one day"
        table.fault("closes", "must be later than opens on the same day", got, remedy)
    table.close()
    return replace(shop, start=None) if shop and start == date.max else shop


def _read_weekdays(table: Table) -> tuple[int, ...] | None:
    days = table.take("weekdays_off", read_each(read_weekday), USUAL_DAYS.weekdays_off)
    if days is not None and len(set(days)) == len(WEEKDAYS):
        table.fault("weekdays_off", "must leave a day to work on", got="all seven")
        return None
    return None if days is None else tuple(sorted(set(days)))


def _read_dates(value: object) -> tuple[date, ...]:
    if isinstance(value, list) and len(value) > _MOST_DATES:
        raise InputError("", f"must have at most {_MOST_DATES} dates", got=str(len(value)))
    return tuple(sorted(set(read_each(read_date)(value))))


def _read_beds(
    table: Table, names: tuple[str, ...] | None, panels: Sequence[Panel] | None
) -> tuple[tuple[str, int], ...] | None:
    """Return how many beds there are of each name that is given."""
    counts = table.take("beds", _read_counts, _NO_COUNTS)
    for name, count in counts or ():
        marks = [panel.mark for panel in panels or () if panel.bed == name]
        if names is not None and name not in names:
            remedy = f"known: {', '.join(map(shown, names))}" if names else ""
            table.fault("beds", "there is no such bed", got=shown(name), remedy=remedy)
        elif marks and not count:
            rule = f"bed {shown(name)} must be there for panel {shown(marks[0])}"
            table.fault("beds", rule, got="0 beds", remedy="give 1 or more")
    return None if table.is_mistaken("beds") else counts


def _read_counts(value: object) -> tuple[tuple[str, int], ...]:
    if not isinstance(value, Mapping):
        rule = "must be a table of numbers like { table = 2, drum = 1 }"
        raise InputError("", rule, got=shown(value))
    counts, errors = [], []
    for name, count in value.items():
        try:
            counts.append((name, read_whole(0, MOST_LINERS)(count)))
        except InputError as error:
            errors.append(InputError(f".{name}", error.rule, error.got))
    if errors:
        raise InputErrors(errors)
    return tuple(counts)


def _read_times(table: Table) -> Times | None:
    row = table.table("times", needed=False)
    if row is None:
        return None if table.is_mistaken("times") else USUAL_DAYS.times
    usual = USUAL_DAYS.times
    times = whole(
        Times,
        set_out=row.take("set_out", read_minutes, usual.set_out),
        reset=row.take("reset", read_minutes, usual.reset),
        bed_change=row.take("bed_change", read_minutes, usual.bed_change),
        masking=row.take("masking", read_minutes, usual.masking),
        face_coat=row.take("face_coat", read_minutes, usual.face_coat),
        haze=row.take("haze", _read_window, usual.haze),
        backing=row.take("backing", read_minutes, usual.backing),
        cover=row.take("cover", read_minutes, usual.cover),
        demould=row.take("demould", read_minutes, usual.demould),
    )
    row.close()
    return times


def _read_window(value: object) -> tuple[int, int]:
    if not isinstance(value, list) or len(value) != 2:
        raise InputError("", "must be [least, most] minutes", got=shown(value))
    least, most = read_each(read_minutes)(value)
    if least > most:
        got = " to ".join(map(duration_text, (least, most)))
        raise InputError("", "must be [least, most] with least <= most", got=got)
    return least, most
