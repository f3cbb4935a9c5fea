"""Reads the tables of a job file that say what panels and liner are made of; all are optional.

Each table is taken whole: that of the job, else that of its liner file, else the defaults of
`nesting.values.material`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from nesting.errors import InputError, shown
from nesting.files.readers import LengthReaders, Reader, read_name, read_names, read_whole
from nesting.files.tomlcheck import Table, whole
from nesting.masses import (
    KG_PER_LB,
    in_unit,
    parse_density,
    parse_mass,
    parse_number,
    parse_share,
)
from nesting.unitwords import WORDS
from nesting.values.material import (
    BACKING_MIX,
    FACE_MIX,
    INGREDIENTS,
    LIFTING,
    RUBBER,
    Batching,
    Lifting,
    Material,
    Materials,
    Mix,
    Prices,
    RubberData,
    SecondLiner,
    default_batching,
    default_material,
    default_materials,
)

TABLES = ("material", "mix", "batch", "rubber", "lifting", "prices")
"""The names of the tables."""

LEAST_MIXER = 100
"""How many divisions of the scale the mixer takes at least, so that a batch can be weighed."""

_MOST_PRICE = 10**9
_FEWEST_SOLIDS = Fraction(1, 10)
_CEMENT = "the cement"
_NO_NAMES: tuple[str, ...] = ()
Parts = dict[str, Any]
"""What the tables give, by the fields of `Materials`; None where a table had a mistake."""


def read_share(
    what: str, most: int, *, least: Fraction = Fraction(0), below: bool = False
) -> Reader[Fraction]:
    """Return a reader of a share of ``what`` from ``least`` to ``most``, or ``below`` it."""

    def read(value: object) -> Fraction:
        share = parse_share(value, what)
        if not least <= share <= most or (below and share == most):
            end = f"and < {most}" if below else f"and <= {most}"
            rule = f"must be >= {float(least):g} {end}, as a share of {what}"
            remedy = 'write five parts in a hundred as 0.05 or "5 %"' if share >= 1 else ""
            raise InputError("", rule, shown(value), remedy)
        return share

    return read


read_fill = read_share("the relief", 1)
"""A reader of an ornament's mean relief as a share of its relief."""


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
            parts |= _mixes(table, lengths.units)
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
    usual = default_material(lengths.units)
    thickness = table.take("thickness", lengths.positive, usual.thickness)
    coat = table.take("face_coat", lengths.not_negative, usual.face_coat)
    least = table.take("least_thickness", lengths.not_negative, usual.least_thickness)
    if thickness is not None and coat is not None and coat >= thickness:
        key, rule, got = "face_coat", f"must be < {lengths.text(thickness)}, the thickness", coat
        if key not in table:
            rule = f"must be > {lengths.text(coat)}, the face coat's"
            key, got = "thickness", thickness
        table.fault(key, rule, got=lengths.text(got))
    table.close()
    return whole(Material, thickness=thickness, face_coat=coat, least_thickness=least)


def _mixes(table: Table, units: str) -> Parts:
    """Return the mixes that are given; the two have the same keys and defaults of their own."""
    found: Parts = {}
    for key, usual in (("face", FACE_MIX), ("backing", BACKING_MIX)):
        inner = table.table(key, needed=False)
        if inner is not None:
            found[key] = _mix(inner, usual, units)
        elif key in table:
            found[key] = None
    table.close()
    return found


