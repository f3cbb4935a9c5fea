"""Generated island jobs: plain ground with irregular ornaments, 30 seconds each."""

from __future__ import annotations

from common import Case, Lines, command, measure, median, percentile, seconds, share, table

LIMIT_S = 30


def run(quick: bool) -> Lines:
    """Island jobs, 2400 x 1200 mm, 15 to 50 leaves, 10 sizes, 200 panels, 30 s each."""
    seeds = range(1, 4 if quick else 21)
    all_results = [measure(Case("island_job", seed, LIMIT_S)) for seed in seeds]
    results = [result for result in all_results if "error" not in result]
    gaps = [r["casts"] - r["bound"] for r in results]
    shares = [(r["casts"] - r["bound"]) / r["bound"] for r in results]
    casts_s = [r["casts_s"] for r in results if r["casts_s"] is not None and r["proved"]]
    whole_s = [r["seconds"] for r in results]
    failed = share("error" in r for r in all_results)
    rows = [
        (f"jobs (seeds 1 to {seeds[-1]}), and failures", failed),
        ("schedules the checker accepts", share(not r["findings"] for r in results)),
        (f"fewest casts proved within {LIMIT_S} s", share(r["proved"] for r in results)),
        ("fewest layouts proved as well", share(r["layouts_proved"] for r in results)),
        ("gap, median [casts]", f"{median(gaps):g}"),
        ("gap, median", f"{median(shares):.1%}"),
        ("gap, largest [casts]", f"{max(gaps, default=0)}"),
        ("gap, largest", f"{max(shares, default=0):.1%}"),
        ("until casts are proved: median [s]", seconds(median(casts_s))),
        ("the whole of `schedule_casts`: median [s]", seconds(median(whole_s))),
        ("the whole of `schedule_casts`: 95th percentile [s]", seconds(percentile(whole_s, 0.95))),
        ("peak memory, largest [MiB]", f"{max((r['peak_mib'] for r in results), default=0):.0f}"),
    ]
    return table(("island jobs", "value"), rows)


if __name__ == "__main__":
    command("islands", run)
