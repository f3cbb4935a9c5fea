"""How many liners `nesting fit` screens a second: 500 liners, 20 sizes, one process against two."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path

from common import ROOT, Lines, command, table

LINERS, SIZES, QUICK = 500, 20, 20
MAKE = """
import random, sys
from pathlib import Path
from makejobs import banded_job
folder, count = Path(sys.argv[1]), int(sys.argv[2])

def rect(outline):
    box = outline.bounds
    return [side / 8000 for side in (box.x0, box.y0, box.width, box.height)]

for seed in range(count):
    pick = random.Random(seed)
    job = banded_job(seed, sizes=1, total=(1, 1), bands=(pick.randint(2, 4), pick.randint(2, 3)))
    lines = ['units = "mm"', "[liner]", f'name = "liner {seed}"', "size = [2400, 1200]"]
    lines.append("thickness = 13")
    for kind, parts in (("ornament", job.liner.ornaments), ("blank_zone", job.liner.zones)):
        for part in parts:
            lines += [f"[[liner.{kind}]]", f'name = "{part.name}"', f"rect = {rect(part.outline)}"]
    rules = job.rules
    lines += ["[rules]", f"dam_width = {rules.dam_width / 8000}"]
    lines.append(f"dam_clearance = {rules.dam_clearance / 8000}")
    lines.append(f"edge_margin = {rules.edge_margin / 8000}")
    (folder / f"liner-{seed:03d}.toml").write_text("\\n".join(lines) + "\\n")
"""


def run(quick: bool) -> Lines:
    """Screen one folder of generated liners by one process, then by two, through the command."""
    count = QUICK if quick else LINERS
    sizes = [f"{300 + 97 * k % 1500}x{250 + 61 * k % 800}" for k in range(SIZES)]
    with tempfile.TemporaryDirectory() as folder:
        made = [sys.executable, "-c", MAKE, folder, str(count)]
        subprocess.run(made, check=True, cwd=ROOT / "tests", env={"PYTHONPATH": str(ROOT)})
        taken = [_time(Path(folder), sizes, processes) for processes in (1, 2)]
    one, two = (seconds for seconds, _ in taken)
    same = taken[0][1] == taken[1][1]
    rows = [
        ("one process [s]", f"{one:.1f}"),
        ("two processes [s]", f"{two:.1f}"),
        ("ratio, one to two", f"{one / two:.2f}"),
        ("liners a second, one process", f"{count / one:.1f}"),
        ("answers a second, one process", f"{count * SIZES / one:.0f}"),
        ("the answers are the same", "yes" if same else "NO"),
        ("of them sizes that fit", f"{taken[0][1].count(chr(34) + 'fits' + chr(34) + ': true')}"),
    ]
    return table((f"{count} liners x {SIZES} sizes", "value"), rows)


def _time(folder: Path, sizes: list[str], processes: int) -> tuple[float, str]:
    """Return the seconds the command takes and what it prints."""
    code = "from nesting.cli import main; main()"
    options = ["--json", "--processes", str(processes)]
    started = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", code, "fit", str(folder), *sizes, *options],
        check=True,
        capture_output=True,
        text=True,
        env={"PYTHONPATH": str(ROOT), "OMP_NUM_THREADS": "1"},
    )
    return time.perf_counter() - started, done.stdout


if __name__ == "__main__":
    command("screening", run)
