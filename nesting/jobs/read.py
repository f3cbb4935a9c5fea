"""Reads a job file: every key checked, every mistake of it and of its liner file told at once."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from nesting.errors import InputError, InputErrors, gathered, shown
from nesting.files.kinds import refuse_drawing, refuse_other_kind
from nesting.files.lengths import LengthReaders
from nesting.files.readers import read_choice, read_text
from nesting.files.text import path_label, read_text_file
from nesting.files.tomlcheck import Mistakes, Table, whole
from nesting.files.tomltext import parse_toml
from nesting.jobs.bedfit import check_beds
from nesting.jobs.calendar import read_calendar
from nesting.jobs.keys import CAST_KEYS, NEEDED_RULES, TEMPERATURES
from nesting.jobs.material import make_materials, read_materials
from nesting.jobs.tables import (
    BedPart,
    LinerPart,
    Rule,
    read_beds,
    read_dams,
    read_liner,
    read_panels,
    read_rules,
)
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, decimal_text
from nesting.values.bed import Bed
from nesting.values.castsizes import AsCast, lay_liner
from nesting.values.job import DamStock, Job, Rules
from nesting.values.liner import Liner
from nesting.values.panels import Panel
from nesting.values.shopdays import USUAL_DAYS, ShopDays

SET_OUT = {"mm": STEPS_PER_MM, "in": STEPS_PER_INCH // 16}
"""The division a person marks to [steps] where the rules do not say."""

_NO_LINER = LinerPart()
_AS_DRAWN = AsCast()
FLAT_BED = BedPart({"flat": Bed("flat")}, ("flat",))
"""The beds of a job that names none."""
_JOB_TABLES = {"panel", "calendar", "dams"}  # that a liner file must not have
_RULES_REMEDY = f"begin it with [rules] and give {', '.join(NEEDED_RULES)}"


@dataclass(frozen=True, slots=True)
class _Draft:
    """What a file and its liner file give, and their mistakes; ``drawn`` is before it shrank."""

    title: str | None = None
    units: str | None = None
    liner: LinerPart = _NO_LINER
    rules: Mapping[str, Rule] = field(default_factory=dict)
    beds: BedPart = FLAT_BED
    panels: tuple[Panel, ...] | None = ()
    errors: tuple[InputError, ...] = ()
    as_cast: AsCast = _AS_DRAWN
    materials: dict[str, Any] = field(default_factory=dict)
    dams: DamStock | None = None
    shop: ShopDays | None = USUAL_DAYS
    drawn: Liner | None = None


def read_job(path: str | Path, *, order_needed: bool = True) -> Job:
    """Return the job a file describes.

    Parameters
    ----------
    path
        A TOML file as docs/file-format.md describes it. A liner file it names is read too.
    order_needed
        Whether a file without a title or without a panel has a mistake.

    Raises
    ------
    InputErrors
        With every mistake of the file, then of its liner file, each with file, line and key path.
    """
    path = Path(path)
    with gathered():
        refuse_drawing(path)
        text = read_text_file(path)
    return _read_source(_Source(path, path_label(path.name), text), order_needed)


def read_job_text(text: str, label: str, *, order_needed: bool = True) -> Job:
    """Return the job of a text as a file would hold it; messages call it ``label``.

    A liner file it names lies in the folder one is in. Raises InputErrors as `read_job` does.
    """
    return _read_source(_Source(Path(label), label, text), order_needed)


def _read_source(source: _Source, order_needed: bool) -> Job:
    with gathered():
        draft = _read_draft(source, order_needed=order_needed)
    job = None if draft.errors else _make_job(draft)
    if job is None:
        raise InputErrors(draft.errors)
    return job


def read_liner_file(path: str | Path) -> tuple[Liner, str]:
    """Return the liner of a file as it is drawn there, and the file's units.

    A liner file needs no rules. A job is read whole, its order and its calendar left aside.

    Raises
    ------
    InputErrors
        With every mistake of the file, as `read_job` does.
    """
    path = Path(path)
    label = path_label(path.name)
    with gathered():
        text = read_text_file(path)
        led_by = () if _JOB_TABLES & parse_toml(label, text).keys() else ("",)
        draft = _read_draft(_Source(path, label, text, led_by))
    if draft.errors or draft.drawn is None or draft.units is None:
        raise InputErrors(draft.errors)
    return draft.drawn, draft.units


@dataclass(frozen=True, slots=True)
class _Source:
    """A file that is being read, and the real paths of those that led to it."""

    path: Path
    label: str
    text: str
    led_by: tuple[str, ...] = ()

    @property
    def is_liner_file(self) -> bool:
        return bool(self.led_by)

    @property
    def chain(self) -> tuple[str, ...]:
        return (*self.led_by, os.path.realpath(self.path))


def _make_job(draft: _Draft) -> Job | None:
    return whole(
        Job,
        title=draft.title or (draft.liner.liner and draft.liner.liner.name),
        units=draft.units,
        liner=draft.liner.liner,
        rules=whole(Rules, **{part.name: draft.rules.get(part.name) for part in fields(Rules)}),
        beds=tuple(draft.beds.beds.values()),
        panels=draft.panels,
        as_cast=draft.as_cast,
        materials=make_materials(draft.units, draft.materials),
        shop=draft.shop,
        dams=draft.dams,
    )


def _read_draft(source: _Source, *, order_needed: bool = False) -> _Draft:
    mistakes = Mistakes(source.label, source.text)
    top = Table(parse_toml(source.label, source.text), (), mistakes)
    if refuse_other_kind(top, "job"):
        return _Draft(errors=tuple(mistakes.located()))
    title = top.take("title", read_text) if order_needed else top.take("title", read_text, "")
    units = top.take("units", read_choice("mm", "in"))
    lengths = LengthReaders(units or _meant_units(top))
    base = _read_base(top, lengths, source)
    rules = _read_rules(top, lengths, base, lengths.units, needed=not source.is_liner_file)
    beds = read_beds(top, lengths, base.liner.thickness)
    beds = base.beds if beds.names == () else beds
    liner, as_cast = base.liner, _AS_DRAWN
    panels: tuple[Panel, ...] | None = ()
    dams = None
    if source.is_liner_file:
        top.refuse("dams", "a liner file holds no stock of dams", "move it to a job file")
        remedy = "move them to a job file of their own"
        top.refuse("panel", "a liner file holds no panels", remedy)
    else:
        dams = read_dams(top, lengths, rules)
        panels = read_panels(top, lengths, liner, beds, Fraction(rules.get("panel_shrink") or 0))
        lying, as_cast = lay_as_cast(top, liner.liner, rules)
        liner = replace(liner, liner=lying)
    thickness, names = base.liner.thickness, base.liner.ornaments
    materials = base.materials | read_materials(top, lengths, thickness, names)
    shop = read_calendar(top, beds.names, panels, allowed=not source.is_liner_file)
    if order_needed and "panel" not in top:
        top.fault("panel", "an order needs at least one [[panel]]")
    top.close()
    drawn = base.liner.liner
    draft = _Draft(
        title, units, liner, rules, beds, panels, (), as_cast, materials, dams, shop, drawn
    )
    job = None if source.is_liner_file or len(mistakes) or base.errors else _make_job(draft)
    if job:
        check_beds(top, job, lengths)
    return replace(draft, errors=(*mistakes.located(), *base.errors))


def _meant_units(top: Table) -> str:
    """Return the units a mistaken word stands for, so that one mistake does not call up others."""
    meant = (top.raw_text("units") or "").lower()
    return "in" if meant.startswith(("in", "f", '"')) else "mm"


def _read_base(top: Table, lengths: LengthReaders, source: _Source) -> _Draft:
    """Return what ``[liner]`` gives: a liner alone, or all that its liner file holds."""
    table = top.table("liner")
    if table is None:
        return _Draft()
    if "file" not in table:
        return _Draft(liner=read_liner(table, lengths))
    name = table.take("file", read_text)
    for key in table.keys:
        if key != "file":
            remedy = "move it to that file, or drop file"
            table.fault(key, "a liner that is read from a file has no other keys", remedy=remedy)
    return _Draft() if name is None else _read_liner_file(table, name, source)


def _read_liner_file(table: Table, name: str, source: _Source) -> _Draft:
    path = source.path.parent / name
    if os.path.realpath(path) in source.chain:
        table.fault("file", "a liner file must not lead back to itself", got=shown(name))
        return _Draft()
    try:
        refuse_drawing(path)
        text = read_text_file(path)
    except InputError as error:
        table.fault("file", error.rule, error.got or shown(name), error.remedy)
        return _Draft()
    try:
        return _read_draft(_Source(path, name, text, source.chain))
    except InputError as error:
        return _Draft(errors=(error,))


def _read_rules(
    top: Table, lengths: LengthReaders, base: _Draft, units: str, *, needed: bool
) -> dict[str, Rule]:
    is_needed = needed and not base.rules
    table = top.table("rules", remedy=_RULES_REMEDY) if is_needed else top.table_or_empty("rules")
    rules = {**base.rules, **(read_rules(table, lengths) if table else {})}
    if needed:
        rules.setdefault("set_out", SET_OUT[units])
        rules.setdefault("other_widths", False)
    if needed and table and not base.errors:
        missing = [(key, "this key is needed") for key in NEEDED_RULES if key not in rules]
        for key, rule in (*missing, *list_missing(rules)):
            table.fault(key, rule)
    return rules


def list_missing(rules: Mapping[str, Rule]) -> list[tuple[str, str]]:
    """Return (key, rule broken) for each rule on temperature that others call for.

    >>> list_missing({"expansion": None, "liner_temperature": None})
    [('measured_temperature', 'this key is needed where liner_temperature and expansion are given')]
    >>> list_missing({})
    []
    """
    given = [key for key in TEMPERATURES if key in rules]
    are = "is" if len(given) == 1 else "are"
    rule = f"this key is needed where {' and '.join(given)} {are} given"
    return [(key, rule) for key in TEMPERATURES if given and key not in rules]


def lay_as_cast(
    table: Table, liner: Liner | None, rules: Mapping[str, Rule]
) -> tuple[Liner | None, AsCast]:
    """Return the liner as it lies now and by what it and the panels are corrected.

    Where that cannot be worked out the liner is None and the mistake is noted at the table.
    """
    given: dict[str, Any] = {key: Fraction(rules[key] or 0) for key in CAST_KEYS if key in rules}
    if liner is None or not given or None in (rules[key] for key in given):
        return liner, AsCast()
    if list_missing(rules):
        return None, AsCast()
    as_cast = replace(AsCast(), **given)
    as_cast = replace(as_cast, drawn=liner if as_cast.factor != 1 else None)
    try:
        return lay_liner(liner, as_cast), as_cast
    except ValueError as error:
        rule = "the liner must keep its shape as it lies now"
        got = f"{error}, at {decimal_text(as_cast.factor, 6)} of its drawing"
        table.fault("liner", rule, got=got, remedy="check shrinkage and temperatures in the rules")
        return None, AsCast()
