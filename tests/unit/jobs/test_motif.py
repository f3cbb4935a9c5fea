"""The motif file: what is read, and every mistake with its line."""

from fractions import Fraction

import pytest
from makemotifs import MM
from motiffiles import change_motif, load_motif

from nesting.errors import InputErrors


def test_a_motif_is_read_as_written(tmp_path):
    """Strips, group, limits and price are those of the file; one flat bed where none is given."""
    motif = load_motif(tmp_path)
    (strip,) = motif.strips
    assert (strip.axis, strip.at, strip.least, strip.greatest) == ("x", 300 * MM, 0, 150 * MM)
    assert motif.groups[0].ornaments == ("wave",)
    assert motif.greatest == (900 * MM, 500 * MM)
    assert (motif.lay_tolerance, motif.price) == (2 * MM, Fraction(100))
    assert [bed.name for bed in motif.job.beds] == ["flat"]


def test_a_centred_wish_for_both_axes_is_two(tmp_path):
    """Along is both unless given."""
    wish = '[[centred]]\npanel = "B1"\nornament = "wave"\nwithin = 5\n'
    motif = load_motif(tmp_path, change_motif(("[[panel]]", f"{wish}\n[[panel]]")))
    assert [each.axis for each in motif.centrings] == ["x", "y"]
    assert {each.within for each in motif.centrings} == {5 * MM}


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (("at = 300", "at = 200"), r"motif.toml:\d+: strip\[1\].at: a strip must go through no"),
        (("at = 300", "at = 600"), r"strip\[1\].at: must be on the drawing, < 600 mm"),
        (("greatest = 150", "greatest = 150\nleast = 160"), r"least: must be at most greatest"),
        (("greatest = 150", "greatest = 150\nas_wide_as = 'S2'"), r"must name another strip"),
        (("[900, 500]", "[500, 500]"), r"zones.greatest: must be at least the drawing's 600 mm"),
        (('["wave"]\n\n[[strip]]', '["wave", "leaf"]\n\n[[strip]]'), r"a group keeps its shape"),
        (('["wave"]\n\n[[strip]]', '["vawe"]\n\n[[strip]]'), r"there is no such ornament"),
        (("size = [600, 400]", "outline = [[0, 0], [600, 0], [300, 400]]"), r"on a rectangle"),
        (("dam_width = 20", "dam_width = 20\nliner_shrink = 0.001"), r"still to be made has none"),
        (("rubber_price = 100", "rubber_price = 0"), r"zones.rubber_price: must be a number > 0"),
        (("dam_width = 20\n", ""), r"rules.dam_width: this key is needed"),
        (("lay_tolerance", "lay_tolerence"), r"unknown key; the nearest known key is lay_tol"),
        (('axis = "x"', 'axis = "z"'), r"strip\[1\].axis: must be one of x, y, got 'z'"),
        (("[[strip]]", '[[strip]]\nname="T"\naxis="x"\nat=300\ngreatest=9\n[[strip]]'), "at one"),
        (("[[strip]]", '[[strip]]\nname="S1"\naxis="x"\nat=310\ngreatest=9\n[[strip]]'), "of its"),
        (("[[strip]]", '[[centred]]\npanel="C"\nornament="wave"\n[[strip]]'), "no such panel"),
        (("[[strip]]", '[[centred]]\npanel="A1"\nornament="w"\n[[strip]]'), "no such ornament"),
        (("[[strip]]", '[[group]]\nname="e"\nornaments=["wave"]\n[[strip]]'), "group 'west' alre"),
        (
            ("[[liner.ornament]]", "[[liner.keep_clear]]\nname='l'\nat=[9,9]\ndistance=9\n\n"
             "[[liner.ornament]]"),
            "keep_clear: a liner still to be made has none; add it to the job of the liner",
        ),
        (("thickness = 12", 'thickness = 12\nfile = "a.toml"'), "is described here, as drawn"),
        (
            ("[[liner.ornament]]", '[[liner.blank_zone]]\nname="z"\noutline=[[0,0],[9,0],[0,9]]\n\n'
             "[[liner.ornament]]"),
            "must be a rectangle with sides along the axes",
        ),
    ],
)  # fmt: skip
def test_each_mistake_is_told_with_its_place(tmp_path, change, told):
    """The line names file, key, rule and what was found."""
    with pytest.raises(InputErrors, match=told):
        load_motif(tmp_path, change_motif(change))


def test_all_mistakes_are_told_at_once(tmp_path):
    """Three mistakes in three tables give three lines."""
    text = change_motif(
        ("at = 300", "at = 200"),
        ("lay_tolerance", "lay_tolerence"),
        ("quantity = 2", "quantity = 0"),
    )
    with pytest.raises(InputErrors) as refused:
        load_motif(tmp_path, text)
    assert len(refused.value.errors) == 3


def test_a_motif_needs_a_strip_and_an_order(tmp_path):
    """Without either the file says so."""
    text = change_motif()
    without_strip = text[: text.index("[[strip]]")] + text[text.index("[[panel]]") :]
    with pytest.raises(InputErrors, match="strip: this key is needed"):
        load_motif(tmp_path, without_strip)
    with pytest.raises(InputErrors, match=r"an order needs at least one \[\[panel\]\]"):
        load_motif(tmp_path, text[: text.index("[[panel]]")])
