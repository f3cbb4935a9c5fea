"""Runs the main commands of an installed nesting from outside any checkout.

Run by the Python of the environment it is installed in, with the checkout's folder as argument:
examples are read from there, the package must not be. Ends with 1 and one line at the first command
that fails, writes nothing, or misses a file that should have come with the package.
"""

import contextlib
import json
import re
import shlex
import signal
import subprocess
import sys
import tempfile
import urllib.request
from pathlib import Path
from typing import NoReturn

NESTING = [sys.executable, "-m", "nesting"]
COMMANDS = """
    plan {examples}/ferry-terminal.toml -o {out}/plan
    check {examples}/ferry-terminal.toml {out}/plan/schedule.json
    template {examples}/ferry-terminal.toml --schedule {out}/plan/schedule.json
        --layout 1 --dam 2 --svg-sheets -o {out}/template
    packet {examples}/ferry-terminal.toml --schedule {out}/plan/schedule.json
        --start 2026-03-02 -o {out}/packet
    fit {examples}/liners/reeds.toml 1500x900 -o {out}/fit
    range {examples}/liners/reeds.toml -o {out}/range.svg
    wall {examples}/walls/reading-room-drum.toml -o {out}/order.toml --svg {out}/wall.svg
    liner {examples}/drawings/herons.svg --thickness 13 -o {out}/herons.toml --svg {out}/herons.svg
    zones {examples}/motifs/frieze-to-be.toml -o {out}/zones
    zones --keep {examples}/ferry-terminal.toml 1750x900 -o {out}/keep
    quantities {examples}/ferry-terminal.toml --schedule {out}/plan/schedule.json -o {out}/tables
    strips {examples}/ferry-terminal.toml --schedule {out}/plan/schedule.json -o {out}/strips
    schema
    calendar {examples}/ferry-terminal.toml --schedule {out}/plan/schedule.json
        --start 2026-03-02 -o {out}/days
"""
"""One command a line; a line that is indented further goes on with the one before."""
WRITTEN = [
    "plan/schedule.json",
    "plan/layout-01.svg",
    "plan/overview.svg",
    "plan/face-A1.svg",
    "range-drum.svg",
    "order.toml",
    "wall.svg",
    "herons.toml",
    "herons.svg",
    "zones/job.toml",
    "keep/repair.svg",
    "tables/casts.csv",
    "strips/strips.json",
    "strips/reset-01.svg",
    "days/calendar.ics",
    "days/calendar.svg",
    "template/template.pdf",
    "packet/packet.html",
    "packet/packet.pdf",
]
PATIENCE_S = 120


def main(checkout: Path) -> None:
    """Run all; the first fault ends it."""
    place = Path(run([sys.executable, "-c", "import nesting; print(nesting.__file__)"]).strip())
    if place.is_relative_to(checkout / "nesting"):
        fail(f"nesting is imported from the checkout, got {place}; run this from elsewhere")
    serve_page(checkout / "examples" / "ferry-terminal.toml")
    with tempfile.TemporaryDirectory() as out:
        text = re.sub(r"\n {5,}", " ", COMMANDS).format(examples=checkout / "examples", out=out)
        for line in text.strip().splitlines():
            run([*NESTING, *shlex.split(line)])
        for name in WRITTEN:
            path = Path(out, name)
            if not path.is_file() or not path.stat().st_size:
                fail(f"{name} was not written")
    compare_files(checkout / "nesting", place.parent)
    print(f"all commands run from {place.parent}")


def run(command: list[str]) -> str:
    """Return what the command prints; it must end with 0 in good time."""
    ended = subprocess.run(
        command, cwd="/", capture_output=True, text=True, timeout=PATIENCE_S, check=False
    )
    if ended.returncode:
        told = (ended.stderr.strip() or ended.stdout.strip()).splitlines()[-1:]
        fail(f"{' '.join(command[3:] or command)} ended with {ended.returncode}: {' '.join(told)}")
    return ended.stdout


def serve_page(job: Path) -> None:
    """Start the page, fetch it and one answer, and end it as Ctrl-C does."""
    command = [*NESTING, "page", str(job), "--port", "0"]
    with subprocess.Popen(
        command, cwd="/", stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    ) as page:
        try:
            told = page.stdout.readline() if page.stdout else ""
            address = re.search(r"http://[\d.:]+/", told)
            if not address:
                fail(f"page printed no address, got {told!r}")
            fetch_page(address[0])
        finally:
            page.send_signal(signal.SIGINT)
    if page.returncode != 130:
        fail(f"page must end with 130 on Ctrl-C, got {page.returncode}")


def fetch_page(address: str) -> None:
    """Fetch the page and one answer."""
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    try:
        with opener.open(address, timeout=PATIENCE_S) as reply:
            whole = b"</html>" in reply.read()
        with opener.open(f"{address}full?width=800&height=890", timeout=PATIENCE_S) as reply:
            fits = json.loads(reply.read())["fits"]
    except OSError as error:
        fail(f"page: {error}")
    if not (whole and fits):
        fail("page: the page or its answer is not whole")


def compare_files(ours: Path, installed: Path) -> None:
    """Compare the files of the checkout with those installed."""
    for path in sorted(ours.rglob("*")):
        if path.is_file() and "__pycache__" not in path.parts:
            twin = installed / path.relative_to(ours)
            with contextlib.suppress(OSError):
                if twin.read_bytes() == path.read_bytes():
                    continue
            fail(f"{path.relative_to(ours)} is not in the installed package as it is here")


def fail(words: str) -> NoReturn:
    """End with 1 and one line."""
    sys.exit(f".ci/installed.py: {words}")


if __name__ == "__main__":
    main(Path(sys.argv[1]).resolve())
