"""The hand-sized job as a file, and changed copies of it."""

from nesting.errors import InputErrors
from nesting.jobs.read import read_job

JOB = """\
title = "Bath house, foyer"
units = "mm"

[liner]
name = "reeds"
size = [1200, 800]
thickness = 13
[[liner.ornament]]
name = "heron"
rect = [300, 200, 220, 400]
[[liner.blank_zone]]
name = "east"
rect = [790, 0, 70, 800]
[[liner.blank_zone]]
name = "north"
rect = [0, 640, 1200, 50]

[rules]
dam_width = 25
dam_clearance = 6
edge_margin = 12
set_out = 1

[[bed]]
name = "table"

[[panel]]
mark = "A1"
size = [800, 650]
quantity = 1
must_show = ["heron"]
[[panel]]
mark = "B1"
size = [375, 800]
quantity = 1
must_hide = ["heron"]
[[panel]]
mark = "C1"
size = [1200, 650]
quantity = 1
"""
"""``handjob.hand_job()`` as a person writes it."""


def change(*changes, text=JOB):
    """Return the job text with each (old, new) exchanged once; old must be there."""
    for old, new in changes:
        assert old in text, f"{old!r} is not in the job"
        text = text.replace(old, new, 1)
    return text


def write_job(folder, text=JOB, name="job.toml"):
    """Write a job file and return its path."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def list_mistakes(path, **options):
    """Return the lines of the mistakes that reading the file tells; an empty list for none."""
    try:
        read_job(path, **options)
    except InputErrors as errors:
        return str(errors).splitlines() or ["refused without a reason"]
    return []
