"""A template in words and as JSON: its sheets, their order, how to print and how to join them."""

from collections.abc import Sequence
from fractions import Fraction

from nesting.files.columns import count_of
from nesting.files.document import to_json
from nesting.tape import Tape, explain_beside
from nesting.templates.content import Template
from nesting.templates.sheets import Tiling
from nesting.templates.tiles import tile_name
from nesting.units import to_steps

FORMAT, VERSION = "nesting-template", 1
_BARS = {"mm": "the bars of 100 mm and 4 in", "in": "the bar of 4 in"}


def report_template(
    title: str,
    template: Template,
    tiling: Tiling,
    tape: Tape,
    *,
    mirrored: bool,
    exact: bool = False,
) -> str:
    """Return what a person needs to know before printing, line by line, as the tape reads it.

    Where ``exact`` is asked for, its lengths that lie on no mark follow in decimals.
    """
    grid, count = tiling.grid, len(tiling.cells)
    all_cells = grid.rows * grid.columns
    lines = [
        f"{title}: full-size template, {template.subject}.",
        *template.facts,
        *[f"In decimals: {tape.list_exact(template.lengths)}."] * exact,
        *(note for note in template.notes if note not in template.facts),
        f"{count_of(count, 'sheet')} of {_paper(tiling, tape)}.",
    ]
    if blank := all_cells - count:
        are = "is" if blank == 1 else "are"
        lines.append(f"{blank} of {all_cells} tiles would be blank and {are} left out.")
    if tiling.bridges:
        names = ", ".join(map(tile_name, tiling.bridges))
        lines.append(f"Without a line, but needed to join the others: {names}.")
    if mirrored:
        lines.append("MIRRORED: trace it through from its back.")
    if count > 1:
        lines += ["Lay the sheets in this order, each on the one before:", *_order(tiling)]
        lines.append("Cut each sheet along its dashed joins, lay it cross on cross, and tape it.")
    lines += [
        "Print at 100 %, no fit to page. Before anything is traced, measure "
        f"{_BARS[tape.units]} on every sheet and the check square on {tile_name(tiling.cells[0])}.",
    ]
    words = (words for label in template.labels for words in label.words)
    told = explain_beside("\n".join([*lines, *words]))
    return "\n".join([*lines, *[told] * bool(told)])


def template_to_json(
    title: str, template: Template, tiling: Tiling, files: Sequence[str], *, mirrored: bool
) -> str:
    """Return the template as JSON: every sheet with the ground it shows [mm], and its files."""
    grid = tiling.grid
    document = {
        "job": title,
        "subject": template.subject,
        "notes": [*template.notes, *template.facts],
        "paper": tiling.setting.paper.name,
        "sheet": [_number(tiling.width), _number(tiling.height)],
        "margin": _number(tiling.setting.margin),
        "overlap": _number(tiling.setting.overlap),
        "mirrored": mirrored,
        "rows": grid.rows,
        "columns": grid.columns,
        "sheets": [
            {
                "name": tile_name(cell),
                "page": page,
                "shows": [_number(side) for side in grid.window(cell)],
                "has_lines": cell not in tiling.bridges,
            }
            for page, cell in enumerate(tiling.cells, start=1)
        ],
        "left_out": [tile_name(cell) for cell in grid.cells if cell not in tiling.cells],
        "files": list(files),
    }
    return to_json(FORMAT, VERSION, document)


def _order(tiling: Tiling) -> list[str]:
    rows = sorted({row for row, _ in tiling.cells})
    return [
        "  " + ", ".join(tile_name(cell) for cell in tiling.cells if cell[0] == row) for row in rows
    ]


def _paper(tiling: Tiling, tape: Tape) -> str:
    """Return a paper by its name; one cut from a roll by its size."""
    paper = tiling.setting.paper
    if not paper.is_roll:
        return f"{paper.name}, {'lying' if tiling.width > tiling.height else 'upright'}"
    width, height, roll = (
        to_steps(Fraction(side)) for side in (tiling.width, tiling.height, paper.width)
    )
    return f"{tape.size_words(width, height)}, cut from a roll {tape.words(roll)} wide"


def _number(value: float) -> int | float:
    rounded = round(float(value), 3)
    return int(rounded) if rounded == int(rounded) else rounded