def _mix(table: Table, usual: Mix, units: str) -> Mix | None:
    def density(value: object) -> Fraction:
        return parse_density(value, units)

    solids = read_share("the dispersion", 1, least=_FEWEST_SOLIDS)
    mix = whole(
        Mix,
        sand=table.take("sand", read_share(_CEMENT, 10), usual.sand),
        water=table.take("water", read_share(_CEMENT, 2), usual.water),
        polymer=table.take("polymer", read_share(_CEMENT, 1), usual.polymer),
        dispersion_solids=table.take("dispersion_solids", solids, usual.dispersion_solids),
        plasticiser=table.take("plasticiser", read_share(_CEMENT, 1), usual.plasticiser),
        pigment=table.take("pigment", read_share(_CEMENT, 1), usual.pigment),
        fibre=table.take("fibre", read_share("the whole", 1, below=True), usual.fibre),
        wet_density=table.take("wet_density", density, usual.wet_density),
        cured_density=table.take("cured_density", density, usual.cured_density),
    )
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
    usual = default_batching(lengths.units)

    def mass(value: object) -> Fraction:
        return parse_mass(value, lengths.units)

    in_panels = "the mix in the panels"
    remedy = "write it there, where it counts the casts that one liner takes in a day"
    table.refuse("casts_per_day", "this key is in [calendar]", remedy)
    batch = whole(
        Batching,
        overspray=table.take("overspray", read_share(in_panels, 2), usual.overspray),
        loss=table.take("loss", read_share(in_panels, 2), usual.loss),
        mixer=table.take("mixer", mass, usual.mixer),
        scale=table.take("scale", mass, usual.scale),
    )
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
    def density(value: object) -> Fraction:
        return parse_density(value, lengths.units)

    remedy = "write set_out and reset there"
    table.refuse("set_hours", "how long dams take is in [calendar.times]", remedy)
    rubber = whole(
        RubberData,
        density=table.take("density", density, RUBBER.density),
        model_days=table.take("model_days", read_whole(0, 1000), RUBBER.model_days),
        making_hours=table.take("making_hours", _read_hours, RUBBER.making_hours),
        demould_hours=table.take("demould_hours", _read_hours, RUBBER.demould_hours),
    )
    inner = table.table("second", needed=False)
    second = _second(inner, lengths, thickness, names) if inner else None
    table.close()
    if rubber is None or second is None:
        return None if "second" in table else rubber
    return replace(rubber, second=second)


def _second(
    table: Table, lengths: LengthReaders, thickness: int | None, names: tuple[str, ...] | None
) -> SecondLiner | None:
    size = table.take("size", lengths.size)
    width, height = size or (None, None)
    ornaments = table.take("ornaments", read_names, _NO_NAMES)
    for name in ornaments or ():
        if names is not None and name not in names:
            known = f"known: {', '.join(map(shown, names[:8]))}" if names else "there are none"
            table.fault("ornaments", "there is no such ornament", shown(name), known)
    second = whole(
        SecondLiner,
        width=width,
        height=height,
        thickness=table.take("thickness", lengths.positive, thickness or 0),
        ornaments=ornaments,
    )
    table.close()
    return second


def _lifting(table: Table, lengths: LengthReaders) -> Lifting | None:
    def mass(value: object) -> Fraction:
        return parse_mass(value, lengths.units)

    lifting = whole(
        Lifting,
        points=table.take("points", read_whole(1, 100), LIFTING.points),
        hand_limit=table.take("hand_limit", mass, LIFTING.hand_limit),
    )
    table.close()
    return lifting


def _prices(table: Table, lengths: LengthReaders) -> Prices | None:
    """Return the prices, per kg and per m: in an inch job they are given per lb and per ft."""
    metric = lengths.units == "mm"
    by_mass = _price(Fraction(1) if metric else KG_PER_LB)
    by_length = _price(Fraction(1) if metric else Fraction("0.3048"))
    priced = [(name, table.take(name, by_mass, None)) for name in INGREDIENTS]
    prices = Prices(
        currency=table.take("currency", read_name, "") or "",
        ingredients=tuple((name, price) for name, price in priced if price is not None),
        rubber=table.take("rubber", by_mass, None),
        dam=table.take("dam", by_length, None),
        liner=table.take("liner", _price(Fraction(1)), None),
        pulls=table.take("pulls", read_whole(1, 1_000_000), None),
    )
    if "liner" in table and "pulls" not in table:
        table.fault("pulls", "this key is needed where liner has a price")
    table.close()
    return None if any(map(table.is_mistaken, (*table.keys, "pulls"))) else prices


def _price(unit: Fraction) -> Reader[Fraction]:
    def read(value: object) -> Fraction:
        price = parse_number(value)
        if not 0 <= price <= _MOST_PRICE:
            raise InputError("", f"must be a price from 0 to {_MOST_PRICE}", shown(value))
        return price / unit

    return read


def _read_hours(value: object) -> Fraction:
    hours = parse_number(value)
    if not 0 <= hours <= 10_000:
        raise InputError("", "must be a number of hours from 0 to 10000", shown(value))
    return hours


_READERS: dict[str, Callable[[Table, LengthReaders], Any]] = {
    "material": _material,
    "batch": _batch,
    "lifting": _lifting,
    "prices": _prices,
}
