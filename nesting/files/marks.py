"""How files that the tool wrote are known again, so that it replaces no other."""

from __future__ import annotations

DXF_MARK = "999\nWritten by nesting; a plan replaces this file.\n"
"""What a layout as DXF begins with: a comment, gone once other hands have saved the file."""

LINER_MARK = "by nesting liner."
"""What tells a liner's file or drawing of ours, in its first line; in DXF that of a comment."""

ORDER_MARK = "written by nesting wall."
"""What the first line of an order ends with."""

ZONES_MARK = "by nesting zones"
"""What the first line of a job says that this command wrote."""
