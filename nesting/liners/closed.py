"""Closed shapes from the pieces of a drawing, and the log of what must be told about it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from nesting.errors import InputError
from nesting.liners.names import clean_name
from nesting.liners.options import DrawingOptions
from nesting.shapes.chains import Loose, chain_pieces, close_piece
from nesting.shapes.curves import Bezier, Matrix, Spot, apply, combined
from nesting.shapes.geometry import MAX_VERTICES
from nesting.shapes.mending import find_parents, holds_spots, hugs, is_simple
from nesting.shapes.onesided import flatten_loop
from nesting.shapes.pieces import Label, Piece, Role, Sketch, Stray
from nesting.tape import Tape
from nesting.units import STEPS_PER_MM

MOST_SHAPES = 5_000
"""Most closed shapes that are read from one drawing."""

_OPEN = "it does not close"
_TWICE = "it is drawn twice"
_LETTERING = "turn lettering into outlines, and put notes on a layer without a role"
_ROUNDING = 3  # steps of the chord error kept back for whole steps
_FAR = 1e15  # steps, far beyond any liner and well within what floats hold apart
_MOST_POINTS = 4 * MAX_VERTICES  # before those along straight sides are dropped
_MOST_CROSSED = 1_000  # points of a ring that crosses itself
_LISTED = 12  # things of a kind that are told one by one


SpotRing = tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class ClosedShape:
    """A closed piece, a polygon around it [steps], and the loop around it, if any."""

    piece: Piece
    ring: SpotRing
    parent: int | None = None
    depth: int = 0


@dataclass(slots=True)
class DrawingLog:
    """What is to be told of the drawing, collected while it is read."""

    sketch: Sketch
    options: DrawingOptions
    source: str
    shift: Spot = (0.0, 0.0)
    mistakes: list[InputError] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    strays: list[Stray] = field(default_factory=list)

    @property
    def to_steps(self) -> Matrix:
        """The map from the file to steps."""
        return combined((STEPS_PER_MM, 0, 0, STEPS_PER_MM, 0, 0), self.sketch.place)

    def spot_text(self, spot: Spot) -> str:
        """Return a point [steps] as the drawing itself counts it."""
        a, b, c, d, e, f = self.to_steps
        x, y, bottom = spot[0] - e, spot[1] - f, a * d - b * c
        return f"({_figure((d * x - c * y) / bottom)}, {_figure((a * y - b * x) / bottom)})"

    def length(self, steps: float) -> str:
        """Return a length with its unit."""
        return Tape(self.sketch.units).stated_words(round(steps))

    @property
    def error(self) -> int:
        """How far a polygon may be off its curve before its points go to whole steps [steps]."""
        return self.options.chord_error - _ROUNDING

    def fault(self, where: str, rule: str, got: str = "", remedy: str = "") -> None:
        """Note a mistake at a piece of the drawing."""
        self.mistakes.append(InputError(f"{self.source}: {where}", rule, got, remedy))

    def count(self, what: Sequence[str], text: str) -> None:
        """Note once what holds for several things, the first of them by name."""
        if what:
            listed = ", ".join(what[:_LISTED])
            more = f" and {len(what) - _LISTED} more" if len(what) > _LISTED else ""
            self.notes.append(f"{text}: {listed}{more}")


def shapes_of(role: Role, log: DrawingLog) -> list[ClosedShape]:
    """Return the closed shapes of a role, those that touch nothing but noise left out."""
    pieces = []
    for piece in log.sketch.pieces:
        if piece.role != role:
            continue
        moved = replace(piece, curves=tuple(curve.moved(log.to_steps) for curve in piece.curves))
        why = _reason_to_refuse(moved)
        if why:
            leave_out(Stray(piece.where, why, is_needed=True), log)
        else:
            pieces.append(moved)
    chained = chain_pieces(pieces, log.options.gap)
    if chained.bridges:
        widest = max(chained.bridges, key=lambda bridge: bridge.gap)
        count = "1 gap was" if len(chained.bridges) == 1 else f"{len(chained.bridges)} gaps were"
        places = [log.spot_text(bridge.spot) for bridge in chained.bridges]
        log.count(places, f"{role}: {count} closed, at most {log.length(widest.gap)} wide, at")
    for piece in chained.doubles:
        log.strays.append(Stray(piece.where, _TWICE))
    for piece in chained.dots:
        why = "it is no longer than --gap and leads nowhere"
        log.strays.append(Stray(piece.where, why, piece.spots))
    closed = [*chained.loops, *_settle_loose(chained.loose, chained.loops, log)]
    if len(closed) > MOST_SHAPES:
        log.fault(role, f"a drawing has at most {MOST_SHAPES} shapes of a role", f"{len(closed)}")
        return []
    traced = [(piece, _around(piece, log)) for piece in closed]
    traced = [(piece, ring) for piece, ring in traced if _has_area(piece, ring, log)]
    shapes = _nest(traced)
    return shapes if role == "ornament" else _nest(_drop_traced_twice(shapes, log))


def _drop_traced_twice(
    shapes: Sequence[ClosedShape], log: DrawingLog
) -> list[tuple[Piece, SpotRing]]:
    """Return rims and islands once each, where a line and a hatch trace the same one.

    Of two the one that leaves less ground is kept: the inner rim, the outer island. An ornament
    needs none of this, since a shape inside another is part of it.
    """
    depths: dict[int, int] = {}
    dropped: set[int] = set()
    for index in sorted(range(len(shapes)), key=lambda index: shapes[index].depth):
        parent = shapes[index].parent
        if parent is None:
            depths[index] = 0
        elif hugs(shapes[index].ring, shapes[parent].ring, log.options.chord_error):
            depths[index] = depths[parent]
            dropped.add(index if depths[index] % 2 else parent)
        else:
            depths[index] = depths[parent] + 1
    for index in sorted(dropped):
        piece = shapes[index].piece
        log.strays.append(Stray(piece.where, _TWICE))
    kept = [shape for index, shape in enumerate(shapes) if index not in dropped]
    return [(shape.piece, shape.ring) for shape in kept]


def _reason_to_refuse(piece: Piece) -> str:
    if len(piece.curves) > _MOST_POINTS:
        return f"an outline has at most {MAX_VERTICES} points"
    for curve in piece.curves:
        inner = curve.points if isinstance(curve, Bezier) else [curve.point(0.5)]
        for x, y, *_ in (curve.start, curve.end, *inner):
            if not (abs(x) < _FAR and abs(y) < _FAR):
                return "its coordinates are not finite or too far out"
    return ""


def _settle_loose(loose: Sequence[Loose], loops: Sequence[Piece], log: DrawingLog) -> list[Piece]:
    """Return open pieces that may be closed; the others are mistakes or are left out."""
    closed: list[Piece] = []
    homes = [piece for piece in loops if piece.role == "ornament"] if loose else []
    rings = [(piece, _around(piece, log)) for piece in homes]
    for each in loose:
        piece = each.piece
        around = next((home for home, ring in rings if holds_spots(ring, piece.spots)), None)
        if around is not None:
            log.strays.append(Stray(piece.where, f"it lies inside {around.where}", piece.spots))
        elif piece.is_filled:
            width = math.dist(piece.start, piece.end)
            ends = f"{log.spot_text(piece.end)} to {log.spot_text(piece.start)}"
            log.notes.append(
                f"{piece.where} is open and filled: closed by a straight line of "
                f"{log.length(width)} from {ends}"
            )
            closed.append(close_piece(piece))
        else:
            leave_out(_open_stray(each, log), log)
    return closed


def _open_stray(loose: Loose, log: DrawingLog) -> Stray:
    reasons = []
    for spot, gap, count in loose.ends:
        place = log.spot_text(spot)
        if count > 2:
            reasons.append(f"{count} ends meet at {place}")
        elif gap is None:
            reasons.append(f"an open end at {place}")
        else:
            reasons.append(f"a gap of {log.length(gap)} at {place}")
    return Stray(
        loose.piece.where,
        f"{_OPEN}: {' and '.join(dict.fromkeys(reasons))}",
        loose.piece.spots,
        is_needed=True,
    )


def leave_out(stray: Stray, log: DrawingLog) -> None:
    """Leave something out that need not be read, or where that is asked for; else a mistake."""
    if stray.is_needed and not log.options.lenient:
        is_open = stray.why.startswith(_OPEN)
        wider = ", give a larger --gap," if is_open else ""
        log.fault(stray.what, stray.why, "", f"mend that{wider} or leave it out with --lenient")
    else:
        log.strays.append(stray)


def _has_area(piece: Piece, ring: Sequence[Spot], log: DrawingLog) -> bool:
    """Whether a piece is fit to be looked at further; what is not is left out or a mistake."""
    if len(ring) > _MOST_POINTS:
        why = f"an outline has at most {MAX_VERTICES} points; a larger --chord-error gives fewer"
        leave_out(Stray(piece.where, why, is_needed=True), log)
        return False
    if len(ring) > _MOST_CROSSED and not is_simple(ring):
        why = f"it crosses itself, with more than {_MOST_CROSSED} points"
        leave_out(Stray(piece.where, why, piece.spots[:400], is_needed=True), log)
        return False
    if len(ring) > 2:
        return True
    log.strays.append(Stray(piece.where, "it encloses no area", piece.spots))
    return False


def _around(piece: Piece, log: DrawingLog) -> SpotRing:
    return flatten_loop(piece.curves, log.error, outward=True)


def _nest(traced: Sequence[tuple[Piece, SpotRing]]) -> list[ClosedShape]:
    """Return the shapes with the loop around each."""
    parents = find_parents([ring for _, ring in traced]) if traced else []
    shapes: list[ClosedShape] = []
    for index, (piece, ring) in enumerate(traced):
        depth, other = 0, parents[index]
        while other is not None:
            depth, other = depth + 1, parents[other]
        shapes.append(ClosedShape(piece, ring, parents[index], depth))
    return shapes


def name_by_labels(shapes: dict[Role, list[ClosedShape]], log: DrawingLog) -> None:
    """Give words of the drawing to the smallest nameless shape of the same role around them.

    On the layer of the ornaments words in no shape may be lettering, which must not be lost.
    """
    for label in log.sketch.labels:
        spot = apply(log.to_steps, label.spot)
        _name_by_label(shapes[label.role], label, spot, log)


def _name_by_label(shapes: list[ClosedShape], label: Label, spot: Spot, log: DrawingLog) -> None:
    around = [index for index, shape in enumerate(shapes) if holds_spots(shape.ring, [spot])]
    home = max(around, key=lambda index: shapes[index].depth, default=None)
    what = f"text '{clean_name(label.words)}'"
    if home is None and label.role == "ornament":
        why = f"it lies in no ornament, at {log.spot_text(spot)}; {_LETTERING}"
        leave_out(Stray(what, why, (spot,), is_needed=True), log)
    elif home is None or shapes[home].piece.name:
        log.strays.append(Stray(what, "it names no shape", (spot,)))
    else:
        named = replace(shapes[home].piece, name=label.words)
        shapes[home] = replace(shapes[home], piece=named)


def _figure(value: float) -> str:
    """Return a coordinate with at most four decimals and without idle zeros."""
    return f"{round(value, 4) + 0.0:.4f}".rstrip("0").rstrip(".")
