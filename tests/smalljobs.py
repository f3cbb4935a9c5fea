"""Jobs small enough to be solved a second way, and that second way's view of the rules.

Every length of such a job is a whole number of *cells*, a dam's width too, so a panel pushed until
it is stopped lies on the cells, and looking at every cell misses no place worth having.
The rules are read here from sets of cells alone, without strips, maps or polygons.
"""

from __future__ import annotations

import random
from dataclasses import replace

import numpy as np
import shapely

from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.units import STEPS_PER_MM as MM
from nesting.values.bed import Bed
from nesting.values.job import Job, Rules
from nesting.values.liner import BlankZone, Liner, Ornament
from nesting.values.panels import Panel

CELL = 20 * MM
KINDS = ("bands", "islands", "wishes", "corner", "hole")


def cells(x, y, width, height):
    """Return a rectangle given in cells."""
    return polygon_of(Box(x * CELL, y * CELL, (x + width) * CELL, (y + height) * CELL))


def small_job(kind, seed, *, width=24, height=16, sizes=4, most=5, dam=1):
    """Return a job of ``sizes`` sizes, one to ``most`` of each, every one with a place."""
    pick = random.Random(f"{kind} {seed}")
    liner = {
        "bands": _banded,
        "islands": _islands,
        "wishes": _islands,
        "corner": _cornered,
        "hole": _holed,
    }[kind](pick, width, height)
    rules = Rules(dam * CELL, pick.choice([0, 1]) * CELL, pick.choice([0, 1, 2]) * CELL, MM)
    bare = Job(f"{kind} {seed}", "mm", liner, rules, (Bed("table"),))
    panels: list[Panel] = []
    while len(panels) < sizes:
        panel = _draw_panel(pick, f"P{len(panels) + 1}", bare, width, height, most)
        if kind == "wishes":
            panel = _with_wishes(pick, bare, panel)
        known = {(p.width, p.height, p.must_show, p.must_hide) for p in panels}
        is_new = (panel.width, panel.height, panel.must_show, panel.must_hide) not in known
        if is_new and places_by_rule(bare, panel):
            panels.append(panel)
    return replace(bare, panels=tuple(panels))


def places_by_rule(job, panel):
    """Return every place (x, y) [cells] at which the panel breaks no rule, from sets of cells."""
    grid = _Grid(job)
    show = [grid.ornament(name) for name in panel.must_show]
    hide = [grid.ornament(name) for name in panel.must_hide]
    width, height = panel.width // CELL, panel.height // CELL
    found = []
    for x in range(grid.width - width + 1):
        for y in range(grid.height - height + 1):
            body = grid.window(x, y, x + width, y + height)
            shown = all(mask.sum() == mask[body].sum() for mask in show)
            hidden = not any(mask[body].any() for mask in hide)
            if shown and hidden and grid.allows(x, y, width, height):
                found.append((x, y))
    return found


class _Grid:
    """A job as arrays of cells, with a rim of cells off the liner all around."""

    def __init__(self, job):
        box = job.liner.outline.bounds
        assert (box.x0, box.y0) == (0, 0)
        self.job = job
        self.width, self.height = box.x1 // CELL, box.y1 // CELL
        self.rim = 1 + (job.rules.dam_width + job.rules.dam_clearance) // CELL
        self.dam = job.rules.dam_width // CELL
        self.clearance = job.rules.dam_clearance // CELL
        self.margin = job.rules.edge_margin // CELL
        self.liner = self._mask(job.liner.outline)
        self.ornaments = self._any(ornament.outline for ornament in job.liner.ornaments)
        zones = self._any(zone.outline for zone in job.liner.zones)
        self.blank = self.liner if job.liner.unmarked == "blank" else self.liner & zones

    def ornament(self, name):
        """Return the cells of one ornament."""
        return next(
            self._mask(ornament.outline)
            for ornament in self.job.liner.ornaments
            if ornament.name == name
        )

    def window(self, x0, y0, x1, y1):
        """Return the index of the cells from (x0, y0) up to (x1, y1)."""
        return (
            slice(x0 + self.rim, x1 + self.rim),
            slice(y0 + self.rim, y1 + self.rim),
        )

    def allows(self, x, y, width, height):
        """Whether a panel there lies on the liner, its dams on blank ground, no ornament cut."""
        body = self.window(x, y, x + width, y + height)
        if not self.liner[body].all():
            return False
        left, right, bottom, top = self._dam_sides(x, y, width, height)
        ring = np.zeros_like(self.liner)
        dam = self.dam
        x0, y0 = x - left * dam, y - bottom * dam
        ring[self.window(x0, y0, x + width + right * dam, y + height + top * dam)] = True
        ring[body] = False
        if not self.blank[ring].all():
            return False
        beyond = _spread(ring, self.clearance)
        beyond[body] = False
        within = np.zeros_like(self.liner)
        within[body] = True
        m = self.margin
        inner = self.window(
            x + left * m, y + bottom * m, x + width - right * m, y + height - top * m
        )
        if left * m + right * m < width and bottom * m + top * m < height:
            within[inner] = False
        return not self.ornaments[beyond | within].any()

    def _dam_sides(self, x, y, width, height):
        """Return 0 for each side with nothing but the outside of the liner beyond it, else 1."""
        beyond = (
            self.window(x - 1, y, x, y + height),
            self.window(x + width, y, x + width + 1, y + height),
            self.window(x, y - 1, x + width, y),
            self.window(x, y + height, x + width, y + height + 1),
        )
        return tuple(int(self.liner[side].any()) for side in beyond)

    def _any(self, polygons):
        return np.logical_or.reduce([np.zeros_like(self.liner), *map(self._mask, polygons)])

    def _mask(self, polygon):
        shape = shapely.Polygon(polygon.shell, polygon.holes)
        middles = np.meshgrid(
            (np.arange(-self.rim, self.width + self.rim) + 0.5) * CELL,
            (np.arange(-self.rim, self.height + self.rim) + 0.5) * CELL,
            indexing="ij",
        )
        return shapely.contains_xy(shape, *middles)


