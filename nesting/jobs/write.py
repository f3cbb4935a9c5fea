"""Writes a job, a liner and an order as TOML that reads back equal: docs/file-format.md.

Lengths are exact: plain decimals in the file's units, and text in mm wherever an inch file has no
short decimal for them.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields
from typing import Any

from nesting.files.keys import SHAPE, write_keys
from nesting.files.lengths import LengthReaders
from nesting.files.marks import LINER_MARK
from nesting.jobs.found import LinerFound
from nesting.jobs.keys import CAST_KEYS, TEMPERATURES, job_keys
from nesting.values.bed import Bed
from nesting.values.castsizes import AsCast
from nesting.values.job import Job
from nesting.values.liner import Liner
from nesting.values.material import Materials
from nesting.values.panels import Panel
from nesting.values.shopdays import NO_DUE, ShopDays

Values = dict[str, Any]
"""What a table holds by its keys."""
_MOST_TOLD = 40  # kinds of things left out that are told one by one


def write_job(job: Job, remarks: Iterable[str] = ()) -> str:
    """Return the job as TOML, its liner as drawn; ``remarks`` stand on top."""
    values = {
        "title": job.title,
        "units": job.units,
        "liner": _liner_values(job.drawn),
        "rules": _values(job.rules) | _cast_values(job.as_cast),
        "dams": _values(job.dams),
        **_order_values(job.beds, job.panels),
        **_material_values(job.materials),
        "calendar": _calendar_values(job.shop),
    }
    return _write(remarks, values, job.units)


def write_liner(found: LinerFound) -> str:
    """Return the liner as a file of its own, which jobs name, notes first as comments."""
    source = f"read from {found.source}" if found.source else "written"
    remarks = [f"Liner {source} {LINER_MARK}", *(f"{note}." for note in found.notes)]
    for what, why, count in found.left_out[:_MOST_TOLD]:
        times = "" if count == 1 else f"{count} x "
        remarks.append(f"Left out: {times}{what}: {why}.")
    if len(found.left_out) > _MOST_TOLD:
        remarks.append(f"Left out: {len(found.left_out) - _MOST_TOLD} more kinds of things.")
    values = {"units": found.units, "liner": _liner_values(found.liner)}
    return _write([*remarks, ""], values, found.units)


def write_tables(beds: Sequence[Bed], panels: Sequence[Panel], remarks: Iterable[str]) -> str:
    """Return beds and panels, ready for a job in any units: each length has its unit."""
    return _write(remarks, _order_values(beds, panels), "")


def _write(remarks: Iterable[str], values: Mapping[str, Any], units: str) -> str:
    head = [f"# {_comment(remark)}" if remark else "" for remark in remarks]
    return "\n".join([*head, *write_keys(job_keys(LengthReaders(units)), values)]) + "\n"


def _liner_values(liner: Liner) -> Values:
    return {
        **_values(liner),
        "holes": liner.outline.holes,
        "ornament": [_values(each) for each in liner.ornaments],
        "blank_zone": [_values(each) for each in liner.zones],
        "keep_clear": [_values(each) | {SHAPE: each.place} for each in liner.keep_clear],
    }


def _cast_values(as_cast: AsCast) -> Values:
    """Return the rules on shrinkage and warmth, without those that change nothing."""
    values = _values(as_cast)
    warm = TEMPERATURES if any(values[key] for key in TEMPERATURES) else ()
    return {key: values[key] for key in CAST_KEYS if key in warm or values[key]}


def _order_values(beds: Sequence[Bed], panels: Sequence[Panel]) -> Values:
    return {
        "bed": [_bed_values(bed) for bed in beds],
        "panel": [_panel_values(panel) for panel in panels],
    }


def _bed_values(bed: Bed) -> Values:
    return {"name": bed.name, "size": bed.size} if bed.form == "flat" else _values(bed)


def _panel_values(panel: Panel) -> Values:
    limits = (0, 0) if panel.tolerance_class else panel.tolerance
    size = (panel.width, panel.height), panel.in_feet
    return _values(panel) | {"size": size, "tolerance": (limits, panel.tolerance_class)}


def _material_values(materials: Materials) -> Values:
    rubber, prices = materials.rubber, materials.prices
    second = rubber.second
    return {
        "material": _values(materials.panel),
        "mix": {"face": _values(materials.face), "backing": _values(materials.backing)},
        "batch": _values(materials.batch),
        "rubber": _values(rubber)
        | {"second": second and _values(second) | {"size": (second.width, second.height)}},
        "lifting": _values(materials.lifting),
        "prices": prices and _values(prices) | dict(prices.ingredients),
    }


def _calendar_values(shop: ShopDays) -> Values:
    return _values(shop) | {"start": shop.start or NO_DUE, "times": _values(shop.times)}


def _values(value: Any) -> Values:  # noqa: ANN401 - any of our frozen values
    return {field.name: getattr(value, field.name) for field in fields(value)}


def _comment(text: str) -> str:
    """Return the text as one line a TOML comment may hold."""
    return "".join(character if character.isprintable() else " " for character in text)
