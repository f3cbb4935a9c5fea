"""The time at which everything is printed in tests, so that it comes to the same bytes."""

import os
from datetime import datetime

from nesting.drawings.stamps import stamped
from nesting.drawings.svg import to_svg
from nesting.files.code import code_of
from nesting.values.stamp import Stamp

DRAWN = datetime(2026, 3, 2, 8, 5)
STAMP = Stamp(DRAWN, "ABCD-2345")


def stop_clock():
    """Have commands print at that time, in this process and in those it starts."""
    os.environ["SOURCE_DATE_EPOCH"] = str(int((DRAWN - datetime(1970, 1, 1)).total_seconds()))


def sheet(drawing, *texts):
    """Return a drawing as SVG, printed then, with the sheet code of the texts."""
    return to_svg(stamped(drawing, Stamp(DRAWN, code_of(*texts))))
