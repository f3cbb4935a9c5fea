"""Jobs made up by a seeded generator: banded liners, plain ground with islands, small ones."""

from __future__ import annotations

import math
import random
from dataclasses import replace

from nesting.maps.ground import survey
from nesting.maps.positions import map_positions
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.units import STEPS_PER_MM as MM
from nesting.values.bed import Bed
from nesting.values.job import Job, Rules
from nesting.values.liner import BlankZone, Liner, Ornament
from nesting.values.panels import Panel

RULES = Rules(25 * MM, 6 * MM, 12 * MM, MM, other_widths=True)


def rectangle(x, y, width, height):
    """Return a rectangle given in whole mm as a polygon in steps."""
    return polygon_of(Box(x * MM, y * MM, (x + width) * MM, (y + height) * MM))


def banded_job(
    seed,
    *,
    sizes=10,
    total=(200, 260),
    width=2400,
    height=1200,
    bands=None,
    ornaments=None,
    other_widths=True,
):
    """Return a job of ``sizes`` sizes on a liner of 6 to 8 by 4 to 5 blocks between blank bands.

    Each block holds one ornament, or all blocks ``ornaments`` of them in even rows; every size has
    a place on the liner. ``bands`` is how many blocks there are (across, up); strips are of any
    width, or without ``other_widths`` of one.
    """
    pick = random.Random(seed)
    across, up = bands or (pick.randint(6, 8), pick.randint(4, 5))
    upright = _bands(pick, across, width, slip=60)
    lying = _bands(pick, up, height, slip=40)
    zones = [
        *(BlankZone(f"v{k}", rectangle(x, 0, b, height)) for k, (x, b) in enumerate(upright)),
        *(BlankZone(f"h{k}", rectangle(0, y, width, b)) for k, (y, b) in enumerate(lying)),
    ]
    blocks = [
        (x + 30, y + 30, w - 60, h - 60)
        for x, w in _blocks(upright, width)
        for y, h in _blocks(lying, height)
        if w > 80 and h > 80
    ]
    waves = blocks if ornaments is None else _split(blocks, ornaments)
    liner = Liner(
        "banded",
        rectangle(0, 0, width, height),
        13 * MM,
        "detail",
        tuple(Ornament(f"wave {k}", rectangle(*wave)) for k, wave in enumerate(waves)),
        tuple(zones),
    )
    stops_x = [0, *(x + b // 2 for x, b in upright), width]
    stops_y = [0, *(y + b // 2 for y, b in lying), height]

    def draw_size():
        a, b = sorted(pick.sample(range(len(stops_x)), 2))
        c, d = sorted(pick.sample(range(len(stops_y)), 2))
        slack = pick.randint(26, 60) // 2 * 2, pick.randint(26, 60) // 2 * 2
        if b - a > 4 or d - c > 3:
            return None
        return stops_x[b] - stops_x[a] - slack[0], stops_y[d] - stops_y[c] - slack[1]

    rules = replace(RULES, other_widths=other_widths)
    return _with_order(f"banded {seed}", liner, rules, pick, draw_size, sizes, total)


def island_job(
    seed,
    *,
    islands=None,
    sizes=10,
    total=(200, 200),
    width=2400,
    height=1200,
    rectangular=False,
):
    """Return a job of ``sizes`` sizes on plain ground with 15 to 50 irregular leaves.

    With ``rectangular`` each ornament is the upright rectangle around its leaf.
    """
    pick = random.Random(seed)
    count = islands or pick.randint(15, 50)
    leaves: list[Polygon] = []
    for _ in range(20_000):
        if len(leaves) == count:
            break
        leaf = _leaf(pick, count, width, height)
        inside = Box(0, 0, width * MM, height * MM).contains(leaf.bounds)
        near = leaf.bounds.grown(*4 * (15 * MM,))
        if inside and not any(near.overlaps(other.bounds) for other in leaves):
            leaves.append(leaf)
    outlines = [polygon_of(leaf.bounds) for leaf in leaves] if rectangular else leaves
    ornaments = tuple(Ornament(f"leaf {k}", outline) for k, outline in enumerate(outlines))
    liner = Liner("islands", rectangle(0, 0, width, height), 13 * MM, "blank", ornaments)

    crowding = max(1.0, math.sqrt(count / 50 * 2400 * 1200 / (width * height)))

    def draw_size():
        across, up = int(1100 / crowding), int(800 / crowding)
        return pick.randrange(min(240, across // 2), across, 5), pick.randrange(
            min(180, up // 2), up, 5
        )

    return _with_order(f"islands {seed}", liner, RULES, pick, draw_size, sizes, total)


def _bands(pick, count, extent, slip):
    found = []
    for k in range(1, count):
        middle = k * extent // count + pick.randint(-slip, slip)
        wide = pick.choice([60, 80, 100, 120])
        found.append((middle - wide // 2, wide))
    return found


def _blocks(bands, extent):
    edges = [0, *(value for start, wide in bands for value in (start, start + wide)), extent]
    return [(a, b - a) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def _split(blocks, count):
    """Return ``count`` rectangles, spread evenly over the blocks, in rows with gaps of 2 mm."""
    found = []
    for number, (x, y, width, height) in enumerate(blocks):
        mine = count // len(blocks) + (number < count % len(blocks))
        across = math.ceil(math.sqrt(mine * width / height))
        up = math.ceil(mine / max(across, 1))
        for k in range(mine):
            column, row = k % across, k // across
            wide, high = width // across, height // up
            found.append((x + column * wide, y + row * high, wide - 2, high - 2))
    return found


def _leaf(pick, count, width, height, points=14):
    long = pick.uniform(40, 110) * (25 / count) ** 0.3
    broad, turn = long * pick.uniform(0.35, 0.8), pick.uniform(0, math.pi)
    cx, cy = pick.uniform(130, width - 130), pick.uniform(130, height - 130)
    ring = []
    for k in range(points):
        angle, bulge = 2 * math.pi * k / points, 1 + pick.uniform(-0.12, 0.12)
        x = long * bulge * math.cos(angle)
        y = broad * bulge * math.sin(angle) * (1 - 0.35 * math.cos(angle))
        ring.append(
            (
                round((cx + x * math.cos(turn) - y * math.sin(turn)) * MM),
                round((cy + x * math.sin(turn) + y * math.cos(turn)) * MM),
            )
        )
    return Polygon(tuple(ring))


def _with_order(title, liner, rules, pick, draw_size, sizes, total):
    ground = survey(liner, rules)
    drawn: set[tuple[int, int]] = set()
    while len(drawn) < sizes:
        size = draw_size()
        if size is None or size[0] <= 120 or size[1] <= 100 or size in drawn:
            continue
        if map_positions(ground, size[0] * MM, size[1] * MM).first_place() is not None:
            drawn.add(size)
    wanted = _quantities(pick, sizes, pick.randint(*total))
    panels = tuple(
        Panel(f"P{k + 1}", w * MM, h * MM, quantity, "flat")
        for k, ((w, h), quantity) in enumerate(zip(sorted(drawn), wanted, strict=True))
    )
    return Job(title, "mm", liner, rules, (Bed("flat"),), panels)


def _quantities(pick, sizes, total):
    wanted = [total // sizes] * sizes
    for _ in range(total - sum(wanted)):
        wanted[pick.randrange(sizes)] += 1
    for _ in range(3 * sizes):
        a, b = pick.randrange(sizes), pick.randrange(sizes)
        moved = min(wanted[a] - 1, pick.randint(0, 4))
        wanted[a] -= moved
        wanted[b] += moved
    return wanted
