"""Reads every file of a folder with ``nesting liner``, in this one process, and prints what came.

One line of JSON each: name, exit code, seconds, what standard error said. A file that takes longer
than the limit ends the process.
"""

import contextlib
import io
import json
import signal
import sys
import time
from pathlib import Path

from peakmemory import tell_peak_mib

from nesting.cli import run

LIMIT_S = 5


def main(folder):
    """Read them all; the last line tells the most memory used [MiB]."""
    for path in sorted(Path(folder).iterdir()):
        told, started = io.StringIO(), time.process_time()
        signal.alarm(12 * LIMIT_S)
        with contextlib.redirect_stderr(told), contextlib.redirect_stdout(io.StringIO()):
            code = run(["liner", str(path), "--thickness", "13"])
        signal.alarm(0)
        took = round(time.process_time() - started, 2)
        text = told.getvalue()
        print(json.dumps({"name": path.name, "code": code, "took": took, "told": text}), flush=True)
    print(json.dumps({"memory": tell_peak_mib()}))


if __name__ == "__main__":
    main(sys.argv[1])
