"""Where dams longer than their sheet are parted."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from nesting.schedules.parting import KEPT_OFF, part_length

MM = 8000


def parted(length, most, corners=()):
    """Return the places in mm, all given in mm, marked to the millimetre."""
    found = part_length(length * MM, most * MM, [corner * MM for corner in corners], MM)
    return None if found is None else [at / MM for at in found]


def test_what_fits_its_sheet_is_not_parted():
    """A dam as long as its sheet is one piece."""
    assert parted(1200, 1200) == []


def test_pieces_are_as_even_as_marks_allow():
    """2500 mm from sheets of 1200 mm: three pieces, to the millimetre."""
    assert parted(2500, 1200) == [833, 1667]


def test_a_corner_moves_the_place_by_no_more_than_it_must():
    """A corner 20 mm right of the middle: parted 50 mm left of it, which touches the limit."""
    assert parted(2000, 1200, [1020]) == [970]


def test_corners_on_both_sides_of_a_shared_dam_are_kept_off_together():
    """Two panels 25 mm apart in the middle keep 125 mm of the dam whole."""
    assert parted(2000, 1200, [1000, 1025]) in ([950], [1075])


def test_where_corners_leave_no_place_nothing_is_claimed():
    """Panels of 90 mm side by side leave none at all."""
    assert parted(3000, 1200, range(0, 3001, 90)) is None


@given(
    st.integers(1, 20_000),
    st.integers(200, 3000),
    st.lists(st.integers(-100, 21_000), max_size=12),
    st.sampled_from([MM, 12700, 5 * MM]),
)
def test_pieces_add_up_fit_their_sheet_and_keep_off_corners(length, most, corners, division):
    """Whatever the corners: no piece is too long, none near a corner, none without length."""
    corners = [corner * MM for corner in corners]
    found = part_length(length * MM, most * MM, corners, division)
    if found is None:
        return
    ends = (0, *found, length * MM)
    pieces = [b - a for a, b in pairwise(ends)]
    assert all(0 < piece <= most * MM for piece in pieces)
    assert sum(pieces) == length * MM
    assert all(abs(at - corner) >= KEPT_OFF for at in found for corner in corners)
    assert all(at % division == 0 for at in found)


@given(st.integers(1, 40), st.integers(2, 9), st.lists(st.integers(0, 40), max_size=3))
def test_no_fewer_pieces_would_do(length, most, corners):
    """Against every way to part a short dam, lengths in tenths of a metre."""
    step = 100 * MM
    corners = [corner * step for corner in corners]
    found = part_length(length * step, most * step, corners, step)
    free = [at * step for at in range(1, length) if at * step not in corners]
    reach, pieces = {0}, 0
    while reach and length * step - max(reach) > most * step:
        pieces += 1
        reach = {at for at in free if any(0 < at - one <= most * step for one in reach)}
        if pieces > length:
            break
    possible = bool(reach) and length * step - max(reach, default=0) <= most * step
    assert (found is not None) == possible
    if found is not None:
        assert len(found) == pieces
