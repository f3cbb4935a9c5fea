"""What reading a drawing or a scan gives: a liner, and what the person must know about it."""

from collections import Counter
from dataclasses import dataclass

from nesting.shapes.geometry import Point
from nesting.values.liner import Liner


@dataclass(frozen=True, slots=True)
class Ignored:
    """One thing of the file that is not in the liner, and why.

    ``trace`` shows where it lies: points in the liner's coordinates [steps], joined in turn; empty
    where that is not known.
    """

    what: str
    why: str
    trace: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class LinerFound:
    """A liner read from a drawing or a scan.

    Parameters
    ----------
    liner
        The liner, in flat coordinates from its datum corner [steps].
    units
        ``mm`` or ``in``: what its file, its report and its picture are written in.
    notes
        How the file was read, one sentence each without full stop: units, datum, gaps closed.
    ignored
        What was left out.
    source
        The file's name, as messages give it.
    """

    liner: Liner
    units: str
    notes: tuple[str, ...] = ()
    ignored: tuple[Ignored, ...] = ()
    source: str = ""

    @property
    def left_out(self) -> tuple[tuple[str, str, int], ...]:
        """What was left out, why, and how often, each kind once in the order met."""
        counts = Counter((each.what, each.why) for each in self.ignored)
        return tuple((what, why, count) for (what, why), count in counts.items())
