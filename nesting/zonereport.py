"""The strips of a motif as text and as JSON: how wide, what for, with what room, at what price."""

from __future__ import annotations

import json
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from nesting.motif import Motif
from nesting.setout import write_length, write_size
from nesting.tables import INDENT, wrap_text, write_table
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, length_text, to_mm
from nesting.zoneplaces import Place
from nesting.zonetrade import Offer, Trade, least_casts
from nesting.zoneuses import Use

_IN_WORDS = {"mm": "millimetres", "in": "inches"}
_AREAS = {"mm": ("m2", (1000 * STEPS_PER_MM) ** 2), "in": ("ft2", (12 * STEPS_PER_INCH) ** 2)}
CAUTION = (
    "Carving and grinding rubber and concrete make dust: see the README's cautions. Local codes "
    "and licensed practice rule: this answer certifies no panel, lift or structure."
)


def report_zones(trade: Trade, uses: Sequence[Use]) -> str:
    """Return the whole report, without a final newline; every line is plain text."""
    motif = trade.best.zoning.motif
    sections = [
        _wrap(write_answer(trade)),
        _list_strips(motif, uses),
        _list_places(motif, trade.best.zoning.places),
        _list_rooms(motif, trade.best.zoning.places),
        _list_reasons(trade),
        _list_trade(trade),
        _wrap(CAUTION),
    ]
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def write_answer(trade: Trade) -> str:
    """Return the answer in one sentence."""
    zoning, schedule = trade.best.zoning, trade.best.schedule
    motif = zoning.motif
    strips = "1 strip" if zoning.strips_used == 1 else f"{zoning.strips_used} strips"
    share = 100 * zoning.added / motif.frame.area
    verdict = "PROVED" if schedule.proved else "NOT PROVED"
    boxes = "" if zoning.is_exact else " for ornaments taken as boxes"
    return (
        f"{motif.job.title}: liner {write_size(*zoning.size, motif.job.units)} {motif.job.units}, "
        f"{area_text(motif, zoning.added)} more than drawn ({share:.1f} %), in {strips}; least "
        f"area PROVED{boxes}, fewest strips for it PROVED; the order takes {schedule.casts} casts "
        f"on it (fewest for this liner {verdict})."
    )


def area_text(motif: Motif, area: int) -> str:
    """Return an area [square steps] in m2 or ft2."""
    name, scale = _AREAS[motif.job.units]
    return f"{area / scale:.4f} {name}"


def price_of(motif: Motif, area: int) -> Fraction | None:
    """Return what rubber of that area [square steps] costs, None where no price is given."""
    return None if motif.price is None else motif.price * area / _AREAS[motif.job.units][1]


def tell_use(motif: Motif, use: Use) -> str:
    """Return what a strip is and what it is for, as one line."""
    units = motif.job.units
    low, high = write_length(use.low, units), write_length(use.high, units)
    added = length_text(use.added, units, motif.job.rules.set_out)
    what = f"strip {use.name} at {use.axis} {low} to {high}, {added}"
    if use.widens:
        what += f" added to the drawn zone {use.widens}"
    if use.gives:
        return f"{what}: gives {_and(use.gives)}"
    reason = f", as wide as {use.as_wide_as}" if use.as_wide_as else ""
    held = f"; dams of {_and(use.holds)} lie in it" if use.holds else ""
    return f"{what}{reason}: no size is lost without it alone{held}"


