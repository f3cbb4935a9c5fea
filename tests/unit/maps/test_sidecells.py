"""What a cell of pairs of sides promises, against every pair of lines in it."""

from functools import cache

import numpy as np
import pytest
from handjob import MM, rect

from nesting.maps.ends import list_all_ends
from nesting.maps.ground import survey
from nesting.maps.positions import NO_WISH
from nesting.maps.sidecells import NO_EXTENT, SideCells, make_table
from nesting.shapes.geometry import Polygon
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament

LEAF = ((300, 150), (420, 170), (480, 300), (400, 420), (280, 330))


@cache
def tables():
    """Return the tables of 900 x 600 mm of blank ground with a leaf and a box on it."""
    ornaments = (
        Ornament("leaf", Polygon(tuple((x * MM, y * MM) for x, y in LEAF))),
        Ornament("box", rect(650, 220, 90, 130)),
    )
    liner = Liner("leaf and box", rect(0, 0, 900, 600), 13 * MM, "blank", ornaments)
    ground = survey(liner, Rules(25 * MM, 6 * MM, 12 * MM, MM))
    return [make_table(ground, *ends, NO_WISH) for ends in list_all_ends(ground, NO_WISH)]


def cells(low, high, up_low, up_high, *, is_rigid):
    """Return one cell, or many, of sides in mm."""
    sides = np.broadcast_arrays(low, high, up_low, up_high)
    return SideCells(*(np.atleast_1d(side).astype(np.int64) * MM for side in sides), is_rigid)


def better(widths, sign):
    """Return the nearest of widths, None where there is none."""
    known = widths[widths != NO_EXTENT]
    return (known.max() if sign < 0 else known.min()) if len(known) else None


@pytest.mark.parametrize("sign", [-1, 1])
@pytest.mark.parametrize("low", [40, 90, 160, 280])
def test_a_cell_promises_no_less_than_any_pair_of_lines_in_it_gives(low, sign):
    """And the more it is cut, the nearer its promise comes."""
    asked, fell_short = 420 * MM, 0
    for table in tables():
        whole = cells(low, low + 40, low + 200, low + 240, is_rigid=False)
        promised = better(table.nearest_widths(whole, asked, sign), sign)
        lines, uppers = (
            each.ravel() for each in np.mgrid[low : low + 41 : 4, low + 200 : low + 241 : 4]
        )
        pairs = cells(lines, lines, uppers, uppers, is_rigid=False)
        given = better(table.nearest_widths(pairs, asked, sign), sign)
        if given is not None:
            assert promised is not None
            assert sign * (promised - given) <= 0
            fell_short += promised != given
    assert fell_short < len(tables())


def test_a_row_of_pairs_at_one_height_promises_no_more_than_the_cell_around_it():
    """Both sides move together there, so less is left open."""
    for table in tables():
        row = better(
            table.nearest_widths(cells(90, 130, 290, 330, is_rigid=True), 420 * MM, -1), -1
        )
        cell = better(
            table.nearest_widths(cells(90, 130, 290, 330, is_rigid=False), 420 * MM, -1), -1
        )
        assert row is None or row <= cell


def test_between_two_dams_the_width_is_what_the_leaf_leaves():
    """At y 200 to 400 the leaf spans 280 to 480: 31 mm less on its left, from a dam at the rim."""
    (table,) = (t for t in tables() if (t.x.near_side, t.x.far_side) == ("edge", "dam")
                and (t.y.near_side, t.y.far_side) == ("dam", "dam"))  # fmt: skip
    pair = cells(231, 231, 302, 302, is_rigid=True)
    # Dams and clearance reach from 200 to 333: there the leaf begins at 280.
    assert table.nearest_widths(pair, 300 * MM, -1)[0] == (280 - 31) * MM
