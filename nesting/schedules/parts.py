"""Turns the parsed tables of a schedule file into values, checking their form and nothing else."""

from dataclasses import replace
from fractions import Fraction
from math import isfinite

from nesting.errors import InputError, shown
from nesting.files.readers import (
    is_printable,
    read_choice,
    read_each,
    read_list,
    read_text,
    read_whole,
)
from nesting.files.tomlcheck import Table, complete, whole
from nesting.schedules.areas import (
    MILLIONTHS,
    area_number,
    exact_area,
    exact_areas,
    round_totals,
)
from nesting.units import parse_steps
from nesting.values.casts import Dam, Layout, Placement, Proof, Schedule, Sides, Totals, totals

FORMAT = "nesting-schedule"
VERSION = 1

_MOST = 10**18  # for whole numbers
_LARGEST_LENGTH = 10**6  # mm
_LARGEST_AREA = 10**12  # mm2
_PARTS = ("liner", "panels", "dams", "masked")
_NO_NAMES: tuple[str, ...] = ()
_read_count = read_whole(0, _MOST)


def read_document(top: Table) -> tuple[Schedule, Totals] | None:
    """Return the schedule and the totals stated beside it, None where there was a mistake.

    Of a file of another format or version, nothing further is read.
    """
    top.take("format", read_choice(FORMAT))
    top.take("version", read_whole(VERSION, VERSION))
    if top.is_mistaken("format") or top.is_mistaken("version"):
        return None
    liner = top.take("liner_square_steps", read_whole(0, _MOST), 0)
    schedule = whole(
        Schedule,
        job=top.take("job", read_text),
        lower_bound=top.take("lower_bound", _read_count),
        layouts=complete(
            [_read_layout(row, liner or 0) for row in top.tables("layouts", needed=True)]
        ),
        proofs=complete([_read_proof(row) for row in top.tables("proof")]),
        layouts_bound=top.take("layouts_bound", _read_count, 0),
        layouts_proved=top.take("proved_layouts", _read_flag, False),
        dam_length_proved=top.take("proved_dam_length", _read_flag, False),
        notes=top.take("notes", read_each(_read_note), _NO_NAMES),
    )
    top.take("proved", _read_flag)
    top.take("proved_clearance", _read_flag, False)  # in former files, always false
    stated = _read_totals(top, schedule)
    top.close()
    return None if schedule is None or stated is None else (schedule, stated)


def _read_layout(row: Table, liner: int) -> Layout | None:
    panels = complete([_read_panel(panel) for panel in row.tables("panels", needed=True)])
    dams = complete([_read_dam(dam) for dam in row.tables("dams", needed=True)])
    covered = (sum(each.box.area for each in those or ()) for those in (panels, dams))
    geometry = dict(zip(("liner", "panels", "dams"), (liner, *covered), strict=True))
    rounded = _read_areas(row)
    same = row.take("same_dams_as", read_whole(1, _MOST), None)
    layout = whole(
        Layout,
        number=row.take("layout", read_whole(1, _MOST)),
        repeats=row.take("repeats", read_whole(1, _MOST)),
        bed=row.take("bed", read_text),
        panels=panels,
        dams=dams,
        areas=rounded and exact_areas(rounded, geometry),
    )
    row.close()
    return layout and replace(layout, same_dams_as=same)


def _read_areas(row: Table) -> dict[str, int] | None:
    table = row.table("area")
    if table is None:
        return None
    parts = {part: table.take(part, _read_area) for part in _PARTS}
    table.take("idle", _read_area)
    table.close()
    return whole(dict[str, int], **parts)


def _read_panel(row: Table) -> Placement | None:
    placement = whole(
        Placement,
        mark=row.take("mark", read_text),
        **_read_box(row),
        sides=_read_sides(row),
        shows=row.take("shows", read_each(read_text)),
        turned=row.take("turned", _read_flag),
        off_nominal=row.take("off_nominal", _read_pair, (0, 0)),
    )
    row.close()
    return placement


