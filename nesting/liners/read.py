"""Reads a liner from a drawing file, by its ending."""

from pathlib import Path

from nesting.errors import gathered
from nesting.files.text import path_label, read_bytes
from nesting.jobs.found import LinerFound
from nesting.liners.build import build_liner
from nesting.liners.options import DrawingOptions

_MOST_BYTES = {".dxf": 20_000_000, ".svg": 50_000_000}


def read_drawing(path: Path, options: DrawingOptions) -> LinerFound:
    """Return the liner a DXF or SVG file draws.

    Raises
    ------
    InputErrors
        With every mistake that reading showed.
    """
    where = path_label(path.name)
    with gathered():
        ending = path.suffix.lower()
        content = read_bytes(path, _MOST_BYTES[ending])
        if ending == ".dxf":
            from nesting.liners.dxfread import read_dxf

            sketch = read_dxf(where, content, options)
        else:
            from nesting.liners.svgread import read_svg

            sketch = read_svg(where, content, options)
    return build_liner(sketch, options, where, path.stem)
