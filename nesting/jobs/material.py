"""Reads the tables of a job file that say what panels and liner are made of; all are optional.

Each table is taken whole: that of the job, else that of its liner file, else the defaults of
`nesting.values.material`.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from nesting.errors import shown
from nesting.files.keys import Keys, take_keys
from nesting.files.lengths import LengthReaders
from nesting.files.tomlcheck import Table, whole
from nesting.jobs.shopkeys import (
    batch_keys,
    lifting_keys,
    material_keys,
    mix_keys,
    prices_keys,
    rubber_keys,
    second_keys,
)
from nesting.masses import in_unit
from nesting.unitwords import WORDS
from nesting.values.material import (
    BACKING_MIX,
    FACE_MIX,
    INGREDIENTS,
    Batching,
    Lifting,
    Material,
    Materials,
    Mix,
    Prices,
    RubberData,
    SecondLiner,
    default_materials,
)

TABLES = ("material", "mix", "batch", "rubber", "lifting", "prices")
"""The names of the tables."""

LEAST_MIXER = 100
"""How many divisions of the scale the mixer takes at least, so that a batch can be weighed."""

Parts = dict[str, Any]
"""What the tables give, by the fields of `Materials`; None where a table had a mistake."""


def read_materials(
    top: Table, lengths: LengthReaders, liner_thickness: int | None, names: tuple[str, ...] | None
) -> Parts:
    """Return what the tables of a file give; nothing for a table that is not there.

    ``liner_thickness`` [steps] and the ``names`` of its ornaments are those of the liner, None
    where they are not known.
    """
    parts: Parts = {}
    tables = {name: top.table(name, needed=False) for name in TABLES}
    for name, table in tables.items():
        if table is None:
            if name in top:
                parts[name] = None
        elif name == "mix":
            parts |= _mixes(table, lengths)
        elif name == "rubber":
            parts["rubber"] = _rubber(table, lengths, liner_thickness, names)
        else:
            field = "panel" if name == "material" else name
            parts[field] = _READERS[name](table, lengths)
    return parts


def make_materials(units: str | None, parts: Mapping[str, Any]) -> Materials | None:
    """Return the job's materials, defaults where no table gave them; None after a mistake."""
    if units is None or any(part is None for part in parts.values()):
        return None
    return replace(default_materials(units), **parts)


def _material(table: Table, lengths: LengthReaders) -> Material | None:
    found = take_keys(table, material_keys(lengths))
    thickness, coat = found["thickness"], found["face_coat"]
    if thickness is not None and coat is not None and coat >= thickness:
        key, rule, got = "face_coat", f"must be < {lengths.text(thickness)}, the thickness", coat
        if key not in table:
            rule = f"must be > {lengths.text(coat)}, the face coat's"
            key, got = "thickness", thickness
        table.fault(key, rule, got=lengths.text(got))
    table.close()
    return whole(Material, **found)


def _mixes(table: Table, lengths: LengthReaders) -> Parts:
    """Return the mixes that are given; the two have the same keys and defaults of their own."""
    found: Parts = {}
    for key, usual in (("face", FACE_MIX), ("backing", BACKING_MIX)):
        inner = table.table(key, needed=False)
        if inner is not None:
            found[key] = _mix(inner, mix_keys(lengths, usual))
        elif key in table:
            found[key] = None
    table.close()
    return found


def _mix(table: Table, keys: Keys) -> Mix | None:
    mix = whole(Mix, **take_keys(table, keys))
    _check_water(table, mix)
    table.close()
    return mix


def _check_water(table: Table, mix: Mix | None) -> None:
    """Refuse less water than the dispersion brings with it, for none can be taken out."""
    if mix and mix.water < mix.dispersion_water:
        brought = f"{float(mix.dispersion_water):.4g}"
        rule = f"must be >= {brought} of the cement, the water the dispersion brings"
        remedy = "water is all the water of the mix; give more, or less polymer"
        table.fault("water", rule, f"{float(mix.water):.4g}", remedy)


def _batch(table: Table, lengths: LengthReaders) -> Batching | None:
    remedy = "write it there, where it counts the casts that one liner takes in a day"
    table.refuse("casts_per_day", "this key is in [calendar]", remedy)
    batch = whole(Batching, **take_keys(table, batch_keys(lengths)))
    if batch and batch.mixer < LEAST_MIXER * batch.scale:
        rule = f"must be >= {LEAST_MIXER} divisions of the scale"
        scale, mixer = (_mass_text(part, lengths.units) for part in (batch.scale, batch.mixer))
        table.fault("mixer", rule, mixer, f"the scale's division is {scale}")
    table.close()
    return batch


def _mass_text(kg: Fraction, units: str) -> str:
    return f"{float(in_unit(kg, units)):.6g} {WORDS[units].mass}"


def _rubber(
    table: Table, lengths: LengthReaders, thickness: int | None, names: tuple[str, ...] | None
) -> RubberData | None:
    remedy = "write set_out and reset there"
    table.refuse("set_hours", "how long dams take is in [calendar.times]", remedy)
    rubber = whole(RubberData, **take_keys(table, rubber_keys(lengths)))
    inner = table.table("second", needed=False)
    second = _second(inner, lengths, thickness, names) if inner else None
    table.close()
    if rubber is None or second is None:
        return None if "second" in table else rubber
    return replace(rubber, second=second)


def _second(
    table: Table, lengths: LengthReaders, thickness: int | None, names: tuple[str, ...] | None
) -> SecondLiner | None:
    found = take_keys(table, second_keys(lengths))
    width, height = found.pop("size") or (None, None)
    for name in found["ornaments"] or ():
        if names is not None and name not in names:
            known = f"known: {', '.join(map(shown, names[:8]))}" if names else "there are none"
            table.fault("ornaments", "there is no such ornament", shown(name), known)
    if "thickness" not in table:
        found["thickness"] = thickness or 0
    table.close()
    return whole(SecondLiner, width=width, height=height, **found)


def _lifting(table: Table, lengths: LengthReaders) -> Lifting | None:
    lifting = whole(Lifting, **take_keys(table, lifting_keys(lengths)))
    table.close()
    return lifting


def _prices(table: Table, lengths: LengthReaders) -> Prices | None:
    """Return the prices, per kg and per m: in an inch job they are given per lb and per ft."""
    found = take_keys(table, prices_keys(lengths))
    priced = [(name, found.pop(name)) for name in INGREDIENTS]
    if "liner" in table and "pulls" not in table:
        table.fault("pulls", "this key is needed where liner has a price")
    table.close()
    if any(map(table.is_mistaken, (*table.keys, "pulls"))):
        return None
    ingredients = tuple((name, price) for name, price in priced if price is not None)
    return Prices(ingredients=ingredients, **found)


_READERS: dict[str, Callable[[Table, LengthReaders], Any]] = {
    "material": _material,
    "batch": _batch,
    "lifting": _lifting,
    "prices": _prices,
}
