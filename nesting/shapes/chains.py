"""Joins loose pieces of a drawing end to end into closed loops."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from nesting.shapes.curves import Bezier, Curve, Segment, Spot
from nesting.shapes.onesided import turn_loop
from nesting.shapes.pieces import Piece

_TOUCH = 8  # steps (0.001 mm): ends this near to each other touch, and no gap is told
_Trace = tuple[tuple[int, int, float], ...]
_End = tuple[int, bool]  # the index of a piece, and whether its last point is meant


@dataclass(frozen=True, slots=True)
class Bridge:
    """Two ends of pieces that were joined across a gap [steps]."""

    gap: float
    spot: Spot


@dataclass(frozen=True, slots=True)
class Loose:
    """Pieces that do not close, and where: (spot, gap to the nearest other end or None, count)."""

    piece: Piece
    ends: tuple[tuple[Spot, float | None, int], ...]


@dataclass(frozen=True, slots=True)
class Chained:
    """What came of the pieces: closed ones, gaps bridged, what stays open, and what was dropped.

    ``doubles`` are drawn twice; ``dots`` straight lines no longer than the gap.
    """

    loops: tuple[Piece, ...]
    bridges: tuple[Bridge, ...]
    loose: tuple[Loose, ...]
    doubles: tuple[Piece, ...]
    dots: tuple[Piece, ...]


def chain_pieces(pieces: Sequence[Piece], gap: float) -> Chained:
    """Join open pieces whose ends lie within the gap of each other, with straight lines between.

    The nearest ends are joined first. Where three or more meet nothing is joined: which two belong
    together is not known. A piece may be as short as the gap, or shorter: what many short lines
    enclose is never lost.

    Parameters
    ----------
    pieces
        Pieces of one role [steps]; closed ones are passed on in their order.
    gap
        The widest gap that is closed [steps].
    """
    single, doubles = _drop_doubles(pieces)
    opened = [piece for piece in single if not piece.is_closed]
    partners = _pair_ends(opened, gap)
    lone = _find_dots(opened, partners, gap)
    dots = [opened[index] for index in sorted(lone)]
    if dots:
        opened = [piece for index, piece in enumerate(opened) if index not in lone]
        partners = _pair_ends(opened, gap)
    loops = [piece for piece in single if piece.is_closed]
    bridges: list[Bridge] = []
    loose: list[Loose] = []
    done: set[int] = set()
    spots = np.array([(piece.start, piece.end) for piece in opened]).reshape(-1, 2)
    for index in _open_first(len(opened), partners):
        if index in done:
            continue
        path, is_loop = _walk(index, partners)
        done |= {each for each, _ in path}
        chain = _link(opened, path, is_loop, bridges)
        if is_loop:
            loops.append(chain)
        else:
            ends = ((path[0][0], not path[0][1]), path[-1])
            loose.append(Loose(chain, tuple(_describe(end, spots, gap) for end in ends)))
    return Chained(tuple(loops), tuple(bridges), tuple(loose), tuple(doubles), tuple(dots))


def _drop_doubles(pieces: Sequence[Piece]) -> tuple[list[Piece], list[Piece]]:
    """Part the pieces into those that are drawn once and repeats of them."""
    seen: set[_Trace] = set()
    single: list[Piece] = []
    doubles: list[Piece] = []
    for piece in pieces:
        trace = _trace(piece)
        (doubles if trace in seen else single).append(piece)
        seen |= {trace, trace[::-1]}
    return single, doubles


def _trace(piece: Piece) -> _Trace:
    """Return what tells a piece from others: its corners, and points that fix its curves."""
    spots = [spot for curve in piece.curves for spot in _fix(curve)]
    spots.append((*piece.end, 1.0))
    return tuple((round(x / _TOUCH), round(y / _TOUCH), weight) for x, y, weight in spots)


def _fix(curve: Curve) -> Iterable[tuple[float, float, float]]:
    if isinstance(curve, Bezier):
        return curve.points[:-1]
    parts = 1 if isinstance(curve, Segment) else 4
    return [(*curve.point(part / parts), 1.0) for part in range(parts)]


def _find_dots(pieces: Sequence[Piece], partners: dict[_End, _End], gap: float) -> set[int]:
    """Return the straight lines within the gap that were joined to nothing and meet no other such.

    They are slips of the pen. Where several meet they may be a mesh of small shapes, and are kept.
    """
    short = [
        index
        for index, piece in enumerate(pieces)
        if len(piece.curves) == 1
        and isinstance(piece.curves[0], Segment)
        and math.dist(piece.start, piece.end) <= gap
        and all(partners.get((index, last), (index,))[0] == index for last in (False, True))
    ]
    ends = [(index, last) for index in short for last in (False, True)]
    groups = _clusters(ends, [_spot(pieces, end) for end in ends], gap)
    apart = [{index for index, _ in near} for near in groups]
    return {index for indices in apart if len(indices) == 1 for index in indices}


def _spot(pieces: Sequence[Piece], end: _End) -> Spot:
    return pieces[end[0]].end if end[1] else pieces[end[0]].start


def _pair_ends(pieces: Sequence[Piece], gap: float) -> dict[_End, _End]:
    """Return the partner of every end that has exactly one: of those that touch, then farther."""
    ends = [(index, last) for index in range(len(pieces)) for last in (False, True)]
    partners: dict[_End, _End] = {}
    for reach in _reaches(gap):
        free = [end for end in ends if end not in partners]
        for near in _clusters(free, [_spot(pieces, end) for end in free], reach):
            if len(near) == 2:
                partners |= {near[0]: near[1], near[1]: near[0]}
    return partners


def _reaches(gap: float) -> list[float]:
    """Return how far ends may lie apart, round by round: twice as far each time, up to the gap."""
    reaches = [min(float(_TOUCH), gap)]
    while reaches[-1] < gap:
        reaches.append(min(2 * reaches[-1], gap))
    return reaches


def _clusters(ends: Sequence[_End], spots: Sequence[Spot], reach: float) -> list[list[_End]]:
    """Return the ends in groups: within reach of each other, directly or by way of others."""
    cells: defaultdict[tuple[int, int], list[int]] = defaultdict(list)
    size = max(reach, 1.0)
    group = list(range(len(ends)))

    def root(index: int) -> int:
        while group[index] != index:
            group[index] = group[group[index]]
            index = group[index]
        return index

    for index, (x, y) in enumerate(spots):
        column, row = math.floor(x / size), math.floor(y / size)
        for near in ((column + dx, row + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)):
            for other in cells.get(near, ()):
                if root(other) != root(index) and math.dist(spots[other], (x, y)) <= reach:
                    group[root(index)] = root(other)
        cells[column, row].append(index)
    found: defaultdict[int, list[_End]] = defaultdict(list)
    for index, end in enumerate(ends):
        found[root(index)].append(end)
    return list(found.values())


def _open_first(count: int, partners: dict[_End, _End]) -> list[int]:
    """Return the pieces, those at the end of an open chain before all others."""
    at_end = [
        index for index in range(count) if any((index, last) not in partners for last in (0, 1))
    ]
    known = set(at_end)
    return [*at_end, *(index for index in range(count) if index not in known)]


def _walk(index: int, partners: dict[_End, _End]) -> tuple[list[_End], bool]:
    """Return the way through joined pieces: each with whether it is left by its last point."""
    leave = (index, (index, False) not in partners or (index, True) in partners)
    path = [leave]
    while leave in partners:
        enter = partners[leave]
        if enter == (path[0][0], not path[0][1]):
            return path, True
        leave = (enter[0], not enter[1])
        path.append(leave)
    return path, False


def _link(
    pieces: Sequence[Piece], path: Sequence[_End], is_loop: bool, bridges: list[Bridge]
) -> Piece:
    """Return the pieces of the path as one, gaps bridged by straight lines."""
    curves: list[Curve] = []
    for index, forward in path:
        part = pieces[index].curves if forward else turn_loop(pieces[index].curves)
        if curves:
            curves += _bridge(curves[-1].end, part[0].start, bridges)
        curves += part
    if is_loop:
        curves += _bridge(curves[-1].end, curves[0].start, bridges)
    first = pieces[path[0][0]]
    names = {pieces[index].name for index, _ in path} - {""}
    facts = dict(fact for index, _ in path for fact in pieces[index].facts)
    return replace(
        first,
        curves=tuple(curves),
        is_closed=is_loop,
        name=names.pop() if len(names) == 1 else "",
        where=first.where if len(path) == 1 else f"{first.where} and {len(path) - 1} more",
        is_filled=any(pieces[index].is_filled for index, _ in path),
        facts=tuple(facts.items()),
    )


def _bridge(start: Spot, end: Spot, bridges: list[Bridge]) -> list[Curve]:
    gap = math.dist(start, end)
    if gap > _TOUCH:
        bridges.append(Bridge(gap, start))
    return [Segment(start, end)] if gap else []


def _describe(end: _End, spots: np.ndarray, gap: float) -> tuple[Spot, float | None, int]:
    """Return an open end, how far the nearest other end is, and how many ends meet at it."""
    own = 2 * end[0] + end[1]
    x, y = spots[own].tolist()
    others = np.delete(np.hypot(*(spots - spots[own]).T), own)
    nearest = float(others.min()) if len(others) else None
    return (x, y), nearest, 1 + int((others <= gap).sum())


def close_piece(piece: Piece) -> Piece:
    """Return an open piece closed by a straight line."""
    bridge: Iterable[Curve] = [Segment(piece.end, piece.start)]
    return replace(piece, curves=(*piece.curves, *bridge), is_closed=True)
