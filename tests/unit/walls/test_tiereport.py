"""The ties of a wall in words and as JSON."""

from fractions import Fraction

from tiedwalls import HERON, flat_wall, tie_rule

from nesting.walls.cladding import divide_wall
from nesting.walls.tiereport import list_ties, tell_count, tie_entries
from nesting.walls.ties import tie_skins


def told(wall, ground=None):
    """Return the section of the report as one text."""
    return "\n".join(list_ties(wall, tie_skins(wall, divide_wall(wall), ground)))


def test_rows_at_the_same_places_stand_in_one_row():
    """Heights first, then the places in turn, the twins in the same turn."""
    text = told(flat_wall())
    assert text.startswith("Ties: 9, each with an insert in either skin.\n")
    assert "60, 325, 590  60, 400, 740      740, 400, 60" in text
    assert "within 0 mm" in text
    assert "Hollows are not looked at: no job and schedule tell of them." in text
    assert "licensed engineer to design" in text


def test_what_was_moved_is_told():
    """The tie by its number and by how much; rows apart stand in rows of their own."""
    text = " ".join(told(flat_wall(), {"A-inner": [HERON]}).split())
    assert "A-inner A-outer 1 60 60, 400, 740 740, 400, 60" in text
    assert "A-inner A-outer 1 325, 590 60, 260, 740 740, 540, 60" in text
    assert "of A-inner 1, 2 ties" in text
    assert "on the inner back: 5 by 140 to the left, 8 by 140 to the left." in text
    assert "Hollows are not looked at" not in text


def test_masses_add_up_over_all_rows_of_panels():
    """Two rows of panels of 300 mm, two rows of ties each: 12 ties of 250 g."""
    ties = tie_rule(rows=2, mass=Fraction(1, 4))
    wall = flat_wall(rows=2, ties=ties)
    tied = tie_skins(wall, divide_wall(wall))
    assert tell_count(wall, tied).startswith("Ties: 12, each with an insert in either skin; 3.0 kg")


def test_the_json_has_exact_places():
    """Millimetres, from the left seen from behind, and what a tie was moved by."""
    wall = flat_wall()
    (pair,) = tie_entries(wall, tie_skins(wall, divide_wall(wall), {"A-inner": [HERON]}))
    assert (pair["part"], pair["panel"], pair["inner"]) == ("A", 1, "A-inner")
    assert pair["ties"][4] == {
        "number": 5,
        "row": 2,
        "inner": [260, 325],
        "outer": [540, 325],
        "moved": -140,
    }
