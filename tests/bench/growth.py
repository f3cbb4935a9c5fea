"""How time and memory grow with sizes, panels and ornaments, and the exponents of a fit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from common import Case, Lines, command, exponent, measure, median, seconds, share, table

LIMIT_S = 20
SEEDS = 1


@dataclass(frozen=True, slots=True)
class Series:
    """One thing that grows: its name, the maker of the jobs, the option, and its values."""

    name: str
    maker: str
    option: str
    values: tuple[int, ...]
    fixed: dict[str, Any]

    def cases(self, value: int, seeds: int) -> list[Case]:
        """Return the cases of one value, one per seed."""
        grown = [value, value] if self.option == "total" else value
        options = {**self.fixed, self.option: grown}
        if self.option == "width":
            options["islands"] = value // 120
        return [Case(self.maker, seed, LIMIT_S, options) for seed in range(1, seeds + 1)]


ALL_SERIES = (
    Series("sizes, in bands", "banded_job", "sizes", (5, 10, 20, 40), {"total": [220, 220]}),
    Series("panels, in bands", "banded_job", "total", (50, 200, 1000, 3000, 10_000), {}),
    Series("ornaments, in bands", "banded_job", "ornaments", (10, 100, 500, 2000), {}),
    Series(
        "rectangles on plain ground",
        "island_job",
        "islands",
        (10, 20, 40, 80),
        {"rectangular": True},
    ),
    Series(
        "rectangles, longer liner",
        "island_job",
        "width",
        (1200, 2400, 4800),
        {"rectangular": True},
    ),
)


def run(quick: bool) -> Lines:
    """Sizes 5 to 40, panels 50 to 10,000, ornaments 10 to 2,000: medians and exponents."""
    head = ("what grows", "n", "places", "proved", "gap", "casts [s]", "all [s]", "peak [MiB]")
    rows = [row for series in ALL_SERIES for row in _rows(series, quick)]
    return table(head, rows)


def _rows(series: Series, quick: bool) -> Iterator[tuple[str, ...]]:
    values = series.values[:: len(series.values) - 1] if quick else series.values
    casts_s, whole_s, sizes = [], [], []
    for value in values:
        measured = [measure(case) for case in series.cases(value, 1 if quick else SEEDS)]
        results = [result for result in measured if "error" not in result]
        if not results:
            yield series.name, f"{value}", "-", measured[0]["error"], "-", "-", "-", "-"
            continue
        sizes.append(value)
        casts_s.append(median(r["casts_s"] or r["seconds"] for r in results))
        whole_s.append(median(r["seconds"] for r in results))
        yield (
            series.name,
            f"{value:,}",
            f"{median(r['places'] for r in results):,.0f}",
            share(r.get("proved", False) for r in measured),
            f"{median(r['casts'] - r['bound'] for r in results):g}",
            seconds(casts_s[-1]),
            seconds(whole_s[-1]),
            f"{max(r['peak_mib'] for r in results):.0f}",
        )
    exponents = (f"**{exponent(sizes, taken):.2f}**" for taken in (casts_s, whole_s))
    yield f"{series.name}: **exponent of n**", "", "", "", "", *exponents, ""


if __name__ == "__main__":
    command("growth", run)
