"""A job: made of values, or read from a file, and judged by the one reader of job files."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from nesting.api.texts import draw, to_toml
from nesting.api.values import Bed, Liner, Panel, Rules, Tables
from nesting.jobs.read import read_job as read_job_file
from nesting.jobs.read import read_job_text
from nesting.jobs.write import write_job as write_tables_of
from nesting.values.job import Job as ExactJob


class Job:
    """One liner, the shop's rules, the beds and the order; frozen, and right by every rule.

    Parameters
    ----------
    title
        What reports and drawings are headed with.
    liner, rules, panels, beds
        The values; without ``beds`` there is one flat bed named ``flat``.
    tables
        Further tables by the names they have in a job file, such as ``{"material": {...}}``.

    Raises
    ------
    InputErrors
        With every mistake at once, each with ``where``, ``rule``, ``got`` and ``remedy``; where is
        the key path, behind a line of the tables as they were put to the reader.
    """

    __slots__ = ("exact",)

    exact: ExactJob
    """The job in whole steps of 1/8000 mm, as everything else works with it."""

    def __init__(
        self,
        title: str,
        liner: Liner,
        rules: Rules,
        panels: Sequence[Panel],
        beds: Sequence[Bed] = (),
        tables: Tables | None = None,
    ) -> None:
        top: dict[str, Any] = {"title": title, "units": "mm", "liner": liner.table()}
        top |= {"rules": rules.table(), **(tables or {})}
        top["bed"] = [bed.table() for bed in beds]
        top["panel"] = [panel.table() for panel in panels]
        self._set(read_job_text(to_toml(top), "job"))

    @classmethod
    def _of(cls, exact: ExactJob) -> Job:
        job = cls.__new__(cls)
        job._set(exact)
        return job

    def _set(self, exact: ExactJob) -> None:
        object.__setattr__(self, "exact", exact)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"a Job is frozen; make a new one to change its {name}")

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Job) and self.exact == other.exact

    def __hash__(self) -> int:
        return hash((self.exact.title, self.exact.liner.name, self.exact.rules, self.exact.panels))

    def __repr__(self) -> str:
        count = sum(panel.quantity for panel in self.exact.panels)
        return f"<Job {self.title!r}: {count} panels of {len(self.marks)} sizes>"

    def __reduce__(self) -> tuple[Any, ...]:
        return Job._of, (self.exact,)

    @property
    def title(self) -> str:
        """The job's title."""
        return self.exact.title

    @property
    def text(self) -> str:
        """The job as TOML that reads back equal."""
        return write_tables_of(self.exact)

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of the panels in the order of the job."""
        return tuple(panel.mark for panel in self.exact.panels)

    def _repr_svg_(self) -> str:
        """Return the picture of the liner, for notebooks."""
        return draw(self.exact)


def read_job(path: str | Path) -> Job:
    """Return the job of a file; InputErrors with every mistake of it."""
    return Job._of(read_job_file(path))


def write_job(job: Job, path: str | Path) -> None:
    """Write the job as a job file, whole or not at all; InputError where that cannot be done.

    It reads back equal. Comments of a file it was read from are not kept; what that file took
    from a liner file stands in this one.
    """
    from nesting.files.output import write_together

    write_together({Path(path): job.text})
