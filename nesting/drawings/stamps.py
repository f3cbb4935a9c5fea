"""The stamp of a sheet, in its lower margin, under the title strip."""

from dataclasses import replace

from nesting.drawings.record import Drawing, Layer, Text
from nesting.drawings.sheet import MARGIN
from nesting.values.stamp import Stamp

_HEIGHT, _BASE = 2.5, 5.8  # most printers reach to 4 or 5 mm from the edge


def stamped(drawing: Drawing, stamp: Stamp) -> Drawing:
    """Return the sheet with date, time and sheet code in its lower margin, flush right."""
    text = Text(drawing.width - MARGIN, _BASE, stamp.words, _HEIGHT, "plain", "end")
    return replace(drawing, layers=(*drawing.layers, Layer("stamp", (text,))))
