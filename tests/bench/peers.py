"""Side by side: the package and what a capable engineer would write with a general solver."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from common import Case, Lines, command, measure, seconds, table

LIMIT_S = 60
CASES = [
    Case("banded_job", 1, LIMIT_S, {"sizes": 4, "total": [20, 24], "bands": [4, 3]}),
    Case("banded_job", 2, LIMIT_S, {"sizes": 6, "total": [50, 60], "bands": [5, 4]}),
    *(Case("banded_job", seed, LIMIT_S) for seed in (1, 29, 33)),
    Case("banded_job", 29, LIMIT_S, {"total": [1000, 1000]}),
    Case("island_job", 1, LIMIT_S, {"rectangular": True, "islands": 10}),
]
PEERS = ("free positions", "place by cast, integer", "place by cast, constraint")


def run(quick: bool) -> Lines:
    """Compare the package with one constraint model and place by cast, a minute each."""
    limit = 10 if quick else LIMIT_S
    cases = [replace(case, limit=limit) for case in (CASES[1:3] if quick else CASES)]
    return table(
        ("job", "panels", "sizes", "casts", "`schedule_casts`, casts [s]", "all [s]", *PEERS),
        [_compare(case) for case in cases],
    )


def _compare(case: Case) -> list[str]:
    name = f"{case.maker.removesuffix('_job')} {case.seed}"
    ours = measure(case)
    if "error" in ours:
        return [name, ours["error"], *["-"] * (4 + len(PEERS))]
    peers = [measure(replace(case, solver=peer, given={"casts": ours["casts"]})) for peer in PEERS]
    return [
        name,
        str(ours["panels"]),
        str(ours["sizes"]),
        str(ours["casts"]) if ours["proved"] else f"{ours['bound']} to {ours['casts']}",
        seconds(ours["casts_s"]) if ours["proved"] else "-",
        seconds(ours["seconds"]),
        *(_peer(peer, ours["casts"]) for peer in peers),
    ]


def _peer(result: dict[str, Any], casts: int) -> str:
    """Say what a peer found and refuted, and after how long."""
    if "error" in result:
        return str(result["error"])
    found, refuted = result["verdict"]
    if found == "no" or refuted == "yes":
        return "CONTRADICTS"
    if (found, refuted) == ("yes", "no"):
        return f"proved: {seconds(result['seconds'])} s"
    say = {"yes": f"found: {seconds(result.get('found_s'))} s", "time": f"{casts} not found"}[found]
    return f"{say}; {casts - 1} {'refuted' if refuted == 'no' else 'not refuted'}"


if __name__ == "__main__":
    command("peers", run)
