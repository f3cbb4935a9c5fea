"""The plan for one bed: sizes to places, places to casts, casts to settled panels and dams."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from nesting.maps.ground import Ground
from nesting.maps.sizes import SizedPanel
from nesting.planning.dams import account, place_dams
from nesting.planning.settle import Seat, settle
from nesting.planning.slopes import search_casts, seat_at
from nesting.planning.strips import StripRule
from nesting.search.bays import Setting, share_out
from nesting.search.dam_length import shorten_dams
from nesting.search.instance import Certificate, Instance
from nesting.search.instance import PlaceSet as Bays
from nesting.search.solver import Deadline, Report
from nesting.values.casts import Layout, Placement, Proof

_SHORTEN_S = 5.0


@dataclass(frozen=True)
class BedPlan:
    """The layouts of one bed, numbered from 1, and the proof that fewer casts cannot do.

    ``saving`` is how many casts fewer are known to do with strips of other widths, and the most
    that can be.
    """

    layouts: tuple[Layout, ...]
    proof: Proof
    layouts_bound: int
    layouts_proved: bool
    shortest: bool
    stopped_early: bool
    saving: tuple[int, int] = (0, 0)


def plan_bed(
    ground: Ground,
    bed: str,
    sizes: Sequence[SizedPanel],
    rule: StripRule,
    deadline: Deadline,
    report: Report,
) -> BedPlan:
    """Return the plan of all panels that go on one bed."""
    found = search_casts(ground, sizes, rule, deadline, report)
    instance, answer, certificate = found.instance, found.answer, found.certificate.reduced()
    settings = share_out(instance, answer.layouts)
    layouts, shortest = _lay_out(ground, rule, bed, sizes, instance, settings, deadline)
    proof = Proof(
        bed,
        certificate.bound,
        sum(layout.repeats for layout in layouts),
        tuple((size.panel.mark, p) for size, p in zip(sizes, certificate.prices, strict=True)),
        certificate.demand,
        certificate.heaviest,
        certificate.points,
        _method(certificate),
        certificate.enumerated,
    )
    fewest = len(settings)
    closed = certificate.bound == proof.casts
    proved = closed and answer.layouts_bound >= fewest
    return BedPlan(
        layouts,
        proof,
        min(answer.layouts_bound, fewest),
        proved,
        shortest,
        answer.stopped_early,
        found.saving,
    )


def _method(certificate: Certificate) -> str:
    if certificate.enumerated:
        return f"all {certificate.enumerated} layouts heavy enough to matter, listed and tried"
    return "weights on spots of the liner" if certificate.points else "the heaviest layout, solved"


def _lay_out(
    ground: Ground,
    rule: StripRule,
    bed: str,
    sizes: Sequence[SizedPanel],
    instance: Instance,
    settings: tuple[Setting, ...],
    deadline: Deadline,
) -> tuple[tuple[Layout, ...], bool]:
    """Return the layouts, and whether each is proved to have the shortest dams for its panels."""
    layouts: list[Layout] = []
    shortest = True
    for setting in sorted(settings, key=lambda setting: (-setting.repeats, setting.bays)):
        bays = _shorten(ground, sizes, instance, setting.bays, deadline)
        shortest &= len(bays) == 1 and _is_shortest(_seat(ground, sizes, instance, bays[0]))
        settled = _settle(ground, rule, sizes, instance, setting.bays, bays)
        base = len(layouts) + 1
        dams = place_dams(ground.liner, rule, list(settled.values()))
        for variant in setting.variants:
            spots = sorted((settled[bay] for bay in variant.bays), key=lambda p: (p.y, p.x))
            number = len(layouts) + 1
            layouts.append(
                Layout(
                    number,
                    variant.repeats,
                    bed,
                    tuple(spots),
                    dams,
                    account(ground.liner, spots, dams),
                    None if number == base else base,
                )
            )
    return tuple(layouts), shortest


def _shorten(
    ground: Ground, sizes: Sequence[SizedPanel], instance: Instance, bays: Bays, deadline: Deadline
) -> Bays:
    if deadline.passed or len(bays) < 2:
        return bays
    lengths = {
        int(place): _own_length(_seat(ground, sizes, instance, int(place)).placement)
        for place in np.flatnonzero(np.isin(instance.owner, instance.owner[list(bays)]))
    }
    return shorten_dams(
        instance, bays, lengths, ground.rules.dam_width, deadline.within(_SHORTEN_S)
    )


def _own_length(spot: Placement) -> int:
    """Return how much of a panel's sides needs a dam [steps]."""
    left, right, bottom, top = spot.sides.widths(1)
    return (left + right) * spot.height + (bottom + top) * spot.width


def _is_shortest(seat: Seat) -> bool:
    """Whether no place of the panel, alone on the liner, needs less dam."""
    spot = seat.placement
    others = (replace(spot, sides=sheet.sides) for sheet in seat.map.sheets)
    return _own_length(spot) <= min(map(_own_length, others))


def _settle(
    ground: Ground,
    rule: StripRule,
    sizes: Sequence[SizedPanel],
    instance: Instance,
    old: Bays,
    new: Bays,
) -> dict[int, Placement]:
    """Return per old bay where its panel comes to rest when the new bays are used instead."""
    seats = [_seat(ground, sizes, instance, bay) for bay in new]
    spots = [replace(spot, shows=shows(ground, spot)) for spot in settle(ground, seats, rule)]

    def of_item(bays: Bays) -> list[int]:
        return sorted(range(len(bays)), key=lambda k: (int(instance.owner[bays[k]]), bays[k]))

    return {old[a]: spots[b] for a, b in zip(of_item(old), of_item(new), strict=True)}


def _seat(ground: Ground, sizes: Sequence[SizedPanel], instance: Instance, bay: int) -> Seat:
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
