"""Seeded motifs: ornaments in a grid, cut lines between them, sizes that some liner gives."""

import random
from dataclasses import replace

from nesting.maps.ground import survey
from nesting.maps.positions import has_place
from nesting.maps.sizes import wish_of
from nesting.shapes.geometry import Box, polygon_of
from nesting.values.bed import Bed
from nesting.values.job import Job, Rules
from nesting.values.liner import BlankZone, Liner, Ornament
from nesting.values.motif import Motif, Strip, make_job
from nesting.values.panels import Panel

MM = 8000


def grid_motif(seed, columns, rows, sizes, *, division=1, unmarked="detail", most=200):
    """Return a motif of columns x rows ornaments, a cut line between each two, and an order.

    ``division`` and ``most`` are the set-out division and the widest strip in mm.
    """
    dice = random.Random(seed)
    xs, ys = _cuts(dice, columns, (150, 450)), _cuts(dice, rows, (200, 450))
    ornaments = tuple(
        Ornament(f"o{i}.{j}", _leaf(dice, (xs[i], ys[j], xs[i + 1], ys[j + 1])), 5 * MM)
        for i in range(columns)
        for j in range(rows)
    )
    outline = polygon_of(Box(0, 0, xs[-1] * MM, ys[-1] * MM))
    liner = Liner("motif", outline, 13 * MM, unmarked, ornaments)
    strips = tuple(
        Strip(f"{axis}{number}", axis, at * MM, 0, most * MM)
        for axis, cuts in (("x", xs), ("y", ys))
        for number, at in enumerate(cuts[1:-1], 1)
    )
    rules = Rules(25 * MM, 6 * MM, 12 * MM, division * MM)
    job = Job("Motif", "mm", liner, rules, (Bed("flat"),))
    greatest = ((xs[-1] + 3 * most) * MM, (ys[-1] + 2 * most) * MM)
    return give_order(dice, Motif(job, strips, greatest), sizes)


def small_motif(seed):
    """Return a motif small enough for every width of every strip to be tried."""
    dice = random.Random(seed)
    columns, rows = dice.choice([(3, 2), (2, 2), (3, 1), (2, 3)])
    division = dice.choice([20, 25, 30])
    motif = grid_motif(
        seed, columns, rows, 0, division=division, unmarked=dice.choice(["detail", "blank"])
    )
    strips = [
        replace(
            strip,
            greatest=dice.choice([3, 4, 5]) * division * MM,
            least=dice.choice([0, 0, division * MM]),
        )
        for strip in motif.strips
    ]
    if len(strips) > 1 and dice.random() < 0.3:
        strips[1] = replace(
            strips[0], name=strips[1].name, axis=strips[1].axis, at=strips[1].at,
            as_wide_as=strips[0].name,
        )  # fmt: skip
    liner, frame = motif.job.liner, motif.frame
    if dice.random() < 0.5:
        left, high = frame.x1 // MM // 3, int(frame.y1 // MM * dice.choice([1, 0.6]))
        zone = polygon_of(Box(left * MM, 0, (left + 60) * MM, high * MM))
        liner = replace(liner, zones=(BlankZone("drawn", zone),))
    greatest = tuple(
        side + dice.choice([3, 6, 9, 12]) * division * MM for side in (frame.x1, frame.y1)
    )
    motif = replace(
        motif, job=replace(motif.job, liner=liner), strips=tuple(strips), greatest=greatest
    )
    return give_order(dice, motif, dice.choice([2, 3]))


def give_order(dice, motif, sizes):
    """Return the motif with an order of sizes that have a place at widths drawn by the dice."""
    division = motif.job.rules.set_out
    widths = [
        dice.randrange(-(-strip.least // division), strip.greatest // division + 1) * division
        for strip in motif.strips
    ]
    names = [strip.name for strip in motif.strips]
    for number, strip in enumerate(motif.strips):
        if strip.as_wide_as:
            widths[number] = widths[names.index(strip.as_wide_as)]
    job = make_job(motif, tuple(widths))
    ground = survey(job.liner, job.rules)
    panels = []
    for number in range(sizes):
        panel = _panel(dice, job, ground, f"P{number}")
        panels += [panel] if panel else []
    return replace(motif, job=replace(motif.job, panels=tuple(panels)))


def _panel(dice, job, ground, mark):
    names = [ornament.name for ornament in job.liner.ornaments]
    far = job.liner.outline.bounds
    kind = dice.random()
    show = (dice.choice(names),) if kind < 0.3 else ()
    hide = (dice.choice(names),) if kind > 0.6 else ()
    for _ in range(300):
        width = dice.randrange(100, far.x1 // MM, 5) * MM
        height = dice.randrange(80, far.y1 // MM, 5) * MM
        panel = Panel(
            mark, width, height, dice.randrange(1, 9), "flat", must_show=show, must_hide=hide
        )
        if has_place(ground, width, height, wish_of(ground, panel)):
            return panel
    return None


def _cuts(dice, count, sizes):
    cuts = [0]
    for _ in range(count):
        cuts.append(cuts[-1] + dice.randrange(*sizes, 10))
    return cuts


def _leaf(dice, cell):
    left, low, right, high = cell
    near, far = dice.randrange(2, 40), dice.randrange(2, 40)
    return polygon_of(
        Box((left + near) * MM, (low + near) * MM, (right - far) * MM, (high - far) * MM)
    )
