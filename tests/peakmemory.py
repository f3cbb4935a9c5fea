"""The most memory this very process has used."""

import resource
from pathlib import Path

STATUS = Path("/proc/self/status")


def tell_peak_mib() -> float:
    """Return the peak [MiB]: where Linux tells it, this process's own.

    What rusage tells starts, through fork and exec, at the parent's size (getrusage(2)), so a small
    process begun by a large one looks large.
    """
    if STATUS.exists():
        words = STATUS.read_text("utf-8").split()
        return int(words[words.index("VmHWM:") + 1]) / 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
