"""The command ``nesting liner``: a liner from a drawing or a scan, and its file to a drawing.

Only click is imported before the command runs.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from nesting.commands.filenames import Writer, take_targets
from nesting.commands.options import command, json_option, output_option, picture_option
from nesting.commands.say import say, written
from nesting.commands.scanned import SCAN_OPTIONS, is_scan, scan_options
from nesting.errors import InputError, naming

if TYPE_CHECKING:
    from nesting.drawings.record import Drawing
    from nesting.jobs.found import LinerFound

Given = Mapping[str, Any]
"""What was given after the file, by the names of the options."""


@command(
    "Read a liner from a drawing or a scan, or draw a liner's file.",
    click.argument("file", metavar="FILE"),
    output_option("LINER", "Write the liner here: .toml, or .dxf or .svg."),
    picture_option("a picture of what was read"),
    click.option("--thickness", metavar="LENGTH", help="How thick the liner is: 13, '1/2 in'."),
    click.option(
        "--units",
        metavar="UNIT",
        help="The drawing's unit, whatever its header says; of a scan, mm or in.",
    ),
    click.option(
        "--layer",
        "layers",
        metavar="ROLE=NAME",
        multiple=True,
        help="The layer of a role: outline, ornament or blank.",
    ),
    click.option(
        "--gap", metavar="LENGTH", default="0.1", help="The widest gap that is closed; 0.1 mm."
    ),
    click.option(
        "--chord-error",
        metavar="LENGTH",
        default="0.05",
        help="The most a polygon is off its curve; 0.05 mm.",
    ),
    click.option("--name", default="", help="The liner's name; else that of the drawing."),
    click.option("--unmarked", metavar="KIND", help="Ground without a mark: detail or blank."),
    click.option("--keep-origin", is_flag=True, help="Count from the drawing's own origin."),
    click.option("--lenient", is_flag=True, help="Leave out what cannot be read or closed."),
    scan_options,
    json_option("what was found"),
)
def liner(
    file: str,
    output: str | None,
    picture: str | None,
    as_json: bool,
    **given: Any,  # noqa: ANN401 - click passes options of several kinds
) -> None:
    """Read a liner from FILE, a DXF or SVG drawing or a scan, and tell what was found.

    With -o, LINER gets the liner as a file that jobs name, or as a drawing; with --svg, PICTURE
    shows what was read and what was left out. Closed curves on layers named outline, ornament
    and blank are read. FILE may be a liner file or a job too, whose liner -o then writes.
    A former LINER and PICTURE of this command are replaced, no other file is.

    A scan is a grey PNG or TIFF, an NPY array, or an STL mesh seen from above: what stands
    off its ground is ornament, and blank zones are where a dam seals.
    """
    from nesting.files.marks import LINER_MARK
    from nesting.files.output import write_together

    whose = Writer("LINER", LINER_MARK, "nesting liner", (".toml", ".dxf", ".svg"))
    targets = take_targets(file, output, picture, whose)
    _refuse_options(file, given)
    found = (_find_on_scan if is_scan(file) else _find_drawn)(file, given)
    files: dict[Path, str] = {}
    if targets[0] is not None:
        files[targets[0]] = _write(found.found, targets[0])
    if targets[1] is not None:
        files[targets[1]] = _picture(found)
    write_together(files)
    if as_json:
        say(found.to_json())
        return
    say(found.report())
    say(f"\n{written(files, '-o for the liner, with --svg for its picture')}")


def _picture(found: _Answer) -> str:
    """Return the picture as SVG; its sheet code is that of the liner as a file has it."""
    from nesting.drawings.stamps import stamped
    from nesting.drawings.svg import to_svg
    from nesting.files.clock import read_clock
    from nesting.files.code import code_of
    from nesting.jobs.write import write_liner
    from nesting.values.stamp import Stamp

    stamp = Stamp(read_clock(), code_of(write_liner(found.found)))
    return to_svg(stamped(found.draw(), stamp))


@dataclass(frozen=True, slots=True)
class _Answer:
    """A liner that was found, and what makes its picture, its document and its report."""

    found: LinerFound
    draw: Callable[[], Drawing]
    to_json: Callable[[], str]
    report: Callable[[], str]


def _refuse_options(file: str, given: Given) -> None:
    """Refuse what is meant for files of another kind; a usage error names the first."""
    foreign: dict[str, object] = dict.fromkeys(SCAN_OPTIONS)
    if is_scan(file):
        foreign = _DRAWING_OPTIONS
    for name, default in foreign.items():
        if given[name] != default:
            option = "layer" if name == "layers" else name.replace("_", "-")
            kind = "drawings" if is_scan(file) else "scans"
            raise click.UsageError(f"--{option} is for {kind}, and FILE is none.")


def _find_on_scan(file: str, given: Given) -> _Answer:
    from nesting.commands.scanned import find_on_scan
    from nesting.scans.picture import draw_scan
    from nesting.scans.report import found_liner, report_scan, scan_to_json

    found, units = find_on_scan(file, given)
    source = Path(file).name
    return _Answer(
        found_liner(found, source, units),
        lambda: draw_scan(found, found.liner.name, units),
        lambda: scan_to_json(found, source),
        lambda: report_scan(found, source, units),
    )


def _find_drawn(file: str, given: Given) -> _Answer:
    from nesting.liners.picture import draw_liner
    from nesting.liners.report import liner_to_json, report_liner

    found = _find(Path(file), given)
    return _Answer(
        found, lambda: draw_liner(found), lambda: liner_to_json(found), lambda: report_liner(found)
    )


def _find(path: Path, given: Given) -> LinerFound:
    """Return the liner of a file, by its ending."""
    from nesting.files.kinds import DRAWINGS, SCANS

    ending = path.suffix.lower()
    if ending == ".toml":
        return _read_toml(path)
    if ending in DRAWINGS:
        return _read_drawing(path, given)
    known = ", ".join((*DRAWINGS, *SCANS, ".toml"))
    raise InputError(str(path), f"must be a file of a kind that is read: {known}", ending or "none")


def _read_toml(path: Path) -> LinerFound:
    from nesting.jobs.found import LinerFound
    from nesting.jobs.read import read_liner_file

    found, units = read_liner_file(path)
    return LinerFound(found, units, ("It is the liner as its file gives it",), source=path.name)


def _read_drawing(path: Path, given: Given) -> LinerFound:
    from nesting.liners.options import DrawingOptions, read_layers
    from nesting.liners.read import read_drawing

    thickness = given["thickness"]
    options = DrawingOptions(
        units=_choice("--units", given["units"], _unit_names()),
        layers=read_layers(given["layers"]),
        gap=_length("--gap", given["gap"], 1),
        chord_error=_length("--chord-error", given["chord_error"], 8),
        thickness=None if thickness is None else _length("--thickness", thickness, 1),
        name=given["name"],
        unmarked=_choice("--unmarked", given["unmarked"], ("detail", "blank")),  # type: ignore[arg-type]
        keep_origin=given["keep_origin"],
        lenient=given["lenient"],
    )
    return read_drawing(path, options)


_DRAWING_OPTIONS: dict[str, object] = {
    "layers": (),
    "gap": "0.1",
    "chord_error": "0.05",
    "unmarked": None,
    "keep_origin": False,
    "lenient": False,
}
"""Options that drawings alone have, each with its default."""


def _unit_names() -> tuple[str, ...]:
    from nesting.liners.options import DRAWING_UNITS

    return tuple(DRAWING_UNITS)


def _choice(option: str, value: str | None, known: tuple[str, ...]) -> str | None:
    if value is None or value in known:
        return value
    raise InputError(option, f"must be one of {', '.join(known)}", repr(value))


def _length(option: str, text: str, least: int) -> int:
    """Return a length given on the command line [steps]; a plain number is in mm."""
    from nesting.files.lengths import MAX_LENGTH
    from nesting.units import mm_text, parse_length, to_steps

    with naming(option):
        steps = to_steps(parse_length(text, "mm"))
    if not least <= steps <= MAX_LENGTH:
        low = "> 0" if least == 1 else f">= {mm_text(least)}"
        raise InputError(
            option, f"must be {low} mm and at most {mm_text(MAX_LENGTH)} mm", repr(text)
        )
    return steps


def _write(found: LinerFound, path: Path) -> str:
    from nesting.jobs.write import write_liner

    ending = path.suffix.lower()
    if ending != ".toml" and found.liner.keep_clear:
        rule = "a drawing of a liner holds no keep_clear, and the liner has some"
        raise InputError("-o", rule, remedy="write a .toml, or drop keep_clear from FILE")
    return write_liner(found) if ending == ".toml" else _draw(found, ending)


def _draw(found: LinerFound, ending: str) -> str:
    if ending == ".svg":
        from nesting.drawings.linersvg import liner_to_svg

        return liner_to_svg(found.liner, found.units)
    from nesting.drawings.dxf import liner_to_dxf
    from nesting.liners.dxfopen import need_dxf

    need_dxf("-o")
    return liner_to_dxf(found.liner, found.units)
