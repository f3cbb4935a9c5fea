"""Exactly the order and no more: bays that would yield panels too many are left out or masked."""

from dataclasses import dataclass
from itertools import pairwise

from nesting.search.instance import Instance, PlaceSet


@dataclass(frozen=True)
class Variant:
    """So many casts of a layout with only these of its bays sprayed."""

    repeats: int
    bays: PlaceSet


@dataclass(frozen=True)
class Setting:
    """One setting of the dams: its bays, and the casts made of it, those with most bays first."""

    bays: PlaceSet
    variants: tuple[Variant, ...]

    @property
    def repeats(self) -> int:
        """All casts of this setting."""
        return sum(variant.repeats for variant in self.variants)


def share_out(instance: Instance, layouts: tuple[tuple[int, PlaceSet], ...]) -> tuple[Setting, ...]:
    """Return the layouts with surplus bays taken out, so that the yield is the demand exactly.

    A bay not needed in any cast of its layout is left out for good; else it is masked in as few
    casts as needed. Layouts left without a bay are dropped.
    """
    bays = [list(layout) for _, layout in layouts]
    repeats = [times for times, _ in layouts]
    masked: list[dict[int, int]] = [{} for _ in layouts]
    for item, wanted in enumerate(instance.demand):
        mine = [
            (times, slot, bay)
            for slot, (times, layout) in enumerate(layouts)
            for bay in layout
            if instance.owner[bay] == item
        ]
        surplus = sum(times for times, *_ in mine) - wanted
        for times, slot, bay in sorted(mine, reverse=True):
            if surplus >= times:
                bays[slot].remove(bay)
                surplus -= times
        if surplus > 0:
            left = [entry for entry in mine if entry[2] in bays[entry[1]]]
            _, slot, bay = max(left, key=lambda e: (surplus in masked[e[1]].values(), *e))
            masked[slot][bay] = surplus
    return tuple(
        Setting(tuple(kept), _variants(times, kept, masks))
        for kept, times, masks in zip(bays, repeats, masked, strict=True)
        if kept
    )


def _variants(times: int, bays: list[int], masks: dict[int, int]) -> tuple[Variant, ...]:
    """Mask each bay in the last casts, so that the sets of sprayed bays only shrink."""
    levels = sorted({0, times, *masks.values()}, reverse=True)
    found = []
    for high, low in pairwise(levels):
        sprayed = tuple(bay for bay in bays if masks.get(bay, 0) <= low)
        if sprayed:
            found.append(Variant(high - low, sprayed))
    return tuple(found)
