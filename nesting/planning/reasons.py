"""Why a panel has no place on the liner, and what would mend it, in the shop's terms."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from nesting.maps.ground import Ground
from nesting.maps.positions import NO_WISH, Wish, has_place
from nesting.maps.sizehunt import Hunts, hunt_width
from nesting.maps.sizes import wish_of
from nesting.shapes.convex import Pieces
from nesting.tape import Tape
from nesting.values.bed import AXES
from nesting.values.bend import Bend
from nesting.values.job import Units
from nesting.values.panels import Panel, Size

_MOST_NAMED = 6


def explain(hunts: Hunts, panel: Panel, bend: Bend, units: Units) -> str:
    """Return one line: the panel, why it has no place, and the nearest sizes that have one.

    ``hunts`` are those of the ground.
    """
    ground = hunts.ground

    tape = Tape(units, ground.rules.set_out)
    text, size = tape.stated_words, (panel.width, panel.height)
    ordered = tape.stated_size(size, panel.in_feet, words=True)
    lead = f"Panel {panel.mark!r} ({ordered}, bed {bend.bed.name!r}) has no place on the liner"
    reason = _reason(ground, bend.flat_size(panel), wish_of(ground, panel), text)
    return f"{lead}: {reason}. {_remedy(hunts, panel, bend, text)}"


def _reason(ground: Ground, size: Size, wish: Wish, text: Callable[[int], str]) -> str:
    frame = ground.frame
    for extent, room, word in (
        (size[0], frame.width, "width"),
        (size[1], frame.height, "height"),
    ):
        if extent > room:
            return f"its flat {word} of {text(extent)} is more than the liner's {text(room)}"
    if wish != NO_WISH and has_place(ground, *size):
        return f"places exist, but none that {_wish_text(ground, wish)}"
    culprits = [
        ornament.name
        for index, ornament in enumerate(ground.liner.ornaments[:200])
        if has_place(replace(ground, ornaments=_but(ground.ornaments, index)), *size)
    ]
    if culprits:
        return f"every place cuts or crowds an ornament; without {_names(culprits)} there is one"
    if has_place(replace(ground, ornaments=()), *size):
        return "every place cuts or crowds some ornament"
    kept = [
        each.name
        for index, each in enumerate(ground.liner.keep_clear)
        if has_place(replace(ground, keep_clear=_but(ground.keep_clear, index)), *size)
    ]
    if kept:
        return f"every place brings a dam too near to {_names(kept)}, which dams keep off"
    if ground.keep_clear and has_place(replace(ground, keep_clear=()), *size):
        return "every place brings a dam too near to some place that dams keep off"
    if ground.liner.unmarked == "blank":
        return "with the dams it needs it is too large for the liner"
    apart = "no blank zones lie so far apart that its dams find plain ground on every side"
    return apart + _narrow_zones(ground, text)


def _narrow_zones(ground: Ground, text: Callable[[int], str]) -> str:
    """Name the blank zones that are narrower than a dam, as they are when a liner has shrunk."""
    dam = ground.rules.dam_width
    boxes = [(zone.name, zone.outline.bounds) for zone in ground.liner.zones]
    widths = [(name, min(box.width, box.height)) for name, box in boxes]
    narrow = [f"{name!r} ({text(width)})" for name, width in widths if width < dam]
    if not narrow:
        return ""
    more = f" and {len(narrow) - _MOST_NAMED} more" if len(narrow) > _MOST_NAMED else ""
    named = ", ".join(narrow[:_MOST_NAMED]) + more
    return f"; too narrow for a dam of {text(dam)}, as the liner lies now: {named}"


def _but(parts: tuple[Pieces, ...], index: int) -> tuple[Pieces, ...]:
    return parts[:index] + parts[index + 1 :]


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


def _remedy(hunts: Hunts, panel: Panel, bend: Bend, text: Callable[[int], str]) -> str:
    """Return the sizes nearby that have a place, in the terms of the order."""
    ground = hunts.ground
    flat, wish = bend.flat_size(panel), wish_of(ground, panel)
    found = list(_nearest(hunts, flat, wish))

    def written(axis: int, extent: int) -> int | None:
        """Return a size with a place that can be written to 0.001 mm, near a flat one."""
        size = bend.ordered_side(panel, AXES[axis], extent)
        for near in (size, size // 8 * 8, -(-size // 8) * 8):
            sides = (near, panel.height) if axis == 0 else (panel.width, near)
            other = replace(panel, width=sides[0], height=sides[1])
            if near % 8 == 0 and has_place(ground, *bend.flat_size(other), wish):
                return near
        return None

    ordered = [(axis, written(axis, extent)) for axis, extent in found]
    offers = [f"{('width', 'height')[axis]} {text(size)}" for axis, size in ordered if size]
    if offers:
        return f"Nearest that fit, the other side as ordered: {', '.join(offers)}."
    turned = replace(panel, width=panel.height, height=panel.width)
    if has_place(ground, *bend.flat_size(turned), wish):
        return (
            "With width and height exchanged it would have a place: the width is the side along x."
        )
    if flat[0] > ground.frame.width or flat[1] > ground.frame.height:
        return "No size with a place is within a quarter of a side; order it smaller, or in parts."
    return (
        "No size with a place was found by changing one side alone by up to a quarter; widen or "
        "add blank zones along its sides."
    )


def _nearest(hunts: Hunts, size: Size, wish: Wish) -> Iterator[tuple[int, int]]:
    """Yield (axis, extent) of the nearest smaller and larger size along each axis that fits.

    Leaves out what is more than a quarter of the size away: that is another panel.
    """
    width, height = size
    for axis, ready, asked in (
        (0, hunts.across(wish), (width, height)),
        (1, hunts.up(wish), (height, width)),
    ):
        for sign in (-1, 1):
            extent = hunt_width(ready, asked, sign).extent
            if extent and 4 * abs(extent - asked[0]) <= asked[0]:
                yield axis, extent
