"""What all commands have alike: the words of the help pages, and names that the shell completes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

OVERVIEW = """Plan dams, casts and masking layouts for relief panels from one flexible liner.

You own a liner with a relief and with plain zones where a dam may lie. You write down the liner,
your shop's distances and the order in one text file, the job. From it you get: where each dam goes,
which panels share a cast, the fewest casts that make the order, the proof that fewer cannot, the
area that lies idle, and a drawing of every masking layout.
"""
NOTES = """\b
Examples:
  nesting plan examples/ferry-terminal.toml -o output_svg/ferry-terminal
  nesting check examples/ferry-terminal.toml output_svg/ferry-terminal/schedule.json
  nesting COMMAND --help          shows an example of each command

\b
-o says where results go: a folder for plan, fit, zones, quantities, calendar, strips, template
  and packet; one file for wall (.toml), range (.svg) and liner (.toml, .dxf or .svg). --svg names
  a file for a picture. Only files that nesting wrote are replaced, and none where anything is
  wrong. With --json, standard output is one JSON document.

\b
Exit codes:
  0    done
  1    something went wrong in nesting itself
  2    the job, the schedule, an option or the output folder must be mended
  3    no schedule, calendar or liner exists, or none was found in time; the reason is given
  4    our own checker refused our own schedule, so nothing was written
  5    the schedule given has faults
  130  stopped by Ctrl-C

\b
Caution: silica dust harms the lungs; wet cement burns the skin, without pain at first.
Local codes and licensed practice rule: a plan certifies no panel, lift or structure.
"""

EXAMPLES = {
    "plan": (
        "nesting plan examples/ferry-terminal.toml -o output_svg/ferry-terminal",
        "nesting plan examples/garden-court.toml --time-limit 10 --quiet",
    ),
    "check": (
        "nesting check examples/ferry-terminal.toml output_svg/ferry-terminal/schedule.json",
    ),
    "fit": (
        "nesting fit examples/liners/reeds.toml 1500x900",
        'nesting fit examples/ferry-terminal.toml "4 ft 11 in x 35 1/2 in" --bed drum -o trial',
        "nesting fit examples/liners 1500x900 740x900 --tolerance architectural",
    ),
    "page": ("nesting page examples/ferry-terminal.toml",),
    "wall": (
        "nesting wall examples/walls/reading-room-drum.toml -o order.toml --svg plan.svg",
        "nesting wall examples/walls/bath-house-apse.toml --ties ties.pdf",
    ),
    "range": ("nesting range examples/liners/reeds.toml -o sizes.svg",),
    "liner": (
        "nesting liner examples/drawings/herons.svg --thickness 13 -o herons.toml",
        "nesting liner examples/scans/reeds-and-heron.png --width 2400 --relief 14 --thickness 13",
        "nesting liner examples/liners/reeds.toml -o reeds.dxf",
    ),
    "zones": (
        "nesting zones examples/motifs/frieze-to-be.toml -o frieze",
        "nesting zones --keep examples/ferry-terminal.toml 1750x900",
    ),
    "quantities": ("nesting quantities examples/ferry-terminal.toml -o tables",),
    "calendar": ("nesting calendar examples/ferry-terminal.toml --start 2026-03-02 -o days",),
    "strips": ("nesting strips examples/ferry-terminal.toml -o strips",),
    "template": (
        "nesting template examples/ferry-terminal.toml --layout 1 --dam 2 -o paper",
        "nesting template examples/reading-room.toml --layout 4 --dam 4 --profile -o paper",
        "nesting template examples/ferry-terminal.toml --panel A1 --paper roll:914mm -o paper",
        "nesting template examples/ferry-terminal.toml --bed drum --deck 6 -o ribs",
    ),
    "packet": ("nesting packet examples/ferry-terminal.toml -o packet",),
    "schema": ("nesting schema",),
}
"""Command lines for each help page, all of which can be run in the project's folder."""

_FILES = ("JOB", "FILE", "LINER", "SCHEDULE", "CHART", "ORDER", "PICTURE", "SHEETS")
_FOLDERS = ("FOLDER",)


class _Name(click.types.StringParamType):
    """A file or folder by its name, taken as it is; the shell completes it."""

    def __init__(self, kind: str) -> None:
        self._kind = kind

    def shell_complete(
        self, ctx: click.Context, param: click.Parameter, incomplete: str
    ) -> list[CompletionItem]:
        from click.shell_completion import CompletionItem

        return [CompletionItem(incomplete, type=self._kind)]


def finish_command(command: click.Command) -> None:
    """Give a command the examples of its page, and have the shell complete the files it takes."""
    lines = [f"  {line}" for line in EXAMPLES[command.name or ""]]
    head = "Example:" if len(lines) == 1 else "Examples:"
    command.epilog = "\n".join(["\b", head, *lines])
    for param in command.params:
        if param.metavar in _FILES:
            param.type = _Name("file")
        elif param.metavar in _FOLDERS:
            param.type = _Name("dir")
