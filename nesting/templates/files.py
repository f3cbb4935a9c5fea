"""The files of one template: the PDF, tiles as SVG where wanted, and a list of it all as JSON."""

import re

from nesting.drawings.pdf import to_pdf
from nesting.drawings.svg import to_svg
from nesting.files.output import Kind
from nesting.templates.content import Template
from nesting.templates.report import FORMAT, template_to_json
from nesting.templates.sheets import Tiling
from nesting.templates.tiledrawing import draw_tiles
from nesting.templates.tilestrip import Said
from nesting.values.job import Units
from nesting.values.stamp import Stamp

TEMPLATE_FILE, PDF_FILE = "template.json", "template.pdf"
TEMPLATE = Kind(
    "template",
    TEMPLATE_FILE,
    FORMAT,
    re.compile(r"template\.(json|pdf)|template-[0-9]+-[0-9]+\.svg"),
    lambda document: document["files"],
)
"""How a template's files are told from others in a folder."""


def write_template_files(
    template: Template,
    tiling: Tiling,
    title: str,
    units: Units,
    stamp: Stamp,
    *,
    mirrored: bool,
    svg: bool,
) -> dict[str, str | bytes]:
    """Return every file of a template by its name, sheets in the order they are laid."""
    said = Said(title, template.subject, template.notes, units, mirrored, stamp.words)
    drawings = draw_tiles(template, tiling, said)
    files: dict[str, str | bytes] = {PDF_FILE: to_pdf(drawings, f"{title}: {template.subject}")}
    if svg:
        files |= {name_tile_file(d.name): to_svg(d) for d in drawings}
    files[TEMPLATE_FILE] = template_to_json(
        title, template, tiling, sorted((*files, TEMPLATE_FILE)), mirrored=mirrored
    )
    return files


def name_tile_file(drawing: str) -> str:
    """Return the file name of a tile from its drawing's name, which holds the tile's own.

    >>> name_tile_file("template-A1")
    'template-A1.svg'
    """
    return f"{drawing}.svg"
