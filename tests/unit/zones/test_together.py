"""Whether panels can lie in one cast on one liner."""

import pytest

import nesting.zones.together
from nesting.search.instance import Instance, Item
from nesting.zones.together import CastRoom

ROW = Instance(
    (
        Item(4, 1, 3, ((0, 0), (4, 0))),
        Item(3, 1, 2, ((0, 0), (4, 0), (7, 0))),
    )
)
"""Two sizes in a row of ten: two of the first fill eight of it."""


@pytest.fixture
def fit():
    """Return the row, whose sizes are the panels 2 and 5 of an order."""
    return CastRoom((2, 5), ROW)


def test_what_fits_side_by_side(fit):
    """One first and two of the other fit, two of the first and one other do not."""
    assert fit.fits((2, 2))
    assert fit.fits((2, 5, 5))
    assert fit.fits((2, 2, 5)) is False


def test_the_reason_is_the_least_that_does_not_fit(fit):
    """All but any one of it fit."""
    assert fit.reason((2, 2, 5, 5)) == (2, 2, 5)
    assert fit.reason((2, 2, 2)) == (2, 2, 2)
    assert fit.reason((2, 5)) is None


def test_a_question_that_takes_too_long_has_no_answer(fit, monkeypatch):
    """Nothing is then claimed of the set."""
    monkeypatch.setattr(nesting.zones.together, "_MOST_STEPS", 0)
    assert fit.fits((2, 2, 2)) is None
    assert fit.reason((2, 2, 2)) is None
