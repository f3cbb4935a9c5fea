"""From the pieces of a drawing to a liner: loops closed, curves flattened, the datum found."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from nesting.errors import InputError, InputErrors, shown
from nesting.files.lengths import MAX_LENGTH
from nesting.files.tomlcheck import MAX_MISTAKES
from nesting.jobs.found import Ignored, LinerFound
from nesting.liners.closed import ClosedShape, DrawingLog, leave_out, name_by_labels, shapes_of
from nesting.liners.names import clean_name, give_names
from nesting.liners.options import DrawingOptions
from nesting.shapes.curves import Segment, Spot, apply
from nesting.shapes.geometry import MAX_VERTICES, Polygon, subtract
from nesting.shapes.mending import cut_to, fill, mend_ring, part_holes, reach_beyond, sticks_out
from nesting.shapes.onesided import flatten_loop, round_ring
from nesting.shapes.pieces import ROLES, Piece, Role, Sketch, Stray
from nesting.units import STEPS_PER_MM, parse_length, to_steps
from nesting.values.liner import BlankZone, Liner, OnPanel, Ornament, Unmarked

_ASKEW = STEPS_PER_MM // 20  # a side that rises less than this along its length is meant straight


def build_liner(sketch: Sketch, options: DrawingOptions, source: str, stem: str) -> LinerFound:
    """Return the liner a drawing describes, with what must be told about it.

    Parameters
    ----------
    sketch
        What the reader made of the file.
    options
        How the person wants it read.
    source
        The file's name, as messages give it.
    stem
        The liner's name where neither options nor drawing give one.

    Raises
    ------
    InputErrors
        With every mistake: pieces that do not close, no outline or several, no thickness.
    """
    log = DrawingLog(sketch, options, source, notes=list(sketch.notes))
    for stray in sketch.strays:
        spots = tuple(apply(log.to_steps, spot) for spot in stray.spots)
        leave_out(replace(stray, spots=spots), log)
    shapes = {role: shapes_of(role, log) for role in ROLES}
    name_by_labels(shapes, log)
    rim = _find_rim(shapes["outline"], log)
    liner = None if rim is None else _make_liner(rim, shapes, log, stem)
    if log.mistakes or liner is None:
        raise InputErrors(_tell_mistakes(log))
    ignored = tuple(_ignored(stray, log) for stray in log.strays)
    notes = sorted(log.notes, key=lambda note: not note.startswith("Warning: "))
    return LinerFound(liner, sketch.units, tuple(notes), ignored, source)


def _tell_mistakes(log: DrawingLog) -> list[InputError]:
    """Return the mistakes, not too many, with the warnings that may be behind them."""
    warnings = [note for note in log.notes if note.startswith("Warning: ")]
    told = [InputError(log.source, note.removeprefix("Warning: ")) for note in warnings]
    told += log.mistakes[:MAX_MISTAKES]
    if len(log.mistakes) > MAX_MISTAKES:
        told.append(InputError(log.source, f"{len(log.mistakes) - MAX_MISTAKES} more mistakes"))
    return told


def _make_liner(
    rim: Piece, shapes: dict[Role, list[ClosedShape]], log: DrawingLog, stem: str
) -> Liner | None:
    outline = _place_rim(rim, shapes["outline"], log)
    thickness = log.options.thickness or _fact(rim, "thickness", log)
    if not thickness:
        remedy = "give it, for example --thickness 13"
        rule = "a drawing does not tell how thick the liner is"
        log.mistakes.append(InputError("--thickness", rule, remedy=remedy))
    if outline is None:
        return None
    ornaments = _make_ornaments(shapes["ornament"], outline, log)
    zones = _make_zones(shapes["blank"], log)
    told = dict(rim.facts).get("unmarked")
    kinds: dict[str | None, Unmarked] = {"detail": "detail", "blank": "blank"}
    unmarked = log.options.unmarked or kinds.get(told, "detail")
    name = clean_name(log.options.name) or clean_name(rim.name) or clean_name(stem) or "liner"
    _note_origin(log)
    _note_askew(outline, log)
    if not ornaments and not log.mistakes:
        names = ", ".join(sorted(log.options.layers["ornament"]))
        log.notes.append(f"Warning: no ornament was found; their layers are named {names}")
    return Liner(name, outline, thickness or 1, unmarked, ornaments, zones)


def _find_rim(shapes: Sequence[ClosedShape], log: DrawingLog) -> Piece | None:
    """Return the one loop of the outline that no other encloses."""
    outer = [shape for shape in shapes if not shape.depth]
    if len(outer) == 1:
        return outer[0].piece
    if not outer and not log.mistakes:
        names = ", ".join(sorted(log.options.layers["outline"]))
        log.fault(
            "outline",
            f"the liner's outline must be a closed loop on a layer named {names}",
            "none",
            "draw it, or name its layer: --layer outline=NAME",
        )
    elif outer:
        places = " and ".join(log.spot_text(shape.ring[0]) for shape in outer[:4])
        log.fault("outline", "a liner has one outline", f"{len(outer)}, at {places}")
    return None


def _place_rim(rim: Piece, shapes: Sequence[ClosedShape], log: DrawingLog) -> Polygon | None:
    """Return the outline with its holes, and set the shift to the datum corner."""
    inner = flatten_loop(rim.curves, log.error, outward=False)
    if not log.options.keep_origin:
        log.shift = (min(x for x, _ in inner), min(y for _, y in inner))
    far = max(max(abs(x - log.shift[0]), abs(y - log.shift[1])) for x, y in inner)
    if far > MAX_LENGTH:
        remedy = "check the unit of the drawing, --units gives another"
        log.fault(
            rim.where, f"must reach at most {log.length(MAX_LENGTH)}", log.length(far), remedy
        )
        return None
    (outline,) = _flatten(rim, log, outward=False)[:1] or (None,)
    holes = [shape for shape in shapes if shape.depth == 1]
    for shape in (shape for shape in shapes if shape.depth > 1):
        log.fault(shape.piece.where, "nothing of the outline lies inside a hole of the liner")
    if outline is None or not holes:
        return outline
    rings = [
        polygon.shell for shape in holes for polygon in _flatten(shape.piece, log, outward=True)
    ]
    try:
        return Polygon(outline.shell, tuple(rings))
    except ValueError as error_found:
        log.fault("outline", "holes of the liner must be apart from each other", str(error_found))
        return None


def _flatten(
    piece: Piece, log: DrawingLog, *, outward: bool, around: Sequence[Spot] = ()
) -> tuple[Polygon, ...]:
    """Return a piece as polygons on one side of it, in the liner's coordinates.

    ``around`` is the polygon around it, where that is known: the same one is then not made again,
    unless there are drawn corners, which go to whole steps of the liner.
    """
    back = (1.0, 0.0, 0.0, 1.0, -log.shift[0], -log.shift[1])
    curves = [curve.moved(back) for curve in piece.curves]
    if around and not any(isinstance(curve, Segment) for curve in curves):
        ring = tuple(apply(back, spot) for spot in around)
    else:
        ring = flatten_loop(curves, log.error, outward=outward)
    if len(ring) > MAX_VERTICES:
        rule = f"an outline has at most {MAX_VERTICES} points"
        log.fault(piece.where, rule, f"{len(ring)} points", "give a larger --chord-error")
        return ()
    try:
        return (Polygon(round_ring(ring, outward=outward)),)
    except ValueError as reason:
        half = log.options.chord_error / 2
        coarse = flatten_loop(curves, half, outward=outward)
        mended = mend_ring(coarse, half, outward=outward)
        if not mended or (piece.role == "outline" and len(mended) > 1):
            log.fault(piece.where, "must bound one area without crossing itself", str(reason))
            return ()
        side = "all it encloses is taken" if outward else "what it surely encloses is taken"
        log.notes.append(
            f"{piece.where} meets or crosses itself ({reason} of the liner): {side}, "
            f"moved {'outward' if outward else 'inward'} by {log.length(half)}"
        )
        return mended


def _make_ornaments(
    shapes: Sequence[ClosedShape], outline: Polygon, log: DrawingLog
) -> tuple[Ornament, ...]:
    """Return the ornaments, cut at the rim; what lies inside another is part of it."""
    kept: list[Ornament] = []
    parts, cut = [], []
    for shape in shapes:
        piece = shape.piece
        if shape.parent is not None and not clean_name(piece.name):
            parts.append(piece.where)
            continue
        for polygon in _flatten(piece, log, outward=True, around=shape.ring):
            pieces, reach = _on_liner(polygon, outline)
            if not pieces:
                why = "it lies beyond the outline"
                spots = [(x + log.shift[0], y + log.shift[1]) for x, y in polygon.shell]
                log.strays.append(Stray(piece.where, why, tuple(spots)))
            if pieces and reach > 3 * log.options.chord_error:
                cut.append(f"{piece.name or piece.where} by up to {log.length(reach)}")
            kept += [_ornament(piece, fill(part), log) for part in pieces]
    log.count(parts, "Inside another ornament, or a hole of one, and so part of it")
    log.count(cut, "Reaching past the rim and cut off there")
    names = give_names([each.name for each in kept], [each.outline for each in kept], "ornament")
    return tuple(replace(each, name=name) for name, each in zip(names, kept, strict=True))


def _ornament(piece: Piece, outline: Polygon, log: DrawingLog) -> Ornament:
    """Return an ornament with what the drawing tells of it, its name as it stands there."""
    facts = dict(piece.facts)
    kinds: dict[str | None, OnPanel] = {"boss": "boss", "hollow": "hollow"}
    try:
        share = Fraction(facts.get("fill", "1/2"))
    except (ValueError, ZeroDivisionError):
        share = Fraction(-1)
    if not 0 <= share <= 1:
        log.fault(f"{piece.where}: fill", "must be a number from 0 to 1", shown(facts["fill"]))
    relief = _fact(piece, "relief", log)
    return Ornament(piece.name, outline, relief, kinds.get(facts.get("on_panel"), ""), share)


def _on_liner(polygon: Polygon, outline: Polygon) -> tuple[tuple[Polygon, ...], int]:
    """Return the parts of a polygon on the liner, and how far the rest reaches past the rim."""
    (beyond,) = sticks_out([polygon], outline)
    if beyond is None:
        return (polygon,), 0
    return cut_to(polygon, outline), reach_beyond(polygon, outline)


def _make_zones(shapes: Sequence[ClosedShape], log: DrawingLog) -> tuple[BlankZone, ...]:
    """Return the blank zones: every second loop from outside; those between are their holes."""
    found: list[tuple[str, Polygon]] = []
    islands = []
    for index, shape in enumerate(shapes):
        if shape.depth % 2:
            islands.append(shape.piece.where)
            continue
        inner = [each.piece for each in shapes if each.parent == index]
        holes = [hole for piece in inner for hole in _flatten(piece, log, outward=True)]
        for polygon in _flatten(shape.piece, log, outward=False):
            rest = subtract([polygon], holes) if holes else (polygon,)
            found += [(shape.piece.name, part) for each in rest for part in part_holes(each)]
    log.count(islands, "Inside a blank zone and so taken as ground that is not blank")
    names = give_names([name for name, _ in found], [part for _, part in found], "zone")
    return tuple(BlankZone(name, part) for name, (_, part) in zip(names, found, strict=True))


def _fact(piece: Piece, key: str, log: DrawingLog) -> int:
    """Return a length the drawing tells of a piece, 0 where it tells none."""
    text = dict(piece.facts).get(key)
    if text is None:
        return 0
    try:
        return min(to_steps(parse_length(text, "mm")), MAX_LENGTH)
    except InputError as error:
        log.fault(f"{piece.where}: {key}", error.rule, error.got, error.remedy)
        return 0


def _note_origin(log: DrawingLog) -> None:
    if log.options.keep_origin:
        log.notes.append("Positions are counted from the origin of the drawing")
        return
    place = log.spot_text(log.shift)
    log.notes.append(
        f"The datum corner is the lower left of the outline's bounds, {place} in the drawing"
    )


def _note_askew(outline: Polygon, log: DrawingLog) -> None:
    """Note sides of the outline that are nearly, but not quite, along x or y."""
    rises = []
    ring = outline.shell
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        rise, run = sorted((abs(x1 - x0), abs(y1 - y0)))
        if 0 < rise <= _ASKEW and run > 200 * rise:
            rises.append((rise, (x0 + log.shift[0], y0 + log.shift[1])))
    if rises:
        rise, spot = max(rises)
        many = len(rises) > 1
        sides = f"{len(rises)} sides of the outline are" if many else "1 side of the outline is"
        log.notes.append(
            f"Warning: {sides} not quite along x or y, off by up to "
            f"{log.length(rise)} at {log.spot_text(spot)}; no panel has an edge side there, so "
            "mend the drawing"
        )


def _ignored(stray: Stray, log: DrawingLog) -> Ignored:
    """Return what was left out, with where it lies in the liner's coordinates."""
    spots = [(x - log.shift[0], y - log.shift[1]) for x, y in stray.spots]
    return Ignored(stray.what, stray.why, tuple((round(x), round(y)) for x, y in spots))
