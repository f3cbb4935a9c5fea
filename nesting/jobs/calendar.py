"""Reads the ``[calendar]`` table of a job: the shop's days, liners, beds and times."""

from collections.abc import Sequence
from dataclasses import replace

from nesting.errors import shown
from nesting.files.keys import take_keys
from nesting.files.tomlcheck import Table, whole
from nesting.jobs.shopkeys import calendar_keys, times_keys
from nesting.values.panels import Panel
from nesting.values.shopdays import NO_DUE, USUAL_DAYS, ShopDays, Times


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
    found = take_keys(table, calendar_keys())
    _check_beds(table, found["beds"] or (), beds, panels)
    shop = whole(ShopDays, times=_read_times(table), **found)
    if shop is not None and shop.opens >= shop.closes:
        got = f"{shop.opens:%H:%M} and {shop.closes:%H:%M}"
        remedy = "work over midnight is not planned; give hours of one day"
        table.fault("closes", "must be later than opens on the same day", got, remedy)
    table.close()
    return replace(shop, start=None) if shop and shop.start == NO_DUE else shop


def _check_beds(
    table: Table,
    counts: Sequence[tuple[str, int]],
    names: tuple[str, ...] | None,
    panels: Sequence[Panel] | None,
) -> None:
    """Note beds that the job does not have, and a bed of the order that is not there."""
    for name, count in counts:
        marks = [panel.mark for panel in panels or () if panel.bed == name]
        if names is not None and name not in names:
            remedy = f"known: {', '.join(map(shown, names))}" if names else ""
            table.fault("beds", "there is no such bed", got=shown(name), remedy=remedy)
        elif marks and not count:
            rule = f"bed {shown(name)} must be there for panel {shown(marks[0])}"
            table.fault("beds", rule, got="0 beds", remedy="give 1 or more")


def _read_times(table: Table) -> Times | None:
    row = table.table("times", needed=False)
    if row is None:
        return None if table.is_mistaken("times") else USUAL_DAYS.times
    times = whole(Times, **take_keys(row, times_keys()))
    row.close()
    return times
