"""Words on a tile: the longest that fit, clear of crosses and each other, beside where need be."""

from handjob import MM

from nesting.drawings.labels import Taken
from nesting.drawings.record import Line, Rect, Text
from nesting.templates.content import Template, TileLabel
from nesting.templates.tilelabels import occupy, place_labels

CORE = Rect(0, 0, 180, 230)


def place(*labels, taken=None):
    """Return what is put on the tile."""
    return place_labels(labels, CORE, taken or Taken())


def test_the_longest_words_that_fit_stand_in_the_middle():
    """Ground with room shows the first words at the first height."""
    (text,) = place(TileLabel(Rect(0, 0, 180, 25), ("dam 1: x 0 to 180", "dam 1")))
    assert (text.words, text.height, text.upright) == ("dam 1: x 0 to 180", 3.5, False)
    assert Rect(0, 0, 180, 25).holds(text.rect)


def test_ground_of_little_length_gets_the_short_words():
    """What the tile shows counts, not how long the dam is."""
    (text,) = place(TileLabel(Rect(168, 50, 900, 62), ("dam 1: x 168 to 900", "dam 1")))
    assert text.words == "dam 1"


def test_along_an_upright_dam_words_run_upward():
    """Words follow the longer side of slender ground."""
    (text,) = place(TileLabel(Rect(10, 0, 22, 230), ("dam 1: y 0 to 230",)))
    assert text.upright


def test_ground_off_the_tile_is_not_named():
    """Nor is a sliver at its rim."""
    assert place(TileLabel(Rect(200, 0, 300, 25), ("dam 1",), needed=True)) == ()
    assert place(TileLabel(Rect(178, 0, 300, 25), ("dam 1",), needed=True)) == ()


def test_needed_words_without_room_stand_beside_with_a_leader():
    """A dam of 2 mm has its name beside it; an ornament that small has none."""
    leader, text = place(TileLabel(Rect(50, 100, 120, 102), ("dam 1",), needed=True))
    assert isinstance(leader, Line)
    assert isinstance(text, Text)
    assert not text.rect.overlaps(Rect(50, 100, 120, 102))
    assert place(TileLabel(Rect(50, 100, 120, 102), ("gull",))) == ()


def test_words_keep_off_crosses_and_each_other():
    """A cross in the middle of the ground moves the words aside."""
    template = Template("t", "T", (Line(((0, 0), (180, 0)), "trace"),), ())
    taken = occupy(template, [(90, 12)], 5)
    one, two = place(*[TileLabel(Rect(0, 0, 180, 25), ("dam 1: x 0", "dam 1"))] * 2, taken=taken)
    assert not one.rect.overlaps(Rect(85, 7, 95, 17))
    assert not two.rect.overlaps(one.rect)


def test_names_are_cleaned_and_cut():
    """A name of a thousand letters with a bell in it is shortened to what a sheet can hold."""
    shapes = place(TileLabel(Rect(0, 0, 180, 230), ("\x07A" * MM,), heights=(1.8,), needed=True))
    assert all("\x07" not in each.words for each in shapes if isinstance(each, Text))
