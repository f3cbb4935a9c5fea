"""Banded jobs whose strips must be of one width, beside the same jobs with strips of any width."""

from __future__ import annotations

from common import Case, Lines, command, measure, median, percentile, seconds, share, table

LIMIT_S = 60


def run(quick: bool) -> Lines:
    """Banded jobs as in their own table, 60 s each, once with every gap and once by the rule."""
    seeds = range(1, 4 if quick else 21)
    pairs = [
        [
            measure(Case("banded_job", seed, LIMIT_S, {"other_widths": free}))
            for free in (True, False)
        ]
        for seed in seeds
    ]
    whole = [(free, strict) for free, strict in pairs if "error" not in free | strict]
    results = [strict for _, strict in whole]
    more = [strict["casts"] - free["casts"] for free, strict in whole]
    gaps = [r["casts"] - r["bound"] for r in results]
    ratios = [strict["processor_s"] / free["processor_s"] for free, strict in whole]
    rows = [
        (
            f"jobs (seeds 1 to {seeds[-1]}), and failures",
            f"{len(pairs) - len(whole)} of {len(pairs)}",
        ),
        ("schedules the checker accepts", share(not r["findings"] for r in results)),
        (f"fewest casts proved within {LIMIT_S} s", share(r["proved"] for r in results)),
        ("gap, largest [casts]", f"{max(gaps, default=0)}"),
        ("jobs that take more casts than with every gap", share(n > 0 for n in more)),
        ("casts more, largest", f"{max(more, default=0)}"),
        ("processor time against every gap: median", f"{median(ratios):.1f} times"),
        ("processor time against every gap: largest", f"{max(ratios, default=0):.0f} times"),
        ("processor: median [s]", seconds(median([r["processor_s"] for r in results]))),
        (
            "processor: 95th percentile [s]",
            seconds(percentile([r["processor_s"] for r in results], 0.95)),
        ),
    ]
    return table(("banded jobs, strips of one width", "value"), rows)


if __name__ == "__main__":
    command("gaps", run)
