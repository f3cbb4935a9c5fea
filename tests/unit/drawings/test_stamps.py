"""The stamp of a sheet."""

import pytest
from drawjobs import CASES, drawn
from printtime import STAMP

from nesting.drawings.overview import draw_overview
from nesting.drawings.record import Rect
from nesting.drawings.stamps import stamped


@pytest.mark.parametrize("case", ["ferry", "tall", "inch"])
def test_the_stamp_stands_in_the_lower_margin(case):
    """Below the frame, off the edge that printers leave blank, and on nothing else."""
    for drawing in (drawn(case)[2], draw_overview(*CASES[case]())):
        sheet = stamped(drawing, STAMP)
        (text,) = [text for text in sheet.texts if text not in drawing.texts]
        assert text.words == "2026-03-02 08:05, code ABCD-2345"
        assert Rect(10, 4.5, drawing.width - 9.9, 10).holds(text.rect)
        assert sheet.layers[:-1] == drawing.layers
