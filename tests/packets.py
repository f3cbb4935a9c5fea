"""Packets of the hand-sized job and of the committed examples, and what is in them."""

from functools import cache
from pathlib import Path

from handjob import hand_schedule
from printtime import DRAWN
from quantityjobs import make_job

from nesting.amounts.quantities import reckon_quantities
from nesting.checking.schedule import check_schedule
from nesting.days.plan import plan_days
from nesting.jobs.read import read_job
from nesting.packets.contents import make_packet
from nesting.packets.parts import (
    Figure,
    Lines,
    Packet,
    PacketTable,
    Section,
    SideBySide,
    TableRow,
    TitledPart,
    Words,
)
from nesting.schedules.stamps import stamp_plan
from nesting.schedules.write import read_schedule
from nesting.strips.plan import plan_strips

ROOT = Path(__file__).parents[1]


def hand_packet(**options):
    """Return the packet of the hand-sized job with materials stated."""
    job, schedule = make_job(), hand_schedule()
    return make_packet(job, schedule, reckon_quantities(job, schedule), **options)


def dam_packet(count):
    """Return an inch packet with a layout's page: one row, dams of two rows each, its part."""
    rows = [
        (TableRow((f"D{n}.", f"decimal{n}.")), TableRow(("", f"fraction{n}.")))
        for n in range(count)
    ]
    rows.insert(0, (TableRow(("D", "alone")),))
    dams = PacketTable("Dams", ("dam", "left"), tuple(row for each in rows for row in each))
    marks = PacketTable("Marks", ("mark",), (TableRow(("A1",)),))
    page = Section("l1", "Layout 1 of 1", (dams, TitledPart("Casting layout 1", (marks,))))
    return Packet("T", "in", (Section("order", "The order", (Words("a"),)), page))


def read_example(name):
    """Return an example's job and its committed schedule."""
    job = read_job(ROOT / "examples" / f"{name}.toml")
    return job, read_schedule(ROOT / "output_svg" / name / "schedule.json")


@cache
def example_packet(name):
    """Return the packet of an example, its checker's findings told."""
    job, schedule = read_example(name)
    planned = plan_days(job, schedule) if job.shop.start else None
    found = reckon_quantities(job, schedule, planned)
    strips = plan_strips(job, schedule, planned)
    findings, stamp = check_schedule(job, schedule), stamp_plan(DRAWN, job, schedule)
    return make_packet(job, schedule, found, findings, planned, stamp=stamp, strips=strips)


def section(packet, ref):
    """Return the section of that ref."""
    (found,) = [each for each in packet.sections if each.ref == ref]
    return found


def flat(blocks):
    """Return the blocks with those of groups and parts in their place."""
    return [
        part
        for block in blocks
        for part in (flat(block.blocks) if isinstance(block, SideBySide | TitledPart) else [block])
    ]


def grids(part):
    """Return every table of a section."""
    return [block for block in flat(part.blocks) if isinstance(block, PacketTable)]


def grid(part, start):
    """Return the one table of a section whose title starts so."""
    (found,) = [each for each in grids(part) if each.title.startswith(start)]
    return found


def cells(table):
    """Return the cells of a table, row by row."""
    return [list(row.cells) for row in table.rows]


def words(part):
    """Return every text of a section that stands in no table or drawing."""
    texts = []
    for block in flat(part.blocks):
        if isinstance(block, Words):
            texts.append(block.text)
        elif isinstance(block, Lines):
            texts += [block.title, *block.lines]
    return "\n".join(texts)


def figure(part):
    """Return the drawing of a section."""
    (found,) = [block for block in part.blocks if isinstance(block, Figure)]
    return found
