"""The child process: makes one job, has it solved, prints one line of JSON.

``python tests/bench/measure.py '{"maker": "banded_job", "seed": 3, "limit": 60}'``; with
``"profile": true`` the functions that took longest go to standard error.
"""

from __future__ import annotations

import cProfile
import importlib
import json
import pstats
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

TESTS = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(TESTS), str(TESTS.parent)]

import makejobs  # noqa: E402
from peakmemory import tell_peak_mib  # noqa: E402

from nesting.checking.schedule import check_schedule  # noqa: E402
from nesting.planning.schedule import schedule_casts  # noqa: E402
from nesting.values.job import Job  # noqa: E402

Result = dict[str, Any]
PEERS = {
    "free positions": "freepositions",
    "place by cast, integer": "placebycast",
    "place by cast, constraint": "placebycast_constraints",
}


def plan(job: Job, limit: float) -> Result:
    """Return how `schedule_casts` did and what the checker says of its schedule.

    ``casts_s`` is when the search for casts ended; what follows looks for fewer layouts.
    """
    watch = _Watch("find_casts")
    started = time.perf_counter()
    schedule = schedule_casts(job, time_limit=limit)
    seconds = time.perf_counter() - started
    return {
        "casts": schedule.casts,
        "bound": schedule.lower_bound,
        "proved": schedule.proved,
        "layouts": schedule.different_layouts,
        "layouts_bound": schedule.layouts_bound,
        "layouts_proved": schedule.layouts_proved,
        "seconds": seconds,
        "casts_s": watch.ended - started if watch.ended else None,
        "places": watch.places,
        "findings": [str(finding) for finding in check_schedule(job, schedule)],
        "notes": list(schedule.notes),
    }


class _Watch:
    """Notes when the last call of one function ended, wherever it was imported to."""

    def __init__(self, name: str) -> None:
        self.ended = 0.0
        self.places = 0
        homes = [m for key, m in sys.modules.items() if key.startswith("nesting.")]
        for home in homes:
            if callable(original := vars(home).get(name)):
                setattr(home, name, self._around(original))

    def _around(self, original: Callable[..., Any]) -> Callable[..., Any]:
        def watched(instance: Any, *args: Any, **options: Any) -> Any:
            self.places = max(self.places, len(instance.owner))
            try:
                return original(instance, *args, **options)
            finally:
                self.ended = time.perf_counter()

        return watched


def solver(name: str, given: dict[str, Any]) -> Callable[[Job, float], Result]:
    """Return who solves: `plan`, or a peer, whose libraries are loaded only then."""
    if name == "nesting":
        return plan
    peer = importlib.import_module(PEERS[name])
    return lambda job, limit: peer.plan(job, limit, **given)


def main(text: str) -> None:
    """Measure the case written in JSON and print the result."""
    case = json.loads(text)
    job = getattr(makejobs, case["maker"])(case["seed"], **case.get("options", {}))
    solve = solver(case.get("solver", "nesting"), case.get("given", {}))
    profile = cProfile.Profile() if case.get("profile") else None
    processor = time.process_time()
    result = profile.runcall(solve, job, case["limit"]) if profile else solve(job, case["limit"])
    result |= {
        "processor_s": time.process_time() - processor,
        "peak_mib": tell_peak_mib(),
        "ornaments": len(job.liner.ornaments),
        "sizes": len(job.panels),
        "panels": sum(panel.quantity for panel in job.panels),
    }
    if profile:
        pstats.Stats(profile, stream=sys.stderr).sort_stats("tottime").print_stats(14)
    print(json.dumps(result))


if __name__ == "__main__":
    main(sys.argv[1])
