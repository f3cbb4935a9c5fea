"""Whether a size fits, asked from Python."""

import pytest

import nesting

LINER = nesting.Liner(
    "reeds",
    size=(2400, 1200),
    thickness=13,
    ornaments=[nesting.Ornament("heron", rect=(300, 200, 220, 650))],
    zones=[nesting.BlankZone("north", rect=(0, 890, 2400, 60))],
)
RULES = nesting.Rules(dam_width=25, dam_clearance=6, edge_margin=12)
BEDS = [nesting.Bed("table"), nesting.Bed("drum", form="convex", radius=3000)]
JOB = nesting.Job("Foyer", LINER, RULES, [nesting.Panel("A1", (2400, 900), 1, "table")], BEDS)


def test_a_size_with_a_place_has_it_in_mm():
    """The place, what it shows and its clearance; the drawing is there for notebooks."""
    answer = nesting.fit(JOB, 2400, 905)
    assert answer.fits
    assert (answer.place.x, answer.place.y) == (0, 0)
    assert (answer.place.width, answer.place.height) == (2400, 905)
    assert answer.place.shows == ("heron",)
    assert answer.clearance == 55
    assert answer.reason is None
    assert answer._repr_svg_().startswith("<?xml")


def test_a_size_without_a_place_has_a_reason_and_nearest_sizes():
    """Of which each has a place itself."""
    answer = nesting.fit(JOB, 2400, 700)
    assert not answer.fits
    assert answer.place is None
    assert answer.reason
    smaller, larger = answer.nearest
    assert nesting.fit(JOB, *larger).fits
    assert smaller is None or nesting.fit(JOB, *smaller).fits
    assert answer._repr_svg_() is None
    assert "does not fit" in answer.text


def test_a_bed_changes_the_flat_size():
    """A face ordered on a drum is longer than what is marked out flat."""
    on_drum = nesting.fit(JOB, 2300, 905, bed="drum")
    assert not on_drum.fits or on_drum.place.width < 2300
    assert "drum" in on_drum.text


@pytest.mark.parametrize(
    ("size", "bed", "words"),
    [
        ((0, 900), None, "width: must be > 0 mm and below 1 km, got 0 mm"),
        ((900, float("nan")), None, "height: must be > 0 mm"),
        ((900, 900), "ledge", "there is no such bed, got 'ledge'; known: table, drum"),
        ((30000, 900), "drum", "a panel on bed 'drum' must be able to have that size"),
    ],
)
def test_what_cannot_be_asked_is_told(size, bed, words):
    """In one line, with what is known."""
    measured = "chord" if size[0] == 30000 else "face"
    with pytest.raises(nesting.InputError, match=words):
        nesting.fit(JOB, *size, bed=bed, measured_on=measured)
