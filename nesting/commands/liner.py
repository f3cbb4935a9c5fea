"""The command ``nesting liner``: a liner from a drawing or a scan, and its file to a drawing.

Only click is imported before the command runs.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from nesting.commands.filenames import need_different_files, need_file_name, refuse_foreign_file
from nesting.commands.options import Say, debug_option, help_option, json_option
from nesting.commands.scanned import SCAN_OPTIONS, SCANS, is_scan, scan_options
from nesting.errors import InputError

if TYPE_CHECKING:
    from nesting.jobs.found import LinerFound
    from nesting.values.liner import Liner

Given = Mapping[str, Any]
"""What was given after the file, by the names of the options."""


def make_liner(say: Say) -> click.Command:
    """Return the command, which prints through ``say``."""

    @click.command(
        name="liner",
        short_help="Read a liner from a drawing or a scan, or draw a liner's file.",
        add_help_option=False,
    )
    @click.argument("file", metavar="FILE")
    @click.option(
        "-o", "--output", metavar="LINER", help="Write the liner here: .toml, or .dxf or .svg."
    )
    @click.option("--svg", "picture", metavar="PICTURE", help="Write a picture of what was read.")
    @click.option("--thickness", metavar="LENGTH", help="How thick the liner is: 13, '1/2 in'.")
    @click.option(
        "--units",
        metavar="UNIT",
        help="The drawing's unit, whatever its header says; of a scan, mm or in.",
    )
    @click.option(
        "--layer",
        "layers",
        metavar="ROLE=NAME",
        multiple=True,
        help="The layer of a role: outline, ornament or blank.",
    )
    @click.option(
        "--gap", metavar="LENGTH", default="0.1", help="The widest gap that is closed; 0.1 mm."
    )
    @click.option(
        "--chord-error",
        metavar="LENGTH",
        default="0.05",
        help="The most a polygon is off its curve; 0.05 mm.",
    )
    @click.option("--name", default="", help="The liner's name; else that of the drawing.")
    @click.option("--unmarked", metavar="KIND", help="Ground without a mark: detail or blank.")
    @click.option("--keep-origin", is_flag=True, help="Count from the drawing's own origin.")
    @click.option("--lenient", is_flag=True, help="Leave out what cannot be read or closed.")
    @scan_options
    @json_option("what was found")
    @debug_option
    @help_option
    def liner(
        file: str,
        output: str | None,
        picture: str | None,
        as_json: bool,
        debug: bool,
        **given: Any,  # noqa: ANN401 - click passes options of several kinds
    ) -> None:
        """Read a liner from FILE, a DXF or SVG drawing or a scan, and tell what was found.

        With -o, LINER gets the liner as a file that jobs name, or as a drawing; with --svg, PICTURE
        shows what was read and what was left out. Closed curves on layers named outline, ornament
        and blank are read. FILE may be a liner file or a job too, whose liner -o then writes.
        PICTURE and a former LINER of this command are replaced, no other file is.

        A scan is a grey PNG or TIFF, an NPY array, or an STL mesh seen from above: what stands
        off its ground is ornament, and blank zones are where a dam seals.
        """
        from nesting.files.output import write_together

        targets = _targets(file, output, picture)
        _refuse_options(file, given)
        if is_scan(file):
            _finish_scan(say, file, given, targets, as_json=as_json)
            return
        found = _find(Path(file), given)
        files = _files(found, targets, picture is not None)
        write_together(files)
        _tell(say, found, files, as_json=as_json)

    return liner


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


def _finish_scan(
    say: Say,
    file: str,
    given: Given,
    targets: Mapping[str, Path],
    *,
    as_json: bool,
) -> None:
    """Find the liner on a scan, write what was asked for, and tell what was found."""
    from nesting.commands.scanned import find_on_scan
    from nesting.files.output import write_together
    from nesting.scans.report import found_liner, report_scan, scan_to_json

    found, units = find_on_scan(file, given)
    source = Path(file).name
    files: dict[Path, str] = {}
    if "output" in targets:
        files[targets["output"]] = _write(found_liner(found, source, units), targets["output"])
    if "picture" in targets:
        from nesting.drawings.svg import to_svg
        from nesting.scans.picture import draw_scan

        files[targets["picture"]] = to_svg(draw_scan(found, found.liner.name, units))
    write_together(files)
    say(scan_to_json(found, source) if as_json else report_scan(found, source, units))
    if not as_json:
        say(_written(files))


def _find(path: Path, given: Given) -> LinerFound:
    """Return the liner of a file, by its ending."""
    ending = path.suffix.lower()
    if ending == ".toml":
        return _read_toml(path)
    if ending in _READERS:
        return _READERS[ending](path, given)
    known = ", ".join((*_READERS, *SCANS, ".toml"))
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


_READERS: dict[str, Callable[[Path, Given], LinerFound]] = {
    ".dxf": _read_drawing,
    ".svg": _read_drawing,
}
"""What reads a file, by its ending."""
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
    from nesting.files.readers import MAX_LENGTH
    from nesting.units import mm_text, parse_length, to_steps

    try:
        steps = to_steps(parse_length(text, "mm"))
    except InputError as error:
        raise InputError(option, error.rule, error.got, error.remedy) from error
    if not least <= steps <= MAX_LENGTH:
        low = "> 0" if least == 1 else f">= {mm_text(least)}"
        raise InputError(
            option, f"must be {low} mm and at most {mm_text(MAX_LENGTH)} mm", repr(text)
        )
    return steps


def _targets(file: str, output: str | None, picture: str | None) -> dict[str, Path]:
    """Return the files to write; a usage error where two of them, or one and FILE, are the same."""
    targets: dict[str, Path] = {}
    if output is not None:
        targets["output"] = need_file_name("-o", output, ".toml", ".dxf", ".svg")
    if picture is not None:
        targets["picture"] = need_file_name("--svg", picture, ".svg")
    need_different_files("FILE, LINER and PICTURE", (Path(file), *targets.values()))
    if output is not None:
        from nesting.files.marks import LINER_MARK

        refuse_foreign_file("-o", targets["output"], LINER_MARK, "nesting liner")
    return targets


def _files(found: LinerFound, targets: Mapping[str, Path], wants_picture: bool) -> dict[Path, str]:
    """Return the text of every file to write."""
    files: dict[Path, str] = {}
    if "output" in targets:
        files[targets["output"]] = _write(found, targets["output"])
    if wants_picture:
        from nesting.drawings.svg import to_svg
        from nesting.liners.picture import draw_liner

        files[targets["picture"]] = to_svg(draw_liner(found))
    return files


def _write(found: LinerFound, path: Path) -> str:
    from nesting.jobs.liner import write_liner

    ending = path.suffix.lower()
    if ending != ".toml" and found.liner.keep_clear:
        rule = "a drawing of a liner holds no keep_clear, and the liner has some"
        raise InputError("-o", rule, remedy="write a .toml, or drop keep_clear from FILE")
    return write_liner(found) if ending == ".toml" else _draw(found.liner, ending)


def _draw(liner: Liner, ending: str) -> str:
    if ending == ".svg":
        from nesting.drawings.linersvg import liner_to_svg

        return liner_to_svg(liner)
    from nesting.drawings.dxf import liner_to_dxf
    from nesting.liners.dxfopen import need_dxf

    need_dxf("-o")
    return liner_to_dxf(liner)


def _tell(say: Say, found: LinerFound, files: Mapping[Path, str], *, as_json: bool) -> None:
    from nesting.liners.report import liner_to_json, report_liner

    if as_json:
        say(liner_to_json(found))
        return
    say(report_liner(found))
    say(_written(files))


def _written(files: Mapping[Path, str]) -> str:
    written = ", ".join(str(path) for path in files)
    nothing = "Nothing was written; name a file with -o for the liner, with --svg for its picture."
    return f"\nWritten: {written}." if files else f"\n{nothing}"