def _and(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _list_strips(motif: Motif, uses: Sequence[Use]) -> list[str]:
    unit = _IN_WORDS[motif.job.units]
    head = f"Plain strips, in {unit} from the datum corner of the new liner:"
    lines = [line for use in uses for line in _wrap(tell_use(motif, use), INDENT)]
    idle = [s.name for s in motif.strips if s.name not in [use.name for use in uses]]
    if idle:
        lines += _wrap(f"not needed: {', '.join(idle)}", INDENT)
    return [head, *(lines or [f"{INDENT}none is needed"])]


def _list_places(motif: Motif, places: Sequence[Place]) -> list[str]:
    units = motif.job.units
    head = ["panel", "bed", "left", "right", "bottom", "top", "flat size", "on the rim"]
    rows = []
    for place in places:
        box = place.box
        faces = [write_length(at, units) for at in (box.x0, box.x1, box.y0, box.y1)]
        rim = [
            name
            for name, side in zip(("left", "right", "bottom", "top"), place.sides, strict=True)
            if side == "edge"
        ]
        bed = motif.job.panel(place.mark).bed
        size = write_size(box.width, box.height, units)
        rows.append([place.mark, bed, *faces, size, ", ".join(rim) or "-"])
    title = f"A place for every size, checked on the exact position maps, in {_IN_WORDS[units]}:"
    return [title, *write_table(head, rows, left=("panel", "bed", "on the rim"))]


def _list_rooms(motif: Motif, places: Sequence[Place]) -> list[str]:
    units = motif.job.units
    rows = []
    for place in places:
        for room in place.rooms:
            inward = "any" if room.inward is None else write_length(room.inward, units)
            face = write_length(room.face, units)
            rows.append([place.mark, room.side, face, write_length(room.outward, units), inward])
    if not rows:
        return []
    asked = length_text(motif.lay_tolerance, units, motif.job.rules.set_out)
    title = (
        "How far each dam may be off, out of the panel and into it, before it leaves plain ground "
        f"or crowds an ornament and its size is lost (asked for: {asked}):"
    )
    head = ["panel", "dam", "at", "outward", "inward"]
    return [*_wrap(title), *write_table(head, rows, left=("panel", "dam"))]


def _list_reasons(trade: Trade) -> list[str]:
    zoning = trade.best.zoning
    motif, units = zoning.motif, zoning.motif.job.units
    sizes = ", ".join(write_size(*size, units) for size in zoning.frontier)
    grid = length_text(zoning.grid, units, motif.job.rules.set_out)
    lines = _wrap(
        f"Why no less: in whole multiples of {grid}, the liners that nothing beats in both width "
        f"and height begin with {sizes}; any other that could be of less area was ruled "
        f"out by whole-number programs solved to the end. "
        f"The least area is {area_text(motif, zoning.area)}."
    )
    if zoning.grid == motif.job.rules.set_out:
        lines += _wrap("Strips are whole set-out divisions wide.")
    else:
        lines += _wrap(
            "No answer exists on whole set-out divisions, so the strips are on a finer grid."
        )
    if not zoning.is_exact:
        lines += _wrap(
            "Ornaments were taken as their bounding boxes, so the proof holds for those."
        )
    return lines


def _list_trade(trade: Trade) -> list[str]:
    motif = trade.best.zoning.motif
    unit, scale = _AREAS[motif.job.units]
    head = ["liner", f"area, {unit}", f"added, {unit}", "strips", "casts", "at least", "together"]
    head[3:3] = ["rubber"] if motif.price is not None else []
    rows = [_trade_row(motif, offer, scale) for offer in trade.offers]
    title = (
        "What more rubber buys (casts of each liner's own plan, checked; 'at least' is what no "
        "liner of that area stays below, by area alone; 'together' names sizes made to fit "
        "into one cast):"
    )
    liners = "1 liner was" if trade.tried == 1 else f"{trade.tried} liners were"
    note = (
        f"{liners} looked at, with {trade.pairs} of {trade.all_pairs} pairs of sizes on one bed; "
        "none beats these in both. That no other liner does is not proved."
    )
    return [*_wrap(title), *write_table(head, rows, left=("together",)), *_wrap(note, INDENT)]


def _trade_row(motif: Motif, offer: Offer, scale: int) -> list[str]:
    zoning = offer.zoning
    price = price_of(motif, zoning.area)
    cost = [] if price is None else [f"{float(price):.2f}"]
    pairs = ["2 x " + a if a == b else f"{a} + {b}" for a, b in zoning.together]
    return [
        write_size(*zoning.size, motif.job.units),
        f"{zoning.area / scale:.4f}",
        f"{zoning.added / scale:.4f}",
        *cost,
        str(zoning.strips_used),
        str(offer.schedule.casts),
        str(least_casts(motif, zoning.area)),
        ", ".join(pairs) or "-",
    ]


def _wrap(text: str, indent: str = "") -> list[str]:
    return wrap_text(text, indent, hang=INDENT if indent else "")


def zones_to_json(trade: Trade, uses: Sequence[Use]) -> str:
    """Return the answer as JSON text: lengths in mm, exact; areas in mm2."""
    zoning = trade.best.zoning
    document = {
        "format": "nesting-zones",
        "version": 1,
        "title": zoning.motif.job.title,
        "liner": [_mm(side) for side in zoning.size],
        "proved": True,
        "ornaments_as_boxes": not zoning.is_exact,
        "grid": _mm(zoning.grid),
        "frontier": [[_mm(side) for side in size] for size in zoning.frontier],
        "strips": [
            {
                "name": use.name,
                "axis": use.axis,
                "added": _mm(use.added),
                "from": _mm(use.low),
                "to": _mm(use.high),
                "widens": use.widens or None,
                "gives": list(use.gives),
            }
            for use in uses
        ],
        "places": [_place_entry(place) for place in zoning.places],
        "offers": [_offer_entry(offer) for offer in trade.offers],
    }
    return json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False)


def _place_entry(place: Place) -> dict[str, Any]:
    box = place.box
    return {
        "mark": place.mark,
        "x": _mm(box.x0),
        "y": _mm(box.y0),
        "width": _mm(box.width),
        "height": _mm(box.height),
        "dams": [
            {
                "side": room.side,
                "at": _mm(room.face),
                "outward": _mm(room.outward),
                "inward": None if room.inward is None else _mm(room.inward),
            }
            for room in place.rooms
        ],
    }


def _offer_entry(offer: Offer) -> dict[str, Any]:
    zoning = offer.zoning
    price = price_of(zoning.motif, zoning.area)
    return {
        "liner": [_mm(side) for side in zoning.size],
        "area": round(zoning.area / STEPS_PER_MM**2, 6),
        "rubber": None if price is None else round(float(price), 2),
        "widths": {
            strip.name: _mm(width)
            for strip, width in zip(zoning.motif.strips, zoning.widths, strict=True)
        },
        "casts": offer.schedule.casts,
        "casts_proved": offer.schedule.proved,
        "together": [list(pair) for pair in zoning.together],
    }


def _mm(steps: int) -> float | int:
    exact = to_mm(steps)
    return int(exact) if exact.denominator == 1 else round(float(exact), 6)
