"""The plan for one bed: sizes to places, places to casts, casts to settled panels and dams."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from nesting.areas import account
from nesting.casts import Layout, Placement, Proof
from nesting.dams import place_dams
from nesting.ground import Ground
from nesting.search.bays import Setting, share_out
from nesting.search.instance import Instance
from nesting.search.solver import Deadline, Report
from nesting.settle import Seat, settle
from nesting.sizes import Size
from nesting.slopes import search_casts, seat_at

@dataclass(frozen=True)
class BedPlan:
    """The layouts of one bed, numbered from 1, and the proof that fewer casts cannot do."""

    layouts: tuple[Layout, ...]
    proof: Proof
    layouts_bound: int
    layouts_proved: bool
    stopped_early: bool


def plan_bed(
    ground: Ground, bed: str, sizes: Sequence[Size], deadline: Deadline, report: Report
) -> BedPlan:
    """Return the plan of all panels that go on one bed."""
    instance, answer, certificate = search_casts(ground, sizes, deadline, report)
    settings = share_out(instance, answer.layouts)
    layouts = _lay_out(ground, bed, sizes, instance, settings)
    proof = Proof(
        bed,
        certificate.bound,
        sum(layout.repeats for layout in layouts),
        tuple((size.panel.mark, p) for size, p in zip(sizes, certificate.prices, strict=True)),
        certificate.demand,
        certificate.heaviest,
        certificate.points,
        "weights on points of the liner" if certificate.points else "heaviest layout",
    )
    fewest = len(settings)
    layouts_bound = answer.layouts_bound if ground.is_stepped else 1
    proved = answer.proved and layouts_bound >= fewest
    return BedPlan(layouts, proof, min(layouts_bound, fewest), proved, answer.stopped_early)


def _lay_out(
    ground: Ground,
    bed: str,
    sizes: Sequence[Size],
    instance: Instance,
    settings: tuple[Setting, ...],
) -> tuple[Layout, ...]:
    layouts: list[Layout] = []
    ordered = sorted(settings, key=lambda setting: (-setting.repeats, setting.bays))
    for setting in ordered:
        seats = [_seat(ground, sizes, instance, bay) for bay in setting.bays]
        settled = dict(zip(setting.bays, settle(ground, seats), strict=True))
        base = len(layouts) + 1
        dams = place_dams(ground.liner, ground.rules, list(settled.values()))
        for variant in setting.variants:
            spots = sorted((settled[bay] for bay in variant.bays), key=lambda p: (p.y, p.x))
            shown = tuple(replace(spot, shows=shows(ground, spot)) for spot in spots)
            number = len(layouts) + 1
            layouts.append(
                Layout(
                    number,
                    variant.repeats,
                    bed,
                    shown,
                    dams,
                    account(ground.liner, shown, dams),
                    None if number == base else base,
                )
            )
    return tuple(layouts)


def _seat(ground: Ground, sizes: Sequence[Size], instance: Instance, bay: int) -> Seat:
    size = sizes[int(instance.owner[bay])]
    x, y = (int(value) for value in instance.boxes[bay, :2])
    sheet = size.map.sheet_at(x, y)
    if sheet is None:
        raise RuntimeError(f"place ({x}, {y}) of panel {size.panel.mark!r} is not on its map")
    return seat_at(size, x, y, sheet.sides)


def shows(ground: Ground, spot: Placement) -> tuple[str, ...]:
    """Return the ornaments inside a panel that cuts none, in the liner's order."""
    return tuple(
        ornament.name
        for ornament in ground.liner.ornaments
        if spot.box.contains(ornament.outline.bounds)
    )
