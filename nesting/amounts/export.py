"""The quantities of a schedule as JSON and as CSV: kg, m2, m3 and mm, whatever the job's units."""

import csv
import io
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from nesting.amounts.mixes import Batches, CastCost, list_unpriced
from nesting.amounts.quantities import CastMix, DayMix, Quantities
from nesting.amounts.report import handling_of, list_warnings
from nesting.amounts.rubber import Rubber
from nesting.amounts.weights import PanelRow, Weight
from nesting.files.document import number, to_json
from nesting.masses import KG_PER_LB
from nesting.schedules.cautions import short_cautions
from nesting.units import to_mm
from nesting.values.job import Job
from nesting.values.material import INGREDIENTS

FORMAT = "nesting-quantities"
VERSION = 1
CSV_MARKS = {
    "panels.csv": "mark,shows,pieces,",
    "casts.csv": "layout,casts,",
    "batches.csv": "layout,casts,mix,",
    "days.csv": "first_day,last_day,",
}
"""The tables by file name, each with what its first line begins with."""
Record = dict[str, Any]


def quantities_to_json(job: Job, found: Quantities) -> str:
    """Return the quantities as JSON text."""
    document = {
        "job": job.title,
        "notes": list(found.notes),
        "warnings": list_warnings(job, found),
        "panels": _panel_records(job, found),
        "casts": [_cast_record(cast) for cast in found.casts],
        "days": [_day_record(day) for day in found.days],
        "order": _weight_record(found.weight)
        | {"ingredients": _ingredient_record(found.ingredients)},
        "rubber": {
            "liner": _rubber_record(found.liner),
            "second": found.second and _rubber_record(found.second),
        },
        "dams": {
            "settings": found.dams.settings,
            "length_m": found.dams.length,
            "hours": found.dams.hours,
            "cost": found.dams.cost,
        },
        "cost": found.cost and _cost_record(found.cost),
        "currency": job.materials.prices.currency if job.materials.prices else None,
        "unpriced": list(list_unpriced(job, job.materials.prices)) if job.materials.prices else [],
        "cautions": short_cautions(),
    }
    return to_json(FORMAT, VERSION, document)


def quantities_to_csv(job: Job, found: Quantities) -> dict[str, str]:
    """Return the tables by file name, those of `CSV_MARKS`."""
    panels = [_flat(record) for record in _panel_records(job, found)]
    casts, batches = [], []
    for cast in found.casts:
        record = _cast_record(cast)
        for key in ("face_coat", "backing"):
            mixed = {"layout": cast.layout, "casts": cast.repeats, "mix": key, **record.pop(key)}
            batches.append(_flat(mixed))
        casts.append(_flat(record))
    days = [_flat(_day_record(day)) for day in found.days]
    return dict(zip(CSV_MARKS, map(_table, (panels, casts, batches, days)), strict=True))


def _panel_records(job: Job, found: Quantities) -> list[Record]:
    costs = found.panel_costs or [None] * len(found.panels)
    return [_panel_record(job, row, cost) for row, cost in zip(found.panels, costs, strict=True)]


def _panel_record(job: Job, row: PanelRow, cost: Fraction | None) -> Record:
    panel, points = row.panel, job.materials.lifting.points
    return {
        "mark": panel.mark,
        "shows": list(panel.shows),
        "pieces": row.pieces,
        "layouts": list(row.layouts),
        "face_area_m2": panel.face_area,
        "thickness_mm": to_mm(panel.thickness),
        "least_thickness_mm": to_mm(panel.least),
        "deepest_hollow": panel.deepest,
        **_weight_record(panel.weight),
        "moved_by": handling_of(job, panel),
        "lifting_points": points,
        "share_kg": panel.weight.heaviest / points,
        "share_lb": panel.weight.heaviest / points / KG_PER_LB,
        "material_cost": cost,
    }


def _cast_record(cast: CastMix) -> Record:
    record = {
        "layout": cast.layout,
        "casts": cast.repeats,
        **_weight_record(cast.weight),
        "face_coat": _batch_record(cast.face),
        "backing": _batch_record(cast.backing),
    }
    return record | (_cost_record(cast.cost) if cast.cost else {})


def _day_record(day: DayMix) -> Record:
    first, last = day.dates or (None, None)
    return {
        "first_day": day.first,
        "last_day": day.last,
        "first_date": first and str(first),
        "last_date": last and str(last),
        "layouts": list(day.layouts),
        "batches": day.batches,
        "ingredients": _ingredient_record(day.ingredients),
    }


def _batch_record(batches: Batches) -> Record:
    return {
        "batches": batches.count,
        "ingredients": _ingredient_record(batches.ingredients),
        "one_batch_kg": batches.one,
        "one_batch_litres": batches.litres,
        "all_batches_kg": batches.all,
        "need_kg": batches.need,
        "water_cement": batches.water_cement,
    }


def _weight_record(weight: Weight) -> Record:
    return {
        "face_coat_wet_kg": weight.face_wet,
        "backing_wet_kg": weight.backing_wet,
        "wet_kg": weight.wet,
        "wet_lb": weight.wet / KG_PER_LB,
        "face_coat_cured_kg": weight.face_cured,
        "backing_cured_kg": weight.backing_cured,
        "cured_kg": weight.cured,
        "cured_lb": weight.cured / KG_PER_LB,
    }


def _rubber_record(rubber: Rubber) -> Record:
    return {
        "volume_m3": rubber.volume,
        "mass_kg": rubber.mass,
        "mass_lb": rubber.mass / KG_PER_LB,
        "days": rubber.days,
        "cost": rubber.cost,
    }


def _cost_record(cost: CastCost) -> Record:
    return {
        "material_cost": cost.material,
        "liner_share": cost.liner,
        "total_cost": cost.total,
    }


def _ingredient_record(ingredients: Sequence[tuple[str, Fraction]]) -> Record:
    return {f"{name}_kg": dict(ingredients)[name] for name in INGREDIENTS}


def _flat(record: Mapping[str, Any]) -> Record:
    """Return a record as one row: inner records spread out, lists in one cell with blanks."""
    row: Record = {}
    for key, value in record.items():
        if isinstance(value, dict):
            row |= _flat(value)
        elif isinstance(value, Fraction):
            row[key] = number(value)
        else:
            row[key] = " ".join(map(str, value)) if isinstance(value, list) else value
    return row


def _table(rows: Sequence[Mapping[str, Any]]) -> str:
    stream = io.StringIO()
    writer = csv.DictWriter(stream, list(rows[0]) if rows else [], lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return stream.getvalue()
