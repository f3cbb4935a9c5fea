"""Jobs and layouts that are hard to draw: many dams, thin liners, odd outlines, odd names.

They are made to be drawn, not cast: ornaments lie where they fall, and panels fill whatever bays a
seeded splitting of the liner leaves between dams.
"""

import math
import random
from dataclasses import replace
from fractions import Fraction
from functools import cache

from ferry import make_drum_job, make_drum_schedule, make_ferry_job, make_ferry_schedule
from makejobs import rectangle

from nesting.drawings.masking import draw_layout
from nesting.shapes.geometry import Box, Polygon
from nesting.values.bed import Bed
from nesting.values.casts import Areas, Dam, Layout, Placement, Schedule, Sides
from nesting.values.job import Job, Rules
from nesting.values.liner import BlankZone, Liner, Ornament

MM = 8000
INCH = 203_200
SIXTEENTH = INCH // 16
RULES = Rules(25 * MM, 6 * MM, 12 * MM, MM)


def split(box, rules, pick, depth, least):
    """Return the bays and the dams of a box cut in two again and again, each at least so wide."""
    lies = box.width >= box.height
    length = box.width if lies else box.height
    first, last = least // rules.set_out, (length - least - rules.dam_width) // rules.set_out
    if not depth or last < first:
        return [box], []
    cut = pick.randint(first, last) * rules.set_out
    far = cut + rules.dam_width
    if lies:
        parts = [box._replace(x1=box.x0 + cut), box._replace(x0=box.x0 + far)]
        dam = Box(box.x0 + cut, box.y0, box.x0 + far, box.y1)
    else:
        parts = [box._replace(y1=box.y0 + cut), box._replace(y0=box.y0 + far)]
        dam = Box(box.x0, box.y0 + cut, box.x1, box.y0 + far)
    halves = [split(part, rules, pick, depth - 1, least) for part in parts]
    return [*halves[0][0], *halves[1][0]], [dam, *halves[0][1], *halves[1][1]]


def make_layout(job, seed, depth, least, *, number=1, masked=0.25, ground=None):
    """Return a layout of such bays, most of them panels, on the ground given or the whole liner."""
    pick = random.Random(seed)
    rim = job.liner.outline.bounds
    bays, strips = split(ground or rim, job.rules, pick, depth, least)
    panels = tuple(
        Placement(
            f"{'PQRSTUVW'[index % 8]}{index + 1}", bay.x0, bay.y0, bay.width, bay.height,
            Sides(*("edge" if one == other else "dam" for one, other in (
                (bay.x0, rim.x0), (bay.x1, rim.x1), (bay.y0, rim.y0), (bay.y1, rim.y1)))),
        )
        for index, bay in enumerate(sorted(bays))
        if index == 0 or pick.random() >= masked
    )  # fmt: skip
    dams = tuple(
        Dam(f"dam {index}", dam.x0, dam.y0, dam.width, dam.height)
        for index, dam in enumerate(sorted(strips), start=1)
    )
    liner = job.liner.outline.area
    covered = sum(panel.box.area for panel in panels), sum(dam.box.area for dam in dams)
    areas = Areas(liner, *covered, liner - sum(covered))
    return Layout(number, 3, job.beds[0].name, panels, dams, areas)


def make_schedule(job, *layouts):
    """Return the layouts as a schedule without proof."""
    return Schedule(job.title, 1, tuple(layouts))


def leaf(x, y, length, width, angle):
    """Return a leaf of 24 corners about (x, y), in mm."""
    corners = []
    for turn in (2 * math.pi * step / 24 for step in range(24)):
        u, v = length / 2 * math.cos(turn), width / 2 * math.sin(turn) * (1 - 0.3 * math.cos(turn))
        corners.append(
            (
                round((x + u * math.cos(angle) - v * math.sin(angle)) * MM),
                round((y + u * math.sin(angle) + v * math.cos(angle)) * MM),
            )
        )
    return Polygon(tuple(corners))


def leaves(count, width, height, length, seed):
    """Return leaves and discs strewn over ground of that size, in mm."""
    pick = random.Random(seed)
    found = []
    for index in range(count):
        x, y = pick.uniform(length, width - length), pick.uniform(length, height - length)
        slim = 0.45 if index % 4 else 1.0
        outline = leaf(
            x, y, length * (slim + 0.45) / 1.45, length * slim / 1.45, pick.uniform(0, 3)
        )
        found.append(Ornament(f"{'leaf' if index % 4 else 'disc'} {index + 1}", outline))
    return tuple(found)


def plain_job(title, width, height, ornaments=(), **rules):
    """Return a job on one flat bed and one rectangular liner of blank ground, in mm."""
    liner = Liner("reeds", rectangle(0, 0, width, height), 13 * MM, "blank", ornaments)
    return Job(title, "mm", liner, replace(RULES, **rules), (Bed("table"),))


def busy_case():
    """Return eight or so panels, a dozen dams and twenty irregular ornaments."""
    job = plain_job("Library, stair wall", 2400, 1200, leaves(20, 2400, 1200, 160, 3))
    return job, make_schedule(job, make_layout(job, 3, 4, 150 * MM))


def strewn_case():
    """Return a liner so full of ornaments that they bear no names."""
    job = plain_job("Library, dome", 2400, 1200, leaves(400, 2400, 1200, 60, 4))
    return job, make_schedule(job, make_layout(job, 1, 3, 150 * MM))


