"""A schedule as JSON and back: what a plan leaves behind, and what anyone may check.

Only the form of a file is checked here; whether a schedule is right is for the checker.
"""

import json
from pathlib import Path

from nesting.errors import InputError, InputErrors, gathered, shown
from nesting.files.document import to_json
from nesting.files.text import path_label, read_text_file
from nesting.files.tomlcheck import Mistakes, Table
from nesting.schedules.areas import area_number, round_areas, round_totals
from nesting.schedules.parts import FORMAT, VERSION, read_document
from nesting.units import to_mm
from nesting.values.casts import Dam, Layout, Placement, Proof, Schedule, Totals
from nesting.values.job import Job


def schedule_to_json(schedule: Schedule, job: Job) -> str:
    """Return the text of a schedule file."""
    document = {
        "job": schedule.job,
        "casts": schedule.casts,
        "lower_bound": schedule.lower_bound,
        "proved": schedule.proved,
        "layouts_bound": schedule.layouts_bound,
        "proved_layouts": schedule.layouts_proved,
        "proved_dam_length": schedule.dam_length_proved,
        "notes": list(schedule.notes),
        "layouts": [_layout_record(layout) for layout in schedule.layouts],
        "totals": _totals_record(schedule),
        "proof": [_proof_record(proof) for proof in schedule.proofs],
        "liner_square_steps": job.liner.outline.area,
    }
    return to_json(FORMAT, VERSION, document)


def read_schedule(path: str | Path) -> Schedule:
    """Return the schedule a file holds.

    Raises
    ------
    InputErrors
        With every mistake of form: no such file, not JSON, another format or version, unknown or
        missing keys, wrong types. A schedule with faults of geometry is read as it is.
    """
    return _read_file(Path(path))[0]


def read_totals(path: str | Path) -> Totals:
    """Return the totals a schedule file states, even where its layouts do not come to them.

    Raises as `read_schedule` does.
    """
    return _read_file(Path(path))[1]


def _layout_record(layout: Layout) -> dict[str, object]:
    areas = round_areas(layout.areas)
    again = {} if layout.same_dams_as is None else {"same_dams_as": layout.same_dams_as}
    return again | {
        "layout": layout.number,
        "repeats": layout.repeats,
        "bed": layout.bed,
        "panels": [_panel_record(placement) for placement in layout.panels],
        "dams": [_dam_record(dam) for dam in layout.dams],
        "area": {part: area_number(area) for part, area in areas.items()},
    }


def _panel_record(placement: Placement) -> dict[str, object]:
    off = [to_mm(steps) for steps in placement.off_nominal]
    return ({"off_nominal": off} if any(off) else {}) | {
        "mark": placement.mark,
        **_box_record(placement),
        "turned": placement.turned,
        "shows": list(placement.shows),
        "sides": placement.sides._asdict(),
    }


def _dam_record(dam: Dam) -> dict[str, object]:
    return {
        "name": dam.name,
        **_box_record(dam),
        "zones": list(dam.zones),
        "clearance": None if dam.clearance is None else to_mm(dam.clearance),
    }


def _box_record(piece: Placement | Dam) -> dict[str, object]:
    return {key: to_mm(getattr(piece, key)) for key in ("x", "y", "width", "height")}


def _proof_record(proof: Proof) -> dict[str, object]:
    return {
        "bed": proof.bed,
        "lower_bound": proof.lower_bound,
        "casts": proof.casts,
        "prices": [list(price) for price in proof.prices],
        "demand": proof.demand,
        "heaviest": proof.heaviest,
        "points": [[to_mm(x), to_mm(y), weight] for x, y, weight in proof.points],
        "method": proof.method,
        "enumerated": proof.enumerated,
    }


def _totals_record(schedule: Schedule) -> dict[str, object]:
    areas = round_totals(schedule)
    share = areas["idle_area"] / areas["liner_area"] if areas["liner_area"] else 0
    return {
        "panels": schedule.panels,
        **{key: area_number(area) for key, area in areas.items()},
        "idle_share": round(share, 6),
    }


def _read_file(path: Path) -> tuple[Schedule, Totals]:
    file = path_label(path.name)
    with gathered():
        values = _parse_json(file, read_text_file(path))
    mistakes = Mistakes(file)
    found = read_document(Table(values, (), mistakes))
    if mistakes or found is None:
        raise InputErrors(mistakes.located())
    return found


def _parse_json(file: str, text: str) -> dict[str, object]:
    try:
        values = json.loads(text, object_pairs_hook=_refuse_twice)
    except json.JSONDecodeError as error:
        where, what = f"{file}:{error.lineno}", error.msg.lower()
        rule = f"the file is not JSON: {what} (column {error.colno})"
        remedy = "name the schedule.json that nesting plan has written"
        raise InputError(where, rule, remedy=remedy) from error
    except InputError as error:
        raise InputError(file, error.rule, error.got) from error
    except (RecursionError, ValueError) as error:
        what = "nested too deep" if isinstance(error, RecursionError) else "a number is too long"
        raise InputError(file, f"the file is not JSON: {what}") from error
    if not isinstance(values, dict):
        raise InputError(file, "a schedule is an object with named values", got=shown(values))
    return values


def _refuse_twice(pairs: list[tuple[str, object]]) -> dict[str, object]:
    values = dict(pairs)
    if len(values) < len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise InputError("", "a key must be given once", got=f"{shown(twice)} twice")
    return values
