"""Loose pieces are joined end to end, gaps are told, and what is doubtful stays open."""

import math
from itertools import pairwise

import pytest

from nesting.shapes.chains import chain_pieces, close_piece
from nesting.shapes.curves import Arc, Segment
from nesting.shapes.pieces import Piece

GAP = 800.0


def piece(*spots, name="", filled=False):
    """Return an open piece through the points."""
    curves = tuple(Segment(start, end) for start, end in pairwise(spots))
    return Piece("ornament", curves, False, f"line at {spots[0]}", name, is_filled=filled)


def square(*, shift=0.0, turned=()):
    """Return four lines around a square, those with a number in ``turned`` run backwards."""
    corners = [(shift, 0.0), (shift + 9e4, 0.0), (shift + 9e4, 9e4), (shift, 9e4)]
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    return [piece(*(side[::-1] if number in turned else side)) for number, side in enumerate(sides)]


@pytest.mark.parametrize("turned", [(), (0,), (1, 3), (0, 1, 2, 3)])
def test_lines_drawn_either_way_close(turned):
    """Each line may run either way, and the loop runs through all of them in turn."""
    found = chain_pieces(square(turned=turned), GAP)
    (loop,) = found.loops
    assert loop.is_closed
    assert loop.start == loop.end
    assert [curve.end for curve in loop.curves[:-1]] == [curve.start for curve in loop.curves[1:]]
    assert (found.bridges, found.loose) == ((), ())


def test_a_gap_is_bridged_and_told():
    """Ends within the gap are joined by a straight line, with its width and place."""
    sides = square()
    sides[1] = piece((90_500.0, 0.0), (9e4, 9e4))
    found = chain_pieces(sides, GAP)
    (bridge,) = found.bridges
    assert bridge.gap == pytest.approx(500.0)
    assert len(found.loops[0].curves) == 5


def test_a_wider_gap_stays_open_and_is_measured():
    """Both ends are told, with how far the next end is."""
    sides = square()
    sides[1] = piece((91_000.0, 0.0), (9e4, 9e4))
    (loose,) = chain_pieces(sides, GAP).loose
    assert {(spot, round(gap), count) for spot, gap, count in loose.ends} == {
        ((9e4, 0.0), 1000, 1),
        ((91_000.0, 0.0), 1000, 1),
    }


def test_where_three_ends_meet_nothing_is_joined():
    """Which two belong together is not known: all stay open, and the count is told."""
    found = chain_pieces([*square(), piece((0.0, 0.0), (-5e4, -5e4))], GAP)
    assert found.loops == ()
    assert max(count for loose in found.loose for _, _, count in loose.ends) == 3


def test_ends_that_touch_go_before_ends_that_are_near():
    """Two loops with corners within a gap of each other both close."""
    found = chain_pieces([*square(), *square(shift=9e4 + 400.0)], GAP)
    assert len(found.loops) == 2
    assert found.bridges == ()


def test_what_is_drawn_twice_counts_once():
    """A repeat is set aside, whichever way it runs; so is a line shorter than the gap."""
    dot = piece((5.0, 5.0), (100.0, 100.0))
    found = chain_pieces([*square(), *square(turned=(2,))[2:], dot], GAP)
    assert len(found.loops) == 1
    assert (len(found.doubles), found.dots) == (2, (dot,))


def test_short_lines_are_dots_only_where_they_meet_no_other():
    """A square of them is a shape, one across it a dot, and a lattice is not passed over."""
    side = GAP / 2
    corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side), (0.0, 0.0)]
    ring = [piece(start, end) for start, end in pairwise(corners)]
    across = piece((0.0, 0.0), (side, side))
    found = chain_pieces([*ring, across], GAP)
    assert (len(found.loops), found.dots, found.loose) == (1, (across,), ())
    lines = [[(side * n, side * m) for n in range(3)] for m in range(3)]
    lines += [list(column) for column in zip(*lines, strict=True)]
    found = chain_pieces([piece(*ends) for line in lines for ends in pairwise(line)], GAP)
    assert (found.loops, found.dots) == ((), ())
    assert found.loose


def test_a_line_and_an_arc_close():
    """A half disc of two pieces, the arc drawn from the far end."""
    arc = Arc((4e4, 0.0), (4e4, 0.0), (0.0, 4e4), 0.0, math.pi)
    found = chain_pieces(
        [piece((0.0, 0.0), (8e4, 0.0)), Piece("ornament", (arc,), False, "arc")], GAP
    )
    assert len(found.loops) == 1
    assert found.loops[0].where == "line at (0.0, 0.0) and 1 more"


def test_the_name_of_a_chain_is_that_of_its_one_named_piece():
    """Pieces of two names give none."""
    first, second = piece((0.0, 0.0), (9e4, 0.0), name="heron"), piece((9e4, 0.0), (9e4, 9e4))
    third = piece((9e4, 9e4), (0.0, 0.0))
    assert chain_pieces([first, second, third], GAP).loops[0].name == "heron"
    other = piece((9e4, 9e4), (0.0, 0.0), name="reed")
    assert chain_pieces([first, second, other], GAP).loops[0].name == ""


def test_an_open_piece_is_closed_straight():
    """The last line leads back to the start."""
    closed = close_piece(piece((0.0, 0.0), (9e4, 0.0), (9e4, 9e4)))
    assert closed.is_closed
    assert closed.curves[-1] == Segment((9e4, 9e4), (0.0, 0.0))
