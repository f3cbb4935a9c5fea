"""Lengths as they stand on a drawing: in the job's units, which the sheet names once."""

from nesting.units import STEPS_PER_MM, decimal_text, length_text, to_mm
from nesting.values.job import Job


def length_figure(steps: int, job: Job, *, beside: bool = False) -> str:
    """Return a length without its unit: to 0.1 mm, or in inches to the set-out division.

    An inch figure that is off by 0.05 mm or more never stands alone: the rest follows in mm or,
    where ``beside`` asks for mm in brackets, the whole length does. A mm job shows mm only.
    """
    millimetres = decimal_text(to_mm(steps), 1)
    if job.units == "mm":
        return millimetres
    inches, _, rest = length_text(_settled(steps, job), "in", job.rules.set_out).partition(" in")
    return f"{inches} ({millimetres})" if beside else inches + rest


def is_exact(steps: int, job: Job) -> bool:
    """Whether the figures of a length, with the rest that may follow, are the whole length."""
    whole = 0 if job.units == "mm" else _nearest_division(steps, job)
    return (steps - whole) % (STEPS_PER_MM // 10) == 0


def size_figure(width: int, height: int, job: Job) -> str:
    """Return a size, along x first, in the job's units."""
    return f"{length_figure(width, job)} × {length_figure(height, job)}"  # noqa: RUF001 - the sign


def length_words(steps: int, job: Job) -> str:
    """Return a length with its unit, as in running words: a rest stands behind the unit."""
    figure, _, rest = length_figure(steps, job).partition(" (")
    return f"{figure} {job.units}" + (f" ({rest}" if rest else "")


def _settled(steps: int, job: Job) -> int:
    """Return the nearest set-out division where the length is within 0.05 mm of it."""
    nearest = _nearest_division(steps, job)
    return nearest if 20 * abs(steps - nearest) < STEPS_PER_MM else steps


def _nearest_division(steps: int, job: Job) -> int:
    division = job.rules.set_out
    return (2 * steps + division) // (2 * division) * division
