"""Puts small faults into the modules that decide, one at a time, and counts those that tests find.

Run by hand: ``pip install cosmic-ray`` into the environment of DEVELOPERS.md, then
``python tests/bench/mutants.py --each 60 > mutants.txt``. A seeded sample, so that it can be run
again: a place in the package is drawn, then a fault at that place. Each fault is judged by its
module's own tests and doctests and then by the laws below, in a copy of the checkout, until the
first test fails. What a test did not find is printed as a diff.
"""

import argparse
import ast
import os
import random
import shutil
import sys
import tempfile
from collections import Counter
from pathlib import Path

from cosmic_ray.commands import init
from cosmic_ray.mutating import mutate_and_test
from cosmic_ray.work_db import WorkDB, use_db
from cosmic_ray.work_item import TestOutcome

ROOT = Path(__file__).parents[2]
LIMIT_S = 600
LAWS = {
    "checking": (
        "laws/test_check_mutations.py",
        "laws/test_check_laws.py",
        "laws/test_sizes_agree.py",
        "laws/test_calendar_laws.py",
    ),
    "maps": (
        "published/test_position_maps.py",
        "published/test_size_ranges.py",
        "laws/test_fit_laws.py",
    ),
    "search": (
        "published/test_cutting_stock.py",
        "published/test_packing_instances.py",
        "laws/test_schedule_laws.py",
    ),
    "planning": ("laws/test_slope_laws.py", "laws/test_schedule_laws.py"),
}
"""By package: what judges its modules after their own tests."""


def main() -> None:
    """Draw, try and count, package by package."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("packages", nargs="*", default=[*LAWS])
    parser.add_argument("--each", type=int, default=60, help="faults in each package")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder, "copy")
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".*", "__pycache__"))
        os.chdir(copy)
        os.environ["PYTHONPATH"] = str(copy)
        for package in asked.packages:
            try_package(package, asked.each, asked.seed)


def try_package(package, count, seed):
    """Try so many faults of a package, and print what came of them."""
    modules = sorted(Path("nesting", package).glob("[!_]*.py"))
    with use_db(":memory:", WorkDB.Mode.create) as database:
        init(modules, database, {})
        drawn = draw_faults([item.mutations[0] for item in database.work_items], count, seed)
    whole = mutate_and_test([], judge_of(package, Path("nesting", package)), LIMIT_S)
    assert whole.test_outcome == TestOutcome.SURVIVED, f"without any fault: {whole.output}"
    outcomes: Counter[str] = Counter()
    for fault in drawn:
        result = mutate_and_test([fault], judge_of(package, Path(fault.module_path)), LIMIT_S)
        outcome = result.test_outcome.value
        outcome = "out of time" if result.output == "timeout" else outcome
        outcomes[outcome] += 1
        print(f"{package}: {outcome}: {fault.module_path}:{fault.start_pos[0]}", flush=True)
        if result.test_outcome != TestOutcome.KILLED:
            print(result.diff or result.output, flush=True)
    print(f"{package}: {dict(outcomes)} of {len(drawn)}, seed {seed}", flush=True)


def draw_faults(faults, count, seed):
    """Draw places first and a fault at each, so that no operator counts for its many stand-ins."""
    places = {}
    for fault in faults:
        if not in_annotation(fault):
            places.setdefault((fault.module_path, fault.start_pos), []).append(fault)
    chance = random.Random(seed)
    chosen = chance.sample(sorted(places), min(count, len(places)))
    return [chance.choice(places[place]) for place in chosen]


def in_annotation(fault):
    """Whether a fault lies in an annotation, which nothing evaluates."""
    tree = ast.parse(Path(fault.module_path).read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        for part in (getattr(node, "annotation", None), getattr(node, "returns", None)):
            if part is not None:
                begins = part.lineno, part.col_offset
                if begins <= tuple(fault.start_pos) <= (part.end_lineno, part.end_col_offset):
                    return True
    return False


def judge_of(package, module):
    """Return the command that judges a fault of a module."""
    own = Path("tests", "unit", package, f"test_{module.name}")
    first = own if own.exists() else own.parent
    files = [first, module, *(Path("tests", law) for law in LAWS[package])]
    return f"{sys.executable} -m pytest -x -n 0 -p no:cacheprovider {' '.join(map(str, files))}"


if __name__ == "__main__":
    main()
