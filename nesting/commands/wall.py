"""The command ``nesting wall``: from a wall file to its order and its plan.

Only click is imported before the command runs.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import click

from nesting.commands.filenames import need_different_files, need_file_name, refuse_foreign_file
from nesting.commands.options import Say, debug_option, help_option, json_option


def make_wall(say: Say) -> click.Command:
    """Return the command, which prints through ``say``."""

    @click.command(
        name="wall",
        short_help="Work out panels, beds and a plan from a wall to be clad or formed.",
        add_help_option=False,
    )
    @click.argument("wall_file", metavar="FILE")
    @click.option(
        "-o", "--output", "order_file", metavar="ORDER", help="Write the tables of the order here."
    )
    @click.option("--svg", "svg_file", metavar="DRAWING", help="Write the plan of the wall here.")
    @json_option("the order")
    @debug_option
    @help_option
    def wall(
        wall_file: str, order_file: str | None, svg_file: str | None, as_json: bool, debug: bool
    ) -> None:
        """Work out from FILE, a wall to be clad or formed, which panels and beds it takes.

        With -o, ORDER gets [[bed]] and [[panel]] tables to paste behind a job's liner and rules;
        with --svg, DRAWING gets the plan with joints and marks. DRAWING and a former ORDER of this
        command are replaced, no other file is.
        """
        from nesting.files.output import write_together
        from nesting.walls.cladding import divide_wall
        from nesting.walls.read import read_wall, write_order
        from nesting.walls.report import report_wall, wall_to_json

        targets = _targets(wall_file, order_file, svg_file)
        found = read_wall(Path(wall_file))
        stretches = divide_wall(found)
        files: dict[Path, str] = {}
        if order_file is not None:
            files[targets[0]] = write_order(found, stretches)
        if svg_file is not None:
            from nesting.drawings.svg import to_svg
            from nesting.walls.plan import draw_wall

            files[targets[-1]] = to_svg(draw_wall(found, stretches))
        write_together(files)
        say(wall_to_json(found, stretches) if as_json else report_wall(found, stretches))
        if not as_json:
            say(f"\n{_written(files)}")

    return wall


def _targets(wall_file: str, order_file: str | None, svg_file: str | None) -> list[Path]:
    """Return the files to write; a usage error where two of them, or one and FILE, are the same."""
    targets = []
    if order_file is not None:
        targets.append(need_file_name("-o", order_file, ".toml"))
    if svg_file is not None:
        targets.append(need_file_name("--svg", svg_file, ".svg"))
    need_different_files("FILE, ORDER and DRAWING", (Path(wall_file), *targets))
    if order_file is not None:
        from nesting.files.marks import ORDER_MARK

        refuse_foreign_file("-o", targets[0], ORDER_MARK, "nesting wall")
    return targets


def _written(files: Mapping[Path, str]) -> str:
    if files:
        return f"Written: {', '.join(str(path) for path in files)}."
    return "Nothing was written; name a file with -o for the order, with --svg for the plan."
