"""What the benchmarks share: a case measured in a process of its own, tables, the page they fill.

Every case runs in a fresh process, so its peak memory is its own and no case warms up another.
This module and the scripts import nothing of the package: a small parent starts small children.
"""

from __future__ import annotations

import argparse
import json
import math
import statistics
import subprocess
import sys
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
PAGE = ROOT / "docs" / "benchmarks.md"
Lines = list[str]
Run = Callable[[bool], Lines]
"""Takes whether to be quick, returns the table."""


@dataclass(frozen=True, slots=True)
class Case:
    """A generated job and who solves it: ``nesting`` or one of the peers.

    ``options`` go to the maker of the job, ``given`` to the peer; ``limit`` is in seconds.
    """

    maker: str
    seed: int
    limit: float
    options: dict[str, Any] = field(default_factory=dict)
    solver: str = "nesting"
    given: dict[str, Any] = field(default_factory=dict)
    profile: bool = False


def measure(case: Case) -> dict[str, Any]:
    """Return what the child measured; ``error`` holds its last words where it failed."""
    command = [sys.executable, str(HERE / "measure.py"), json.dumps(_as_dict(case))]
    try:
        done = subprocess.run(
            command, capture_output=True, text=True, timeout=3 * case.limit + 120, check=False
        )
    except subprocess.TimeoutExpired as late:
        return {"error": f"stopped after {late.timeout:g} s", **_as_dict(case)}
    lines = (done.stdout if done.returncode == 0 else done.stderr).splitlines()
    if done.returncode or not lines:
        return {"error": lines[-1] if lines else f"exit {done.returncode}", **_as_dict(case)}
    result: dict[str, Any] = json.loads(lines[-1]) | _as_dict(case)
    print(_line(result), file=sys.stderr, flush=True)
    if case.profile:
        print(done.stderr, file=sys.stderr)
    return result


def median(values: Iterable[float]) -> float:
    """Return the median, or nan of nothing."""
    return statistics.median(known) if (known := list(values)) else math.nan


def percentile(values: Iterable[float], share: float) -> float:
    """Return the least value that ``share`` of all do not exceed, or nan of nothing."""
    ordered = sorted(values)
    return ordered[max(0, math.ceil(share * len(ordered)) - 1)] if ordered else math.nan


def exponent(sizes: Sequence[float], seconds: Sequence[float]) -> float:
    """Return e of the least-squares fit seconds = constant * size ** e."""
    xs, ys = [math.log(n) for n in sizes], [math.log(s) for s in seconds]
    if len(xs) < 2:
        return math.nan
    return statistics.linear_regression(xs, ys).slope


def table(head: Sequence[str], rows: Iterable[Sequence[object]]) -> Lines:
    """Return a table in markdown; numbers after the first column are set right."""
    return [
        _row(head),
        _row(["---", *["---:"] * (len(head) - 1)]),
        *(_row([str(cell) for cell in row]) for row in rows),
    ]


def seconds(value: float | None) -> str:
    """Return seconds to three figures, or a dash where there are none."""
    if value is None or math.isnan(value):
        return "-"
    return f"{value:.0f}" if value >= 100 else f"{value:.3g}" if value >= 0.1 else f"{value:.2f}"


def share(flags: Iterable[bool]) -> str:
    """Return how many of how many hold."""
    known = list(flags)
    return f"{sum(known)} of {len(known)}"


def fill_page(name: str, lines: Lines) -> None:
    """Put lines between the page's two marks of that name.

    Raises
    ------
    ValueError
        Where the page has no such marks.
    """
    begin, end = f"<!-- {name} -->", f"<!-- end of {name} -->"
    before, found, rest = PAGE.read_text("utf-8").partition(begin)
    _, closed, after = rest.partition(end)
    if not found or not closed:
        raise ValueError(f"{PAGE}: the marks {begin} and {end} must both stand in it; add them.")
    PAGE.write_text(f"{before}{begin}\n" + "\n".join(lines) + f"\n{end}{after}", "utf-8")


def command(name: str, run: Run) -> None:
    """Run one benchmark from the command line: print its table, and put it on the page if asked."""
    parser = argparse.ArgumentParser(description=run.__doc__)
    parser.add_argument("--quick", action="store_true", help="few cases, to see that it works")
    parser.add_argument("--write", action="store_true", help=f"put the table in {PAGE.name}")
    chosen = parser.parse_args()
    lines = run(chosen.quick)
    print("\n".join(lines))
    if chosen.write:
        fill_page(name, lines)


def _as_dict(case: Case) -> dict[str, Any]:
    return {name: getattr(case, name) for name in Case.__slots__}


def _line(result: dict[str, Any]) -> str:
    keys = ["seed", "options", "solver", "casts", "bound", "layouts", "layouts_bound"]
    keys += ["casts_s", "seconds", "processor_s", "peak_mib", "places", "findings", "verdict"]
    known = {key: result[key] for key in keys if result.get(key) not in (None, {})}
    return f"{result['maker']} " + " ".join(f"{key}={value}" for key, value in known.items())


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"
