"""The ties of a wall in the packet: a table of their places, and the back of each kind of panel."""

from nesting.packets.figure import crop
from nesting.packets.parts import Block, Figure, Section, Words, grid_of
from nesting.walls.cladding import Wall
from nesting.walls.tiereport import tell_count, tie_notes, tie_table
from nesting.walls.ties import TiedWall
from nesting.walls.tiesheet import draw_tie_sheets


def list_wall_ties(wall: Wall, tied: TiedWall) -> Section:
    """Return the section of the inserts that tie the skins of a wall."""
    blocks: list[Block] = [
        Words(f"{wall.title}. {tell_count(wall, tied)}", "strong"),
        grid_of(tie_table(wall, tied)),
        *(Words(text, "note") for text in tie_notes(wall, tied)),
    ]
    for sheet in draw_tie_sheets(wall, tied):
        blocks += [Words(sheet.summary, "strong"), Figure(crop(sheet))]
    return Section("ties", "Inserts for ties", tuple(blocks))
