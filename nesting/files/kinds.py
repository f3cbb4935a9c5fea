"""Tells a file that was given to the wrong command: a job, a wall or a motif."""

from __future__ import annotations

from nesting.files.tomlcheck import Table

_KINDS = {"job": "a job", "wall": "a wall's file", "motif": "a motif"}
TO_ZONES = "give it to nesting zones"
"""What is advised where a motif stands in the place of another file."""

_REMEDIES = {
    "job": "give it to nesting plan",
    "wall": "give it to nesting wall",
    "motif": TO_ZONES,
}


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
