"""How long a scan takes to become a liner, and the memory it takes, each in a fresh process.

``python tests/bench/scans.py '{"file": "a.png", ...}'`` is the child: it reads one file and prints
one line of JSON.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from fractions import Fraction
from pathlib import Path
from typing import Any

from common import ROOT, Lines, command, median, seconds, table

SIZES = ((2400, 1200), (4800, 2400), (600, 300))
"""Pixels of the pictures, all of a liner of 2400 x 1200 mm."""
TRIANGLES = (1200, 600)
"""Cells of the mesh, two triangles each."""


def run(quick: bool) -> Lines:
    """Strewn leaves on tilted, noisy ground, as PNG of 16 bits, as NPY and as STL."""
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for name, file in _write_all(Path(folder), quick):
            found = [_measure(file) for _ in range(1 if quick else 3)]
            times = [median(each[part] for each in found) for part in ("read_s", "find_s")]
            peaks = max(each["peak_mib"] for each in found)
            counts = found[0]["ornaments"], found[0]["zones"]
            rows.append((name, *counts, *map(seconds, times), f"{peaks:.0f}"))
    head = ("scan", "ornaments", "zones", "reading [s]", "finding [s]", "peak memory [MiB]")
    return table(head, rows)


def _write_all(folder: Path, quick: bool) -> list[tuple[str, Path]]:
    sys.path[:0] = [str(ROOT), str(ROOT / "tests")]
    import numpy as np
    from PIL import Image

    files = []
    for columns, rows in SIZES[: 1 if quick else None]:
        heights = _leaves(columns, rows)
        path = folder / f"{columns}.png"
        grey = np.rint((heights[::-1] - heights.min()) / 20 * 65535).astype(np.uint16)
        Image.fromarray(grey).save(path)
        files.append((f"PNG, {columns} x {rows} pixels", path))
    heights = _leaves(*SIZES[0])
    np.save(folder / "a.npy", heights[::-1].astype(np.float32))
    files.append((f"NPY, {SIZES[0][0]} x {SIZES[0][1]} pixels", folder / "a.npy"))
    if not quick:
        _write_mesh(folder / "a.stl")
        count = 2 * TRIANGLES[0] * TRIANGLES[1]
        files.append((f"STL, {count:,} triangles, pixels of 1 mm", folder / "a.stl"))
    return files


def _leaves(columns: int, rows: int) -> Any:
    """Return heights [mm] of forty leaves, the same at every number of pixels but for the noise."""
    import numpy as np

    rng = np.random.default_rng(1)
    pixel = 2400 / columns
    y, x = (np.mgrid[0:rows, 0:columns] + 0.5) * pixel
    true = np.zeros((rows, columns), bool)
    for _ in range(40):
        cx, cy, angle = rng.uniform(0, 2400), rng.uniform(0, 1200), rng.uniform(0, np.pi)
        a, b = rng.uniform(10, 40), rng.uniform(60, 150)
        u = (x - cx) * np.cos(angle) + (y - cy) * np.sin(angle)
        v = (y - cy) * np.cos(angle) - (x - cx) * np.sin(angle)
        true |= (u / a) ** 2 + (v / b) ** 2 < 1
    return 0.002 * x - 0.001 * y + 6.0 * true + rng.normal(0, 0.08, (rows, columns))


def _write_mesh(path: Path) -> None:
    import numpy as np

    columns, rows = TRIANGLES
    heights = _leaves(columns + 1, rows + 1)
    y, x = np.mgrid[0 : rows + 1, 0 : columns + 1] * (2400 / columns)
    points = np.dstack((x, y, heights)).astype("<f4")
    low_left, low_right = points[:-1, :-1], points[:-1, 1:]
    up_left, up_right = points[1:, :-1], points[1:, 1:]
    corners = np.stack((low_left, low_right, up_right, low_left, up_right, up_left), axis=2)
    record = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")])
    records = np.zeros(2 * rows * columns, record)
    records["corners"] = corners.reshape(-1, 3, 3)
    path.write_bytes(bytes(80) + len(records).to_bytes(4, "little") + records.tobytes())


def _measure(file: Path) -> dict[str, Any]:
    done = subprocess.run(
        [sys.executable, __file__, "--child", str(file)], capture_output=True, text=True, check=True
    )
    found: dict[str, Any] = json.loads(done.stdout)
    print(file.name, found, file=sys.stderr)
    return found


def child(file: str) -> None:
    """Read one scan, find its liner, and print what it took."""
    sys.path[:0] = [str(ROOT), str(ROOT / "tests")]
    from makescans import RULES
    from peakmemory import tell_peak_mib

    from nesting.scans.build import find_liner
    from nesting.scans.read import read_scan
    from nesting.scans.scale import ScanScale

    scale = {
        ".png": ScanScale(width=Fraction(2400), relief=Fraction(20)),
        ".npy": ScanScale(width=Fraction(2400)),
        ".stl": ScanScale(pixel=Fraction(1)),
    }[Path(file).suffix]
    started = time.perf_counter()
    scan = read_scan(Path(file), scale)
    read = time.perf_counter()
    found = find_liner(scan, RULES, "leaves", 13 * 8000)
    result = {
        "read_s": read - started,
        "find_s": time.perf_counter() - read,
        "peak_mib": tell_peak_mib(),
        "ornaments": len(found.liner.ornaments),
        "zones": len(found.liner.zones),
    }
    print(json.dumps(result))


if __name__ == "__main__":
    if sys.argv[1:2] == ["--child"]:
        child(sys.argv[2])
    else:
        command("scans", run)
