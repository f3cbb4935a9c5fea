"""Small templates for tests: of the hand-sized job, of a dam 1000 mm long, of a drum."""

from dataclasses import replace
from fractions import Fraction

from handjob import MM, change_layout, dam, hand_job, hand_schedule
from printtime import STAMP

from nesting.drawings.papers import find_paper
from nesting.templates.content import dam_template, layout_template
from nesting.templates.fullsize import FullSize
from nesting.templates.sheets import PaperChoice, tile_lines
from nesting.templates.tiledrawing import draw_tiles
from nesting.templates.tilestrip import FOOT, MIRRORED_FOOT, Said
from nesting.values.bed import Bed


def hand_layout(number=1):
    """Return a layout of the hand-sized job."""
    return hand_schedule().layouts[number - 1]


def long_dam_template():
    """Return the template of dam 2, made 1000 x 25 mm, its corner at x 100 mm, y 650 mm."""
    long = dam("dam 2", 100, 650, 1000, 25, "north", 50)
    layout = change_layout(hand_job(), hand_schedule(), 1, dams=(long,)).layouts[0]
    return dam_template(hand_job(), layout, long, FullSize())


def drum_job():
    """Return the hand-sized job on a drum of 3000 mm radius, the liner's back unstretched."""
    return replace(hand_job(), beds=(Bed("table", "convex", 3000 * MM, "x", Fraction(0)),))


def hand_template(size=None, job=None):
    """Return the template of layout 1 of the hand-sized job."""
    return layout_template(job or hand_job(), hand_layout(), size or FullSize())


def tile(template, paper="a4", mirrored=False, **changes):
    """Return the tiling of a template on a paper."""
    asked = {"margin": 10.0, "overlap": 16.0, "foot": MIRRORED_FOOT if mirrored else FOOT}
    lines = [line.points for line in template.lines]
    return tile_lines(lines, PaperChoice(find_paper(paper), **asked | changes))


def draw(template, paper="a4", mirrored=False, title="Bath house, foyer", **changes):
    """Return the tiling of a template and its sheets."""
    tiling = tile(template, paper, mirrored, **changes)
    said = Said(title, template.subject, template.notes, "mm", mirrored, STAMP.words)
    return tiling, draw_tiles(template, tiling, said)
