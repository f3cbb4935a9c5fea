"""Names of what a drawing holds."""

import pytest
from handjob import rect

from nesting.liners.names import give_names

PLACES = [
    rect(900, 0, 50, 50),
    rect(300, 400, 50, 50),
    rect(300, 10, 50, 50),
    rect(20, 600, 50, 50),
]
"""From the left: the last, the third and above it the second, the first."""


@pytest.mark.parametrize(
    ("wanted", "names"),
    [
        (["", "", "", ""], ["ornament 4", "ornament 3", "ornament 2", "ornament 1"]),
        (["", "heron", "", "ornament 1"], ["ornament 3", "heron", "ornament 2", "ornament 1"]),
        (["heron", "heron 2", "heron", "heron"], ["heron 4", "heron 2", "heron 3", "heron"]),
        ([" a/b ", "\t", "<2>", "2"], ["a-b", "ornament 1", "-2-", "2"]),
    ],
)
def test_numbers_rise_from_left_to_right_and_upward(wanted, names):
    """Whatever the order of the drawing, and past names that are given."""
    assert give_names(wanted, PLACES, "ornament") == tuple(names)
