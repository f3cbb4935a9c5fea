"""Every benchmark, one after the other, and its table on the page; ``--quick`` only prints."""

from __future__ import annotations

import argparse
import time

import banded
import gaps
import growth
import islands
import page
import peers
import scans
import screening
import startup
import zones
from common import fill_page

ALL = {
    "startup": startup,
    "banded": banded,
    "gaps": gaps,
    "islands": islands,
    "peers": peers,
    "growth": growth,
    "screening": screening,
    "page": page,
    "zones": zones,
    "scans": scans,
}


def main() -> None:
    """Run all; write docs/benchmarks.md unless ``--quick``."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="few cases, print only")
    quick = parser.parse_args().quick
    for name, benchmark in ALL.items():
        started = time.perf_counter()
        lines = benchmark.run(quick)
        print("\n".join(["", *lines, f"({time.perf_counter() - started:.0f} s)"]), flush=True)
        if not quick:
            fill_page(name, lines)


if __name__ == "__main__":
    main()
