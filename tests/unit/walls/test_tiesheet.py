"""The sheets of the ties: what they show and from where."""

from tiedwalls import HERON, flat_wall, round_wall

from nesting.drawings.record import Area, Line
from nesting.walls.cladding import divide_wall
from nesting.walls.ties import tie_skins
from nesting.walls.tiesheet import draw_tie_sheets


def sheets_of(wall, ground=None):
    """Return the sheets of a wall."""
    return draw_tie_sheets(wall, tie_skins(wall, divide_wall(wall), ground))


def layer(sheet, name):
    """Return the shapes of a layer."""
    (found,) = [each.shapes for each in sheet.layers if each.name == name]
    return found


def test_each_kind_of_panel_has_a_sheet():
    """Inner and outer in turn, each named, and said to be seen from behind."""
    inner, outer = sheets_of(flat_wall())
    assert (inner.name, outer.name) == ("ties-01", "ties-02")
    assert (inner.title, outer.title) == ("A-inner: inserts for ties", "A-outer: inserts for ties")
    words = " ".join(text.words for text in inner.texts)
    assert "seen from behind" in words
    assert "licensed engineer" in words


def test_twins_bear_one_number_on_mirrored_places():
    """Tie 1 stands lower left on the inner back, lower right on the outer one."""
    places = []
    for sheet in sheets_of(flat_wall()):
        numbers = {
            shape.words: shape.x for shape in layer(sheet, "inserts") if hasattr(shape, "words")
        }
        rim = next(shape for shape in layer(sheet, "panel") if isinstance(shape, Line))
        xs = [x for x, _ in rim.points]
        places.append((numbers["1"] - min(xs), max(xs) - numbers["3"]))
        assert list(numbers) == [str(number) for number in range(1, 10)]
    assert places[0][0] < places[1][0]


def test_figures_are_those_of_the_inserts_and_the_ends():
    """60, 400, 740 along and 60, 325, 590 up, with the size of the back."""
    words = [
        text.words
        for text in layer(sheets_of(flat_wall())[0], "dimensions")
        if hasattr(text, "words")
    ]
    assert sorted(words, key=float) == [
        "0",
        "0",
        "60",
        "60",
        "325",
        "400",
        "590",
        "650",
        "740",
        "800",
    ]


def test_hollows_are_hatched_and_named():
    """Only on panels of the mark that has them, and the key explains them there alone."""
    inner, outer = sheets_of(flat_wall(), {"A-inner": [HERON]})
    areas = [shape for shape in layer(inner, "hollows") if isinstance(shape, Area)]
    assert areas[0].style == "masked"
    assert "heron" in [text.words for text in inner.texts]
    assert "hollows" not in [each.name for each in outer.layers]
    assert "hollow" not in " ".join(text.words for text in outer.texts)


def test_an_inch_wall_has_inch_sheets():
    """Names of paper and units follow the wall's."""
    words = " ".join(text.words for text in sheets_of(round_wall(units="in"))[0].texts)
    assert "Figures in in" in words