def _read_sides(row: Table) -> Sides | None:
    table = row.table("sides")
    if table is None:
        return None
    read = read_choice("edge", "dam")
    sides = whole(Sides, **{side: table.take(side, read) for side in Sides._fields})
    table.close()
    return sides


def _read_dam(row: Table) -> Dam | None:
    clearance = row.take("clearance", lambda value: None if value is None else _read_mm(value))
    dam = whole(
        Dam,
        name=row.take("name", read_text),
        **_read_box(row),
        zones=row.take("zones", read_each(read_text)),
    )
    row.close()
    return dam and replace(dam, clearance=clearance)


def _read_box(row: Table) -> dict[str, int | None]:
    return {key: row.take(key, _read_mm) for key in ("x", "y", "width", "height")}


def _read_proof(row: Table) -> Proof | None:
    proof = whole(
        Proof,
        bed=row.take("bed", read_text),
        lower_bound=row.take("lower_bound", _read_count),
        casts=row.take("casts", _read_count),
        prices=row.take("prices", read_each(_read_price)),
        demand=row.take("demand", _read_count),
        heaviest=row.take("heaviest", _read_count),
        points=row.take("points", read_each(_read_point), ()),
        method=row.take("method", _read_note, ""),
        enumerated=row.take("enumerated", _read_count, 0),
    )
    row.close()
    return proof


def _read_totals(top: Table, schedule: Schedule | None) -> Totals | None:
    casts = top.take("casts", _read_count)
    table = top.table("totals")
    if table is None:
        return None
    keys = ("liner_area", "panel_area", "idle_area")
    areas = {key: table.take(key, _read_number) for key in keys}
    panels = table.take("panels", _read_counts)
    table.take("idle_share", _read_number)
    table.close()
    if schedule is None:
        return None
    right, rounded = totals(schedule), round_totals(schedule)
    exact = {
        key: getattr(right, key)
        if area == area_number(rounded[key])
        else exact_area(_read_area(area))
        for key, area in areas.items()
        if area is not None
    }
    return whole(Totals, casts=casts, panels=panels, **(areas | exact))


def _read_number(value: object, largest: int = _LARGEST_AREA) -> int | float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise InputError("", "must be a number", got=shown(value))
    if isinstance(value, float) and not isfinite(value):
        raise InputError("", "must be a finite number", got=shown(value))
    if abs(value) > largest:
        raise InputError("", f"must be at most {largest}", got=shown(value))
    return value


def _read_mm(value: object) -> int:
    return parse_steps(_read_number(value, _LARGEST_LENGTH), "mm")


def _read_area(value: object) -> int:
    """Return an area in millionths of a mm2."""
    return round(Fraction(repr(_read_number(value))) * MILLIONTHS)


def _read_flag(value: object) -> bool:
    if not isinstance(value, bool):
        raise InputError("", "must be true or false", got=shown(value))
    return value


def _read_note(value: object) -> str:
    if not isinstance(value, str) or not is_printable(value.replace("\n", " ")):
        raise InputError("", "must be text without control characters", got=shown(value))
    return value


def _read_items(value: object, count: int) -> list[object]:
    items = read_list(value)
    if len(items) != count:
        raise InputError("", f"must be a list of {count}", got=shown(items))
    return items


def _read_pair(value: object) -> tuple[int, int]:
    first, second = _read_items(value, 2)
    return _read_mm(first), _read_mm(second)


def _read_price(value: object) -> tuple[str, int]:
    mark, price = _read_items(value, 2)
    return read_text(mark), _read_count(price)


def _read_point(value: object) -> tuple[int, int, int]:
    x, y, weight = _read_items(value, 3)
    return _read_mm(x), _read_mm(y), _read_count(weight)


def _read_counts(value: object) -> tuple[tuple[str, int], ...]:
    if not isinstance(value, dict):
        raise InputError("", "must name a number for each mark", got=shown(value))
    return tuple((read_text(mark), _read_count(count)) for mark, count in value.items())
