"""The strips of a motif as text and as JSON: how wide, what for, with what room, at what price."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from nesting.files.columns import INDENT, count_of, wrap_text, write_table
from nesting.files.document import to_json
from nesting.schedules.cautions import CARVING_CAUTION
from nesting.schedules.setout import count_marks
from nesting.units import share_text, to_mm, to_mm2
from nesting.unitwords import WORDS
from nesting.values.motif import Motif
from nesting.zones.places import RoomyPlace
from nesting.zones.trade import Offer, Trade
from nesting.zones.uses import Use


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
        _wrap(CARVING_CAUTION),
    ]
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def write_answer(trade: Trade) -> str:
    """Return the answer in one sentence."""
    zoning, casts = trade.best.zoning, trade.best.casts
    motif = zoning.motif
    strips = count_of(zoning.strips_used, "strip")
    share = share_text(zoning.added, motif.frame.area)
    verdict = "PROVED" if trade.casts_proved else "NOT PROVED"
    planned = trade.best.schedule.casts
    exact = f" ({planned} with dams laid exactly, as planned)" if planned != casts else ""
    boxes = "" if zoning.is_exact else " for slanted ornaments taken as stairs"
    return (
        f"{motif.job.title}: liner {motif.job.tape.size_words(*zoning.size)}, "
        f"{area_text(motif, zoning.added)} more than drawn ({share}), in {strips}; least "
        f"area PROVED{boxes}, fewest strips for it PROVED; the order takes {casts} casts on it"
        f"{exact}, fewest for such a liner {verdict}."
    )


def area_text(motif: Motif, area: int) -> str:
    """Return an area [square steps] in m2 or ft2."""
    name, scale = WORDS[motif.job.units].area
    return f"{area / scale:.4f} {name}"


def price_of(motif: Motif, area: int) -> Fraction | None:
    """Return what rubber of that area [square steps] costs, None where no price is given."""
    return None if motif.price is None else motif.price * area / WORDS[motif.job.units].area[1]


def tell_use(motif: Motif, use: Use) -> str:
    """Return what a strip is and what it is for, as one line."""
    tape = motif.job.tape
    low, high, added = tape.figure(use.low), tape.figure(use.high), tape.words(use.added)
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
    unit = WORDS[motif.job.units].lengths
    head = f"Plain strips, in {unit} from the datum corner of the new liner:"
    lines = [line for use in uses for line in _wrap(tell_use(motif, use), INDENT)]
    idle = [s.name for s in motif.strips if s.name not in [use.name for use in uses]]
    if idle:
        lines += _wrap(f"not needed: {', '.join(idle)}", INDENT)
    return [head, *(lines or [f"{INDENT}none is needed"])]


def _list_places(motif: Motif, places: Sequence[RoomyPlace]) -> list[str]:
    tape = motif.job.tape
    head = ["panel", "bed", "left", "right", "bottom", "top", "flat size", "on the rim"]
    rows = []
    for place in places:
        box = place.box
        faces = [tape.figure(at) for at in (box.x0, box.x1, box.y0, box.y1)]
        rim = [name for name, side in place.sides._asdict().items() if side == "edge"]
        bed = motif.job.panel(place.mark).bed
        size = tape.size(box.width, box.height)
        rows.append([place.mark, bed, *faces, size, ", ".join(rim) or "-"])
    title = (
        "A place for every size, checked on the exact position maps, in "
        f"{WORDS[tape.units].lengths}:"
    )
    return [title, *write_table(head, rows, left=("panel", "bed", "on the rim"))]


def _list_rooms(motif: Motif, places: Sequence[RoomyPlace]) -> list[str]:
    tape = motif.job.tape
    rows = []
    for place in places:
        for room in place.rooms:
            inward = "any" if room.inward is None else tape.stated(room.inward)
            face, outward = tape.figure(room.face), tape.stated(room.outward)
            rows.append([place.mark, room.side, face, outward, inward])
    if not rows:
        return []
    asked = tape.stated_words(motif.lay_tolerance)
    title = (
        "How far each dam may be off, out of the panel and into it, before it leaves plain ground "
        f"or crowds an ornament and its size is lost (asked for: {asked}):"
    )
    head = ["panel", "dam", "at", "outward", "inward"]
    return [*_wrap(title), *write_table(head, rows, left=("panel", "dam"))]


def _list_reasons(trade: Trade) -> list[str]:
    zoning = trade.best.zoning
    motif = zoning.motif
    sizes = ", ".join(motif.job.tape.size(*size) for size in zoning.frontier)
    grid = motif.job.tape.stated_words(zoning.grid)
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
            "Slanted ornaments were taken as stairs around them, and the proof holds for those: a "
            "dam may lie closer to a slanted side."
        )
    return lines


def _list_trade(trade: Trade) -> list[str]:
    motif = trade.best.zoning.motif
    unit, scale = WORDS[motif.job.units].area
    head = ["liner", f"area, {unit}", f"added, {unit}", "strips", "casts", "proved"]
    head += [f"fewer from, {unit}"]
    head[3:3] = ["rubber"] if motif.price is not None else []
    exact = any(offer.casts != offer.schedule.casts for offer in trade.offers)
    rows = [_trade_row(trade, offer, scale, exact=exact) for offer in trade.offers]
    missed = motif.job.tape.stated_words(motif.lay_tolerance)
    by = f"with every dam free to be off by {missed}" if motif.lay_tolerance else "of its own plan"
    laid = "; in brackets those of its plan, dams laid exactly" if exact else ""
    title = (
        f"What more rubber buys (casts of the order {by}{laid}; 'proved': no liner of less area "
        "takes as few; 'fewer from': no liner of less area than that takes fewer; every plan is "
        "checked):"
    )
    table = write_table(head, rows, left=("proved",))
    return [*_wrap(title), *table, *_list_new(trade), *_wrap(_tell_open(trade), INDENT)]


def _list_new(trade: Trade) -> list[str]:
    """Return what casts of each liner hold that those of smaller liners do not."""
    lines = []
    for offer in trade.offers:
        if offer.new:
            size = offer.zoning.motif.job.tape.size(*offer.zoning.size)
            casts = ", ".join(count_marks(marks, " + ") for marks in offer.new)
            lines += _wrap(f"in one cast on {size}: {casts}", INDENT)
    return lines


def _tell_open(trade: Trade) -> str:
    """Return what is proved of all other liners, and what is not settled."""
    motif, last = trade.best.zoning.motif, trade.offers[-1].casts
    limit = area_text(motif, trade.limit)
    if trade.is_complete:
        return f"PROVED: up to {limit} no other liner belongs here, and none takes under {last}."
    open_ends = " or ".join(
        f"{casts} casts or fewer are to be had from {area_text(motif, area)} on"
        for casts, area in trade.open_ends
    )
    words = f"NOT PROVED complete, up to {limit}, with {trade.tried} liners looked at"
    words += ", when the time limit was reached" if trade.stopped else ""
    return f"{words}; not settled: whether {open_ends}." if open_ends else f"{words}."


def _trade_row(trade: Trade, offer: Offer, scale: int, *, exact: bool) -> list[str]:
    zoning = offer.zoning
    motif = zoning.motif
    price = price_of(motif, zoning.area)
    cost = [] if price is None else [f"{float(price):.2f}"]
    planned = f" ({offer.schedule.casts})" if exact else ""
    fewer = trade.least_area(offer.casts - 1) if offer.casts > 1 else None
    return [
        motif.job.tape.size(*zoning.size),
        f"{zoning.area / scale:.4f}",
        f"{zoning.added / scale:.4f}",
        *cost,
        str(zoning.strips_used),
        f"{offer.casts}{planned}",
        "yes" if trade.is_proved(offer) else "no",
        "never" if fewer is None else f"{fewer / scale:.4f}",
    ]


def _wrap(text: str, indent: str = "") -> list[str]:
    return wrap_text(text, indent, hang=INDENT if indent else "")


def zones_to_json(trade: Trade, uses: Sequence[Use]) -> str:
    """Return the answer as JSON text: lengths in mm, exact; areas in mm2."""
    zoning = trade.best.zoning
    document = {
        "title": zoning.motif.job.title,
        "liner": [to_mm(side) for side in zoning.size],
        "proved": True,
        "ornaments_as_stairs": not zoning.is_exact,
        "grid": to_mm(zoning.grid),
        "frontier": [[to_mm(side) for side in size] for size in zoning.frontier],
        "strips": [
            {
                "name": use.name,
                "axis": use.axis,
                "added": to_mm(use.added),
                "from": to_mm(use.low),
                "to": to_mm(use.high),
                "widens": use.widens or None,
                "gives": list(use.gives),
            }
            for use in uses
        ],
        "places": [_place_entry(place) for place in zoning.places],
        "casts_proved": trade.casts_proved,
        "complete": trade.is_complete,
        "offers": [_offer_entry(trade, offer) for offer in trade.offers],
    }
    return to_json("nesting-zones", 1, document)


def _place_entry(place: RoomyPlace) -> dict[str, Any]:
    box = place.box
    return {
        "mark": place.mark,
        "x": to_mm(box.x0),
        "y": to_mm(box.y0),
        "width": to_mm(box.width),
        "height": to_mm(box.height),
        "dams": [
            {
                "side": room.side,
                "at": to_mm(room.face),
                "outward": to_mm(room.outward),
                "inward": None if room.inward is None else to_mm(room.inward),
            }
            for room in place.rooms
        ],
    }


def _offer_entry(trade: Trade, offer: Offer) -> dict[str, Any]:
    zoning = offer.zoning
    price = price_of(zoning.motif, zoning.area)
    fewer = trade.least_area(offer.casts - 1) if offer.casts > 1 else None
    return {
        "liner": [to_mm(side) for side in zoning.size],
        "area": to_mm2(zoning.area),
        "rubber": None if price is None else round(float(price), 2),
        "widths": {
            strip.name: to_mm(width)
            for strip, width in zip(zoning.motif.strips, zoning.widths, strict=True)
        },
        "casts": offer.casts,
        "planned_casts": offer.schedule.casts,
        "proved": trade.is_proved(offer),
        "fewer_from": None if fewer is None else to_mm2(fewer),
        "new": [list(marks) for marks in offer.new],
    }
