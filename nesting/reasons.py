"""Why a panel has no place on the liner, and what would mend it, in the shop's terms."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from nesting.bed import Bed
from nesting.beds import flat_size, ordered_length
from nesting.ground import Ground
from nesting.job import Units
from nesting.panels import Panel
from nesting.positions import NO_WISH, Wish, has_place
from nesting.sizes import critical_heights, critical_widths, wish_of
from nesting.units import length_text

Size = tuple[int, int]
_MOST_TRIED = 40


def explain(ground: Ground, panel: Panel, bed: Bed, units: Units) -> str:
    """Return one line: the panel, why no place is found, and the nearest sizes that have one."""

    def text(steps: int) -> str:
        return length_text(steps, units, ground.rules.set_out)

    flat = flat_size(panel, bed, ground.liner.thickness)
    ordered = f"{text(panel.width)} x {text(panel.height)}"
    lead = f"Panel {panel.mark!r} ({ordered}, bed {bed.name!r}) has no place on the liner"
    return f"{lead}: {_reason(ground, flat, wish_of(ground, panel), text)}. " + _remedy(
        ground, panel, bed, flat, text
    )


def _reason(ground: Ground, size: Size, wish: Wish, text: Callable[[int], str]) -> str:
    frame = ground.frame
    for extent, room, word in (
        (size[0], frame.width, "width"),
        (size[1], frame.height, "height"),
    ):
        if extent > room:
            return f"its flat {word} of {text(extent)} is more than the liner's {text(room)}"
    if wish != NO_WISH and _has_place(ground, size):
        return f"places exist, but none that {_wish_text(ground, wish)}"
    culprits = [
        ornament.name
        for index, ornament in enumerate(ground.liner.ornaments[:200])
        if _has_place(_without(ground, index), size)
    ]
    if culprits:
        return f"every place cuts or crowds an ornament; without {_names(culprits)} there is one"
    if _has_place(replace(ground, ornaments=()), size):
        return "every place cuts or crowds some ornament"
    if ground.liner.unmarked == "blank":
        return "with the dams it needs it is too large for the liner"
    return "no blank zones lie so far apart that its dams find plain ground on every side"


def _without(ground: Ground, index: int) -> Ground:
    rest = ground.ornaments[:index] + ground.ornaments[index + 1 :]
    return replace(ground, ornaments=rest)


def _has_place(ground: Ground, size: Size, wish: Wish = NO_WISH) -> bool:
    return has_place(ground, *size, wish)


def _names(names: list[str]) -> str:
    quoted = [repr(name) for name in names]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"


def _wish_text(ground: Ground, wish: Wish) -> str:
    names = [ornament.name for ornament in ground.liner.ornaments]
    show = [repr(names[index]) for index in sorted(wish.show)]
    hide = [repr(names[index]) for index in sorted(wish.hide)]
    parts = [f"shows {' and '.join(show)}"] * bool(show)
    parts += [f"leaves out {' and '.join(hide)}"] * bool(hide)
    return " and ".join(parts)


def _remedy(ground: Ground, panel: Panel, bed: Bed, flat: Size, text: Callable[[int], str]) -> str:
    wish = wish_of(ground, panel)
    found = [
        *_nearest(ground, flat, wish, axis=0),
        *_nearest(ground, flat, wish, axis=1),
    ]
    thickness = ground.liner.thickness
    curved = {"x": 0, "y": 1}[bed.curved_axis] if bed.form != "flat" else None

    def as_ordered(axis: int, extent: int) -> int | None:
        """Return a size with a place that can be written to 0.001 mm, near a flat one."""
        size = extent
        if axis == curved:
            size = ordered_length(extent, bed, thickness, panel.measured_on, panel.thickness)
        for written in (size, size // 8 * 8, -(-size // 8) * 8):
            sides = (written, panel.height) if axis == 0 else (panel.width, written)
            other = replace(panel, width=sides[0], height=sides[1])
            if written % 8 == 0 and _has_place(ground, flat_size(other, bed, thickness), wish):
                return written
        return None

    ordered = [(axis, as_ordered(axis, extent)) for axis, extent in found]
    offers = [f"{('width', 'height')[axis]} {text(size)}" for axis, size in ordered if size]
    if offers:
        return f"Nearest that fit, the other side as ordered: {', '.join(offers)}."
    return "Changing one side alone does not help; widen or add blank zones along its sides."


def _nearest(ground: Ground, size: Size, wish: Wish, axis: int) -> Iterator[tuple[int, int]]:
    """Yield (axis, extent) of the nearest smaller, then larger size along one axis that fits.

    Looks no further than a quarter of the size away: further off is another panel.
    """
    room = (ground.frame.width, ground.frame.height)[axis]
    least, most = size[axis] * 3 // 4, min(room, size[axis] * 5 // 4)
    critical = (critical_widths, critical_heights)[axis](ground, least, most)
    smaller = [int(e) for e in critical[critical < size[axis]][::-1]]
    larger = [int(e) for e in critical[critical > size[axis]]]
    for extents in (smaller, larger):
        for extent in extents[:_MOST_TRIED]:
            tried = (extent, size[1]) if axis == 0 else (size[0], extent)
            if _has_place(ground, tried, wish):
                yield axis, extent
                break
