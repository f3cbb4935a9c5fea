"""Tells a file that was given to the wrong command: a job, a wall, a motif, a drawing or a scan."""

from pathlib import Path

from nesting.errors import InputError
from nesting.files.text import path_label
from nesting.files.tomlcheck import Table

DRAWINGS = (".dxf", ".svg")
"""Endings of files that are read as drawings of a liner."""
SCANS = (".png", ".tif", ".tiff", ".npy", ".stl")
"""Endings of files that are read as scans of a liner."""

_KINDS = {"job": "a job", "wall": "a wall's file", "motif": "a motif"}
TO_ZONES = "give it to nesting zones"
"""What is advised where a motif stands in the place of another file."""

_REMEDIES = {
    "job": "give it to nesting plan",
    "wall": "give it to nesting wall",
    "motif": TO_ZONES,
}


def refuse_drawing(path: Path) -> None:
    """Raise InputError, which points to nesting liner, where a text is wanted and this is none."""
    ending = path.suffix.lower()
    if ending in DRAWINGS or ending in SCANS:
        rule = f"this is a {'drawing' if ending in DRAWINGS else 'scan'} of a liner, not a job"
        target = path_label(path.with_suffix(".toml").name)
        remedy = f"run nesting liner {path_label(path.name)} -o {target}, name {target} in a job"
        raise InputError(path_label(path.name), rule, remedy=remedy)


def refuse_other_kind(top: Table, own: str) -> bool:
    """Note one mistake where the top table is that of another kind of file, and say whether it is.

    ``own`` is the kind wanted: ``job`` (liner files are no kind of their own), ``wall`` or
    ``motif``. A kind is known by tables that it alone has, so a misspelt one calls up nothing.
    """
    found = _kind_of(top)
    if found in ("", own):
        return False
    rule = f"this is {_KINDS[found]}, not {_KINDS[own]}"
    top.fault("", rule, remedy=_REMEDIES[found])
    return True


def _kind_of(top: Table) -> str:
    if "wall" in top and "part" in top:
        return "wall"
    if "zones" in top and "strip" in top:
        return "motif"
    return "job" if "panel" in top and not {"wall", "part", "zones", "strip"} & {*top.keys} else ""