def _spread(mask, by):
    """Return the cells no further than ``by`` cells from the mask, along x and along y."""
    wide = np.pad(mask, by)
    parts = [
        wide[dx : dx + mask.shape[0], dy : dy + mask.shape[1]]
        for dx in range(2 * by + 1)
        for dy in range(2 * by + 1)
    ]
    return np.logical_or.reduce(parts)


def _draw_panel(pick, mark, job, width, height, most):
    size = pick.randint(3, width), pick.randint(3, height)
    if size[0] * size[1] > width * height // 2 and pick.random() < 0.8:
        size = max(3, size[0] // 2), max(3, size[1] // 2)
    return Panel(mark, size[0] * CELL, size[1] * CELL, pick.randint(1, most), job.beds[0].name)


def _with_wishes(pick, job, panel):
    names = [ornament.name for ornament in job.liner.ornaments]
    pick.shuffle(names)
    show, hide = pick.choice([(0, 0), (1, 0), (0, 1), (0, 2), (1, 1), (2, 0)])
    return replace(panel, must_show=tuple(names[:show]), must_hide=tuple(names[show : show + hide]))


def _banded(pick, width, height):
    upright = _bands(pick, width, pick.choice([3, 4]))
    lying = _bands(pick, height, pick.choice([2, 3]))
    zones = [
        *(BlankZone(f"upright {x}", cells(x, 0, broad, height)) for x, broad in upright),
        *(BlankZone(f"lying {y}", cells(0, y, width, broad)) for y, broad in lying),
    ]
    return Liner(
        "banded",
        cells(0, 0, width, height),
        13 * MM,
        "detail",
        tuple(
            Ornament(f"wave {k}", block)
            for k, block in enumerate(_blocks(pick, upright, lying, width, height))
        ),
        tuple(zones),
    )


def _bands(pick, extent, count):
    """Return (start, breadth) of bands one to three cells broad, one in each part of the extent."""
    found = []
    for k in range(count):
        low, high = k * extent // count, (k + 1) * extent // count
        broad = pick.randint(1, 3)
        found.append((pick.randint(low, high - broad), broad))
    return found


def _blocks(pick, upright, lying, width, height):
    """Return ornaments that keep one cell from the bands, where there is room and luck."""
    for x0, x1 in _between(upright, width):
        for y0, y1 in _between(lying, height):
            if x1 - x0 > 2 and y1 - y0 > 2 and pick.random() < 0.8:
                yield cells(x0 + 1, y0 + 1, x1 - x0 - 2, y1 - y0 - 2)


def _between(bands, extent):
    faces = [0, *(face for start, broad in bands for face in (start, start + broad)), extent]
    return list(zip(faces[::2], faces[1::2], strict=True))


def _islands(pick, width, height):
    boxes = _scattered(pick, Box(0, 0, width, height), pick.randint(3, 6))
    return Liner(
        "islands",
        cells(0, 0, width, height),
        13 * MM,
        "blank",
        tuple(Ornament(f"leaf {k}", cells(*box)) for k, box in enumerate(boxes)),
    )


def _cornered(pick, width, height):
    """Return a liner with a corner missing and islands on what is left of it."""
    x, y = pick.randint(width // 3, 2 * width // 3), pick.randint(height // 3, 2 * height // 3)
    ring = [(0, 0), (width, 0), (width, y), (x, y), (x, height), (0, height)]
    if pick.random() < 0.5:
        ring = [(width - a, height - b) for a, b in ring]
    outline = Polygon(tuple((a * CELL, b * CELL) for a, b in ring))
    return _on(pick, outline, width, height)


def _holed(pick, width, height):
    """Return a liner with a hole and islands around it."""
    broad, high = pick.randint(2, 5), pick.randint(2, 4)
    x, y = pick.randint(1, width - broad - 1), pick.randint(1, height - high - 1)
    hole = cells(x, y, broad, high).shell
    return _on(pick, Polygon(cells(0, 0, width, height).shell, (hole,)), width, height)


def _on(pick, outline, width, height):
    shape = shapely.Polygon(outline.shell, outline.holes)
    boxes = [cells(*box) for box in _scattered(pick, Box(0, 0, width, height), 4)]
    ornaments = [box for box in boxes if shape.covers(shapely.Polygon(box.shell))]
    return Liner(
        "cut out",
        outline,
        13 * MM,
        "blank",
        tuple(Ornament(f"leaf {k}", box) for k, box in enumerate(ornaments)),
    )


def _scattered(pick, ground, count):
    """Return boxes (x, y, width, height) that do not touch one another."""
    found: list[tuple[int, int, int, int]] = []
    for _ in range(200):
        if len(found) == count:
            break
        broad, high = pick.randint(1, 4), pick.randint(1, 3)
        x, y = pick.randint(0, ground.x1 - broad), pick.randint(0, ground.y1 - high)
        near = Box(x - 1, y - 1, x + broad + 1, y + high + 1)
        if not any(near.overlaps(Box(a, b, a + w, b + h)) for a, b, w, h in found):
            found.append((x, y, broad, high))
    return found
