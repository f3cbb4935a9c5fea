"""How long `nesting --help` takes against the import of its command-line library alone."""

from __future__ import annotations

import os
import subprocess
import sys
import time

from common import ROOT, Lines, command, median, table

HELP = "import sys; sys.argv[:] = ['nesting', '--help']; from nesting.cli import main; main()"


def run(quick: bool) -> Lines:
    """`nesting --help` against `python -c "import click"`, in turns."""
    times: dict[str, list[float]] = {"import click": [], HELP: []}
    for _ in range(5 if quick else 25):
        for code, taken in times.items():
            taken.append(_time(code))
    alone, full = (median(taken) for taken in times.values())
    rows = [
        ('`python -c "import click"`, median [s]', f"{alone:.3f}"),
        ("`nesting --help`, median [s]", f"{full:.3f}"),
        ("ratio", f"{full / alone:.2f}"),
    ]
    return table((f"start-up, {len(times[HELP])} runs each, in turns", "value"), rows)


def _time(code: str) -> float:
    """Return the seconds one fresh interpreter takes; an exit code other than 0 stops the run."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    started = time.perf_counter()
    subprocess.run(
        [sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL, env=environment
    )
    return time.perf_counter() - started


if __name__ == "__main__":
    command("startup", run)
