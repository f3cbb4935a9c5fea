"""The small motif of the tests as text, copies of it with a line changed, and its values."""

from makemotifs import MM

from nesting.jobs.motif import read_motif

MOTIF = """\
title = "Bath house, frieze to be"
units = "mm"

[liner]
name = "frieze"
size = [600, 400]
thickness = 12

[[liner.ornament]]
name = "wave"
rect = [20, 20, 260, 360]
relief = 6

[[liner.ornament]]
name = "leaf"
rect = [320, 20, 260, 360]

[rules]
dam_width = 20
dam_clearance = 5
edge_margin = 10
set_out = 1

[zones]
greatest = [900, 500]
lay_tolerance = 2
rubber_price = 100

[[group]]
name = "west"
ornaments = ["wave"]

[[strip]]
name = "S1"
axis = "x"
at = 300
greatest = 150

[[panel]]
mark = "A1"
size = [330, 400]
quantity = 2

[[panel]]
mark = "B1"
size = [310, 400]
quantity = 3
must_show = ["wave"]
"""
"""Worked out by hand: A1 and B1 lie at either rim. B1's dam is from 310 to 330, and may miss by 2,
so plain ground must reach from at most 308 to 332 at least. A1's at the left rim is from 330 to
350 and asks for a strip up to 352, 52 wide; at the right rim its face is at width - 330, beyond
width - 300 + 2 is detail, and its dam down to width - 350: the same. So 52 it is."""

WIDTH = 52 * MM


def change_motif(*changes):
    """Return the motif's text with pieces changed; each must stand in it."""
    text = MOTIF
    for old, new in changes:
        assert old in text, f"{old!r} is not in the motif"
        text = text.replace(old, new, 1)
    return text


def load_motif(folder, text=MOTIF):
    """Return the motif of a text, by way of a file."""
    path = folder / "motif.toml"
    path.write_text(text, encoding="utf-8")
    return read_motif(path)
