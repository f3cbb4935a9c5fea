"""Options: layer names by role, and units."""

import pytest

from nesting.errors import InputError
from nesting.liners.options import DRAWING_UNITS, DrawingOptions, read_layers


def test_a_role_goes_by_its_own_name_in_any_capitals():
    """Other names have no role."""
    options = DrawingOptions()
    assert options.role_of(" Outline ") == "outline"
    assert options.role_of("BLANK") == "blank"
    assert options.role_of("reeds") is None


def test_given_names_replace_a_roles_own():
    """The other roles keep theirs."""
    options = DrawingOptions(layers=read_layers(("ornament=Reeds,ornament=Herons",)))
    assert [options.role_of(name) for name in ("reeds", "HERONS", "ornament", "blank")] == [
        "ornament",
        "ornament",
        None,
        "blank",
    ]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("reeds", "must name a role and a layer, got 'reeds'; write ROLE=NAME with a role of"),
        ("relief=A", "got 'relief=A'"),
        ("outline=", "got 'outline='"),
        ("outline=A,blank=a", "a layer has one role only, got 'a' for outline and blank"),
    ],
)
def test_bad_layers(text, told):
    """One line says what is expected."""
    with pytest.raises(InputError, match=told):
        read_layers((text,))


def test_units_are_exact():
    """An inch is 25.4 mm, a px 1/96 in, a pt 1/72 in."""
    assert 96 * DRAWING_UNITS["px"] == 72 * DRAWING_UNITS["pt"] == DRAWING_UNITS["in"]
    assert float(DRAWING_UNITS["ft"]) == 304.8
