"""Motifs of twelve groups and ten sizes: how long the proved least liner takes, and the trade."""

from __future__ import annotations

import heapq
import json
import math
import subprocess
import sys
import time
from typing import Any

from common import ROOT, Lines, command, median, percentile, seconds, share, table


def run(quick: bool) -> Lines:
    """Motifs of 4 x 3 groups, 5 strips, 10 sizes: the least liner, and the trade on the first."""
    seeds = range(1, 4 if quick else 31)
    found = [_measure(seed, trade=False) for seed in seeds]
    traded = [_measure(seed, trade=True) for seed in seeds[: 2 if quick else 10]]
    walls, processor = ([each[key] for each in found] for key in ("seconds", "processor_s"))
    walls_traded, processor_traded = (
        [each[key] for each in traded] for key in ("seconds", "processor_s")
    )
    offers = [proved for each in traded for proved in each["offers"]]
    rows = [
        (f"motifs (seeds 1 to {seeds[-1]}), least area proved", share(e["least"] for e in found)),
        ("places the exact maps accept", share(each["accepted"] for each in found)),
        ("least liner, all sizes: median [s]", seconds(median(walls))),
        ("least liner, all sizes: 95th percentile [s]", seconds(percentile(walls, 0.95))),
        ("least liner, all sizes: longest [s]", seconds(max(walls))),
        ("the same, processor: median [s]", seconds(median(processor))),
        ("the same, processor: longest [s]", seconds(max(processor))),
        (
            f"with the trade (seeds 1 to {len(traded)}): proved complete",
            share(each["complete"] for each in traded),
        ),
        ("its offers of which no less area is proved", share(offers)),
        ("least liners whose fewest casts are proved", share(e["casts"] for e in traded)),
        ("with the trade: median [s]", seconds(median(walls_traded))),
        ("with the trade: longest [s]", seconds(max(walls_traded))),
        ("the same, processor: median [s]", seconds(median(processor_traded))),
        ("the same, processor: longest [s]", seconds(max(processor_traded))),
        ("liners looked at in it, median", f"{median(each['tried'] for each in traded):g}"),
    ]
    return table(("strips", "value"), rows)


def _measure(seed: int, *, trade: bool) -> dict[str, Any]:
    """Return what a fresh process measured."""
    case = json.dumps({"seed": seed, "trade": trade})
    words = [sys.executable, __file__, "--case", case]
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    result: dict[str, Any] = json.loads(done.stdout)
    print(f"seed {seed}: {result}", file=sys.stderr, flush=True)
    return result


def _answer(seed: int, trade: bool) -> dict[str, Any]:
    """Answer one motif in this process."""
    sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]
    from makemotifs import grid_motif

    from nesting.zones.places import refused_places
    from nesting.zones.strips import plan_zones, prepare
    from nesting.zones.trade import weigh_rubber

    motif = grid_motif(seed, 4, 3, 10)
    started, processor = time.perf_counter(), time.process_time()
    setting = prepare(motif)
    zoning = plan_zones(setting)
    found = weigh_rubber(setting, zoning) if trade else None
    return {
        "seconds": time.perf_counter() - started,
        "processor_s": time.process_time() - processor,
        "least": zoning.is_exact and zoning.area == _least_area(setting),
        "accepted": not refused_places(motif, zoning.job, zoning.places),
        "tried": found.tried if found else 1,
        "complete": found.is_complete if found else False,
        "casts": found.casts_proved if found else False,
        "offers": [found.is_proved(offer) for offer in found.offers] if found else [],
    }


def _least_area(setting: Any) -> int | None:
    """Return the area below which no liner has a place for every size.

    By the regions of widths, which share no program with the search for the least liner: the first
    to give all sizes, least area first, after all others were parted or are empty.
    """
    from nesting.values.motif import liner_size
    from nesting.zones.region import Ways, in_steps

    ways = Ways(setting.motif, setting.needs, setting.grid)
    root = ways.root()
    parts, turn = [] if root is None else [root], 0
    left: list[tuple[int, int, Any]] = []
    while parts or left:
        for part in parts:
            turn += 1
            widths = in_steps(ways.widths(part), setting.grid)
            heapq.heappush(left, (math.prod(liner_size(setting.motif, widths)), turn, part))
        area, _, region = heapq.heappop(left)
        met = ways.met(region)
        if met.all():
            return area
        parts = ways.split(region, ways.cut_for(region, int(met.argmin())))
    return None


if __name__ == "__main__":
    if sys.argv[1:2] == ["--case"]:
        print(json.dumps(_answer(**json.loads(sys.argv[2]))))
    else:
        command("zones", run)
