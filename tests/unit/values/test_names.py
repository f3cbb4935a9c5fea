"""What the tool names itself cannot be taken for a mark."""

import pytest

from nesting.values.names import (
    call_dam,
    cast_range,
    dam_name,
    liner_name,
    patch_name,
    sheet_name,
    sheet_number,
)


def test_every_kind_has_a_form_of_its_own():
    """The word of the kind stands before the number."""
    names = [dam_name(1), liner_name(1), patch_name(1), sheet_name(1, 1)]
    assert names == ["dam 1", "liner 1", "patch 1", "sheet 1-1"]
    assert sheet_number(3, 11) == "3-11"


def test_a_dam_that_a_file_names_otherwise_is_quoted():
    """So that a sentence tells what it speaks of."""
    assert (call_dam(dam_name(12)), call_dam("D1")) == ("dam 12", "dam 'D1'")


@pytest.mark.parametrize(
    ("numbers", "words"),
    [([], ""), ([5], "5"), ([1, 2], "1, 2"), ([1, 2, 3, 5, 6, 8], "1 to 3, 5, 6, 8")],
)
def test_casts_are_told_in_runs(numbers, words):
    """Three in a row or more are told as from and to."""
    assert cast_range(numbers) == words
