"""Lengths as they stand on a drawing: in the job's units, which the sheet names once."""

from nesting.values.job import Job

TIMES = " × "  # noqa: RUF001 - the sign


def length_figure(steps: int, job: Job) -> str:
    """Return a length without its unit, as the tape of the job reads it."""
    return job.tape.figure(steps)


def size_figure(width: int, height: int, job: Job) -> str:
    """Return a size, along x first, in the job's units."""
    return TIMES.join((length_figure(width, job), length_figure(height, job)))


def length_words(steps: int, job: Job) -> str:
    """Return a length with its unit, as in running words."""
    return job.tape.words(steps)
