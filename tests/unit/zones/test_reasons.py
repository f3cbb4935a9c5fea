"""Why no strips give every size: each reason in turn."""

import pytest
from motiffiles import change_motif, load_motif

from nesting.errors import NoScheduleError
from nesting.zones.strips import prepare

CENTRED = '[[centred]]\npanel = "B1"\nornament = "wave"\nalong = "x"\n\n[[panel]]'


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        (
            [("[330, 400]", "[910, 400]")],
            "'A1' .910 x 400 mm, bed 'flat'. gets a place from no strips: its flat width of 910 "
            "mm is more than the greatest liner's 900 mm. Order it smaller",
        ),
        ([("[330, 400]", "[330, 510]")], "its flat height of 510 mm is more than"),
        ([("[310, 400]", "[310, 300]")], "would cross an ornament or detail whatever the widths"),
        ([("greatest = 150", "greatest = 40")], "with other limits of the strips' widths there is"),
        ([("[900, 500]", "[640, 500]")], "only a liner larger than the greatest one gives it"),
        (
            [("lay_tolerance = 2", "lay_tolerance = 60")],
            "with the lay tolerance there is none; with dams laid exactly there is",
        ),
        ([("[[panel]]", CENTRED)], "with its ornament in the middle there is none; elsewhere"),
        (
            [("[[panel]]", CENTRED), ('must_show = ["wave"]', 'must_hide = ["wave"]')],
            "with its ornament in the middle there is none; elsewhere there is",
        ),
        (
            [('must_show = ["wave"]', 'must_show = ["wave", "leaf"]')],
            "places exist, but none that shows 'wave' and 'leaf'",
        ),
        (
            [('must_show = ["wave"]', 'must_hide = ["wave", "leaf"]')],
            "places exist, but none that leaves out 'wave' and 'leaf'",
        ),
        (
            [("[330, 400]", "[620, 400]"), ("[310, 400]", "[660, 400]")],
            "Panels 'A1', 'B1' exclude each other: each has a place with some widths",
        ),
    ],
)
def test_each_reason_is_told(tmp_path, changes, told):
    """Mark, size, what stands against it, and what to do."""
    motif = load_motif(tmp_path, change_motif(*changes))
    with pytest.raises(NoScheduleError, match=told):
        prepare(motif)


def test_sizes_that_do_not_clash_are_left_out(tmp_path):
    """Of three sizes the two that exclude each other are named."""
    third = '[[panel]]\nmark = "C1"\nsize = [320, 400]\nquantity = 1\n\n[[panel]]'
    text = change_motif(
        ("[330, 400]", "[620, 400]"), ("[310, 400]", "[660, 400]"), ("[[panel]]", third)
    )
    with pytest.raises(NoScheduleError, match="Panels 'A1', 'B1' exclude"):
        prepare(load_motif(tmp_path, text))
