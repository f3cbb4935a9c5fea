"""Motifs of twelve groups and ten sizes: how long the proved least liner takes, and the trade."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from typing import Any

from common import ROOT, Lines, command, median, percentile, seconds, share, table


def run(quick: bool) -> Lines:
    """Motifs of 4 x 3 groups, 5 strips, 10 sizes; the trade on the first few with 6 sizes."""
    seeds = range(1, 4 if quick else 31)
    found = [_measure(seed, 10, trade=False) for seed in seeds]
    traded = [_measure(seed, 6, trade=True) for seed in seeds[: 1 if quick else 5]]
    walls, processor = ([each[key] for each in found] for key in ("seconds", "processor_s"))
    rows = [
        (
            f"motifs (seeds 1 to {seeds[-1]}), answered and proved",
            share(e["proved"] for e in found),
        ),
        ("places the exact maps accept", share(each["accepted"] for each in found)),
        ("least liner, all sizes: median [s]", seconds(median(walls))),
        ("least liner, all sizes: 95th percentile [s]", seconds(percentile(walls, 0.95))),
        ("least liner, all sizes: longest [s]", seconds(max(walls))),
        ("the same, processor: median [s]", seconds(median(processor))),
        ("the same, processor: longest [s]", seconds(max(processor))),
        (
            f"with the trade, 6 sizes, seeds 1 to {len(traded)}: median [s]",
            seconds(median(each["seconds"] for each in traded)),
        ),
        ("the same: longest [s]", seconds(max(each["seconds"] for each in traded))),
        ("liners looked at in it, median", f"{median(each['tried'] for each in traded):g}"),
    ]
    return table(("strips", "value"), rows)


def _measure(seed: int, sizes: int, *, trade: bool) -> dict[str, Any]:
    """Return what a fresh process measured."""
    case = json.dumps({"seed": seed, "sizes": sizes, "trade": trade})
    words = [sys.executable, __file__, "--case", case]
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    result: dict[str, Any] = json.loads(done.stdout)
    print(f"seed {seed}: {result}", file=sys.stderr, flush=True)
    return result


def _answer(seed: int, sizes: int, trade: bool) -> dict[str, Any]:
    """Answer one motif in this process."""
    sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]
    from makemotifs import grid_motif

    from nesting.zones.zoneplaces import refused_places
    from nesting.zones.zonetrade import weigh_rubber
    from nesting.zones.zoning import plan_zones, prepare

    motif = grid_motif(seed, 4, 3, sizes)
    started, processor = time.perf_counter(), time.process_time()
    setting = prepare(motif)
    zoning = plan_zones(setting)
    tried = weigh_rubber(setting, zoning).tried if trade else 1
    return {
        "seconds": time.perf_counter() - started,
        "processor_s": time.process_time() - processor,
        "proved": bool(zoning.frontier),
        "accepted": not refused_places(motif, zoning.job, zoning.places),
        "tried": tried,
    }


if __name__ == "__main__":
    if sys.argv[1:2] == ["--case"]:
        print(json.dumps(_answer(**json.loads(sys.argv[2]))))
    else:
        command("zones", run)
