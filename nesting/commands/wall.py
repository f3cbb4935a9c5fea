"""The command ``nesting wall``: from a wall file to its order and its plan.

Only click is imported before the command runs.
"""

from pathlib import Path

import click

from nesting.commands.filenames import Writer, take_targets
from nesting.commands.options import command, json_option, output_option, picture_option
from nesting.commands.say import say, written


@command(
    "Work out panels, beds and a plan from a wall to be clad or formed.",
    click.argument("wall_file", metavar="FILE"),
    output_option("ORDER", "Write the tables of the order here."),
    picture_option("the plan of the wall"),
    json_option("the order"),
)
def wall(wall_file: str, output: str | None, picture: str | None, as_json: bool) -> None:
    """Work out from FILE, a wall to be clad or formed, which panels and beds it takes.

    With -o, ORDER gets [[bed]] and [[panel]] tables to paste behind a job's liner and rules;
    with --svg, PICTURE gets the plan with joints and marks. A former ORDER and PICTURE of this
    command are replaced, no other file is.
    """
    from nesting.files.marks import ORDER_MARK
    from nesting.files.output import write_together
    from nesting.walls.cladding import divide_wall
    from nesting.walls.read import read_wall, write_order
    from nesting.walls.report import report_wall, wall_to_json

    whose = Writer("ORDER", ORDER_MARK, "nesting wall", (".toml",))
    order_path, picture_path = take_targets(wall_file, output, picture, whose)
    found = read_wall(Path(wall_file))
    stretches = divide_wall(found)
    files: dict[Path, str] = {}
    if order_path is not None:
        files[order_path] = write_order(found, stretches)
    if picture_path is not None:
        from nesting.drawings.stamps import stamped
        from nesting.drawings.svg import to_svg
        from nesting.files.clock import read_clock
        from nesting.files.code import code_of
        from nesting.values.stamp import Stamp
        from nesting.walls.plan import draw_wall

        stamp = Stamp(read_clock(), code_of(write_order(found, stretches)))
        files[picture_path] = to_svg(stamped(draw_wall(found, stretches), stamp))
    write_together(files)
    if as_json:
        say(wall_to_json(found, stretches))
        return
    say(report_wall(found, stretches))
    say(f"\n{written(files, '-o for the order, with --svg for the plan')}")