def crowded_case():
    """Return some thirty dams, with faces all over both axes."""
    job = plain_job("Library, many bays", 2400, 1200, dam_width=20 * MM)
    return job, make_schedule(job, make_layout(job, 11, 6, 90 * MM, masked=0.4))


def narrow_case():
    """Return dams 2 mm wide, so that faces lie 2 mm apart."""
    job = plain_job("Library, thin dams", 1200, 600, dam_width=2 * MM)
    return job, make_schedule(job, make_layout(job, 1, 5, 12 * MM, masked=0.3))


def countless_case():
    """Return 70 small dams, no two faces in line: more figures than one row of a sheet holds."""
    job = plain_job("Library, all faces", 3000, 1500)
    first = make_layout(job, 1, 0, MM)
    dams = tuple(
        Dam(
            f"dam {index + 1}",
            (40 + 41 * index) * MM,
            (10 + 20 * (index * 27 % 70)) * MM,
            15 * MM,
            7 * MM,
        )
        for index in range(70)
    )
    area, covered = job.liner.outline.area, sum(dam.box.area for dam in dams)
    areas = Areas(area, 0, covered, area - covered)
    return job, make_schedule(job, replace(first, panels=(), dams=dams, areas=areas))


def long_case():
    """Return a liner twenty times as long as it is high."""
    job = plain_job("Library, frieze", 6000, 300, leaves(9, 6000, 300, 90, 4))
    return job, make_schedule(job, make_layout(job, 4, 3, 90 * MM))


def tall_case():
    """Return a liner twenty times as high as it is long."""
    job = plain_job("Library, pilaster", 300, 6000, leaves(9, 300, 6000, 90, 4))
    return job, make_schedule(job, make_layout(job, 4, 3, 90 * MM))


def small_case():
    """Return a liner drawn at 1:2, with dams thick enough to bear their own names."""
    job = plain_job("Library, tile", 500, 300)
    return job, make_schedule(job, make_layout(job, 1, 2, 90 * MM))


def tiny_case():
    """Return a liner of 40 x 30 mm, smaller than any drawing likes."""
    job = plain_job("Library, sample", 40, 30, dam_width=2 * MM)
    return job, make_schedule(job, make_layout(job, 1, 1, 10 * MM))


def inch_case():
    """Return an inch job on a curved bed, with sixty-fourths to write."""
    rules = Rules(INCH, INCH // 4, INCH // 2, INCH // 64)
    outline = Polygon(Box(0, 0, 96 * INCH, 48 * INCH).ring)
    liner = Liner("waves", outline, INCH // 2, "blank", leaves(6, 2438, 1219, 160, 2))
    bed = Bed("drum", "convex", 120 * INCH)
    job = Job("Pier pavilion, north side", "in", liner, rules, (bed,))
    return job, make_schedule(job, make_layout(job, 8, 3, 6 * INCH))


def odd_case():
    """Return a concave liner with an opening, odd names, and a layout that keeps dams."""
    corners = [(0, 0), (2400, 0), (2400, 1200), (1500, 1200), (1500, 800), (900, 900), (900, 1200),
               (0, 1200)]  # fmt: skip
    outline = Polygon(
        tuple((x * MM, y * MM) for x, y in corners), (rectangle(1900, 500, 200, 200).shell,)
    )
    zone = BlankZone("low", rectangle(0, 300, 1700, 120))
    liner = Liner("steps & <waves>", outline, 13 * MM, "detail", (), (zone,))
    bed = Bed('drum & "co"', "concave", 3000 * MM, "y", Fraction(1, 2))
    job = Job('Bath "west" <hall> & court', "mm", liner, RULES, (bed,))
    first = make_layout(job, 7, 2, 200 * MM, ground=Box(0, 0, 1500 * MM, 700 * MM))
    odd = replace(first.panels[0], mark='<P&1"\x07>', turned=True, off_nominal=(-2 * MM, 0))
    second = replace(first, number=2, same_dams_as=1, panels=(odd, *first.panels[1:]))
    return job, make_schedule(job, first, second)


def long_mark_case():
    """Return panels whose marks are as long as a job file allows and differ at the end."""
    job, schedule = small_case()
    layout = schedule.layouts[0]
    panels = tuple(
        replace(panel, mark="w" * 58 + str(index)) for index, panel in enumerate(layout.panels)
    )
    return job, make_schedule(job, replace(layout, panels=panels))


CASES = {
    "ferry": lambda: (make_ferry_job(), make_ferry_schedule()),
    "drum": lambda: (make_drum_job(), make_drum_schedule()),
    "busy": busy_case,
    "strewn": strewn_case,
    "crowded": crowded_case,
    "narrow": narrow_case,
    "countless": countless_case,
    "long": long_case,
    "tall": tall_case,
    "small": small_case,
    "tiny": tiny_case,
    "inch": inch_case,
    "odd": odd_case,
    "long mark": long_mark_case,
}
"""Every case by name: a function that returns a job and its schedule."""


@cache
def drawn(case):
    """Return a case's job, its last layout, and the drawing of it."""
    job, schedule = CASES[case]()
    layout = schedule.layouts[-1]
    return job, layout, draw_layout(job, schedule, layout)
