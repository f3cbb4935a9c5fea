"""How a wall file's [widths] and [ties] are read: defaults, and what follows from other keys."""

from fractions import Fraction

from handjob import MM
from wallfiles import change_wall, load_wall

from nesting.walls.tierule import TieRule
from nesting.walls.widths import EXACT, WidthRule

TIES = "[ties]\nspacing = 400\nrows = 2\nedge_distance = 60\n"


def load(folder, tables):
    """Return the small wall with further tables."""
    return load_wall(folder, change_wall(("[wall]", f"{tables}[wall]")))


def test_without_tables_widths_are_exact_and_nothing_is_tied(tmp_path):
    """Both tables are for those who want them."""
    wall = load_wall(tmp_path)
    assert (wall.widths, wall.ties) == (EXACT, None)


def test_ties_keep_as_far_from_hollows_as_from_edges_unless_told(tmp_path):
    """A hollow's rim is like an edge; a tie has no mass unless it is given."""
    assert load(tmp_path, TIES).ties == TieRule(400 * MM, 2, 60 * MM, 60 * MM)
    told = load(tmp_path, TIES + 'hollow_distance = 35\nmass = "250 g"\n').ties
    assert told == TieRule(400 * MM, 2, 60 * MM, 35 * MM, Fraction(1, 4))


def test_each_rest_has_its_own_limit(tmp_path):
    """The widest joint where joints grow, the narrowest panel where one closes."""
    joints = '[widths]\ndivision = "1 cm"\nrest = "joints"\nwidest_joint = 60\n'
    assert load(tmp_path, joints).widths == WidthRule(10 * MM, "joints", 60 * MM)
    closing = '[widths]\ndivision = 5\nrest = "closing panel"\nnarrowest = 300\n'
    rule = WidthRule(5 * MM, "closing panel", narrowest=300 * MM)
    assert load(tmp_path, closing).widths == rule
