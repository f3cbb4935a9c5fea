"""Reads a liner from a drawing file, by its ending."""

from __future__ import annotations

from pathlib import Path

from nesting.drawingoptions import DrawingOptions
from nesting.errors import InputError, InputErrors
from nesting.linerbuild import build_liner
from nesting.linerfound import LinerFound
from nesting.textfile import path_label

ENDINGS = (".dxf", ".svg")
"""Endings of the files that are read here."""

_MOST_BYTES = 50_000_000


def read_drawing(path: Path, options: DrawingOptions) -> LinerFound:
    """Return the liner a DXF or SVG file draws.

    Raises
    ------
    InputErrors
        With every mistake that reading showed.
    """
    where = path_label(path.name)
    try:
        content = _read_bytes(path)
        if path.suffix.lower() == ".dxf":
            from nesting.dxfread import read_dxf

            sketch = read_dxf(where, content, options)
        else:
            from nesting.svgread import read_svg

            sketch = read_svg(where, content, options)
    except InputError as error:
        raise InputErrors([error]) from error
    return build_liner(sketch, options, where, path.stem)


def _read_bytes(path: Path) -> bytes:
    where = path_label(path)
    try:
        if path.is_dir() or (path.exists() and not path.is_file()):
            raise InputError(where, "this is not a file", remedy="name the file itself")
        with path.open("rb") as stream:
            content = stream.read(_MOST_BYTES + 1)
    except InputError:
        raise
    except FileNotFoundError as error:
        raise InputError(where, "there is no such file") from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise InputError(where, f"the file cannot be read: {reason.lower()}") from error
    if not content.strip():
        raise InputError(where, "the file is empty")
    return content
