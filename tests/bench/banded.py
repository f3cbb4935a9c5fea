"""Generated banded jobs: how many are proved, and how fast."""

from __future__ import annotations

from common import Case, Lines, command, measure, median, percentile, seconds, share, table


def run(quick: bool) -> Lines:
    """Banded jobs, 2400 x 1200 mm, 6 to 8 by 4 to 5 bands, 10 sizes, 200 to 260 panels."""
    seeds = range(1, 6 if quick else 41)
    all_results = [measure(Case("banded_job", seed, 60)) for seed in seeds]
    results = [result for result in all_results if "error" not in result]
    casts_s = [r["casts_s"] for r in results if r["casts_s"] is not None and r["proved"]]
    failed = share("error" in r for r in all_results)
    rows = [
        (f"jobs (seeds 1 to {seeds[-1]}), and failures", failed),
        ("schedules the checker accepts", share(not r["findings"] for r in results)),
        ("fewest casts proved", share(r["proved"] for r in results)),
        ("fewest layouts proved as well", share(r["layouts_proved"] for r in results)),
        *_times("until casts are proved", casts_s),
        *_times("the whole of `schedule_casts`", [r["seconds"] for r in results]),
        *_times("the same, processor", [r["processor_s"] for r in results]),
        ("peak memory, largest [MiB]", f"{max((r['peak_mib'] for r in results), default=0):.0f}"),
    ]
    return table(("banded jobs", "value"), rows)


def _times(what: str, values: list[float]) -> list[tuple[str, str]]:
    return [
        (f"{what}: median [s]", seconds(median(values))),
        (f"{what}: 95th percentile [s]", seconds(percentile(values, 0.95))),
        (f"{what}: longest [s]", seconds(max(values, default=None))),
    ]


if __name__ == "__main__":
    command("banded", run)
