"""How soon `nesting page` replies on liners of 50 ornaments, over a real loopback socket."""

from __future__ import annotations

import http.client
import json
import sys
import time
from urllib.parse import urlencode

from common import HERE, ROOT, Lines, command, median, percentile, table

sys.path[:0] = [str(HERE.parent), str(ROOT)]

SIZES = [(w, h) for w in (300, 450, 600, 900, 1200, 1500) for h in (200, 350, 500, 700, 900)]
HEAD = (
    "reply [ms]",
    "sizes",
    "median",
    "95th percentile",
    "processor, median",
    "processor, 95th percentile",
)
PARTS = {"fit": "yes or no, first place, dams", "places": "every place"}


def run(quick: bool) -> Lines:
    """Ask each liner for sizes that fit and sizes that do not, one connection, in turns."""
    from threading import Thread

    from makejobs import banded_job, island_job

    from nesting.bench.server import PageServer

    jobs = {
        "bands, 50 rectangles": banded_job(3, bands=(8, 5), ornaments=50),
        "islands, 50 leaves of 14 corners": island_job(3, islands=50),
    }
    rows = []
    for name, job in jobs.items():
        with PageServer(job, "job.toml") as server:
            Thread(target=server.serve_forever, daemon=True).start()
            link = http.client.HTTPConnection("127.0.0.1", server.server_port)
            for part, words in PARTS.items():
                rows += _rows(f"{name}: {words}", _ask(link, part, SIZES[:: 6 if quick else 1]))
            link.close()
            server.shutdown()
    return table(HEAD, rows)


def _ask(link: http.client.HTTPConnection, part: str, sizes: list[tuple[int, int]]) -> dict:
    """Return the milliseconds of each size by whether it fits, None where that takes longer."""
    taken: dict[object, list[tuple[float, float]]] = {}
    for width, height in sizes:
        query = urlencode({"width": width, "height": height})
        fits = json.loads(_get(link, f"/fit?{query}"))["fits"]
        started = time.perf_counter(), time.process_time()
        _get(link, f"/{part}?{query}")
        ended = time.perf_counter(), time.process_time()
        wall, processor = (1000 * (b - a) for a, b in zip(started, ended, strict=True))
        taken.setdefault(fits, []).append((wall, processor))
    return taken


def _get(link: http.client.HTTPConnection, path: str) -> bytes:
    link.request("GET", path)
    return link.getresponse().read()


def _rows(name: str, taken: dict) -> list[tuple[object, ...]]:
    words = {True: "fits", False: "does not fit"}
    return [
        (f"{name}; {words[fits]}", len(times), *_figures(wall), *_figures(processor))
        for fits, times in taken.items()
        for wall, processor in [zip(*times, strict=True)]
    ]


def _figures(times: tuple[float, ...]) -> list[str]:
    return [f"{x:.0f}" for x in (median(times), percentile(times, 0.95))]


if __name__ == "__main__":
    command("page", run)
