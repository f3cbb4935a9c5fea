"""What ``nesting liner`` asks and does where its file is a scan.

Only click is imported before the command runs.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from nesting.errors import InputError, InputErrors, naming, shown

if TYPE_CHECKING:
    from nesting.scans.build import ScanFound, ScanRules
    from nesting.scans.scale import ScanScale
    from nesting.values.job import Units

Command = TypeVar("Command", bound=Callable[..., None])
Value = TypeVar("Value")
Texts = Mapping[str, Any]
"""What was given for each option, by its name with underscores; text, None where not given."""

DAM_WIDTH, SEAL_GAP, SPECK = "25 mm", "1 mm", "3 mm"

_LENGTHS = {
    "width": "Scan: its width from the left to the right end of the picture.",
    "pixel": "Scan: the side of a pixel, instead of --width; of a mesh, 1 mm unless given.",
    "relief": "Scan of whole numbers: the height from black to white.",
    "threshold": "Scan: what stands off the ground by more is ornament; unless given, by noise.",
    "join": "Scan: ornaments less than this apart are one; the dam width unless given.",
    "dam-width": f"Scan: how wide a dam is; {DAM_WIDTH} unless given.",
    "seal-gap": f"Scan: how much the ground may differ under a dam; {SEAL_GAP} unless given.",
    "speck": f"Scan: what is no larger either way is no ornament; {SPECK} unless given.",
}
_OTHERS = {
    "no-data": ("NUMBER", "Scan: the number that stands for no reading."),
    "height-units": ("UNIT", "Scan of decimals, mesh: what 1 stands for; mm unless given."),
}
SCAN_OPTIONS = tuple(name.replace("-", "_") for name in (*_LENGTHS, *_OTHERS))
"""Options that scans alone have, by their names with underscores."""
_UNITS = ("mm", "cm", "m", "in")


def is_scan(file: str) -> bool:
    """Whether the file's ending is that of a scan, in capitals or not."""
    from nesting.files.kinds import SCANS

    return Path(file).suffix.lower() in SCANS


def scan_options(command: Command) -> Command:
    """Add the options that only scans have; all are text, None where not given."""
    for name, words in reversed(_LENGTHS.items()):
        command = click.option(f"--{name}", metavar="LENGTH", help=words)(command)
    for name, (metavar, words) in reversed(_OTHERS.items()):
        command = click.option(f"--{name}", metavar=metavar, help=words)(command)
    return command


def read_scan_options(texts: Texts, units: str) -> tuple[ScanScale, ScanRules]:
    """Return what was said of a scan; plain numbers are in ``units``.

    Raises
    ------
    InputErrors
        One line for each option that cannot be read.
    """
    from nesting.scans.build import ScanRules
    from nesting.scans.scale import ScanScale
    from nesting.units import to_steps

    read = _Reader(texts, units)
    scale = ScanScale(
        read.length("width"),
        read.length("pixel"),
        read.length("relief"),
        read.height_unit(),
        read.number("no_data"),
    )
    dam_width = read.length("dam_width", DAM_WIDTH) or Fraction(1)
    threshold = read.length("threshold")
    join = read.length("join", least=0)
    rules = ScanRules(
        to_steps(dam_width),
        to_steps(read.length("seal_gap", SEAL_GAP) or Fraction(1)),
        to_steps(dam_width if join is None else join),
        to_steps(read.length("speck", SPECK, least=0) or Fraction(0)),
        None if threshold is None else to_steps(threshold),
    )
    if read.errors:
        raise InputErrors(read.errors)
    return scale, rules


def find_on_scan(file: str, texts: Texts) -> tuple[ScanFound, Units]:
    """Return the liner found on a scan, and the units of its report."""
    from nesting.files.readers import LengthReaders, read_choice, read_name
    from nesting.scans.read import read_scanned_liner

    units: Units = (
        "in" if _read("--units", read_choice("mm", "in"), texts["units"] or "mm") == "in" else "mm"
    )
    name = _read("--name", read_name, texts["name"] or _stem(file))
    positive = LengthReaders(units).positive
    scale, rules = read_scan_options(texts, units)
    if texts["thickness"] is None:
        rule = "a scan does not tell how thick the liner is"
        raise InputError("--thickness", rule, remedy="give it, for example --thickness 13")
    thickness = _read("--thickness", positive, texts["thickness"])
    return read_scanned_liner(Path(file), scale, rules, name, thickness), units


def _read(option: str, read: Callable[[object], Value], text: str) -> Value:
    """Return what was given for an option; InputError with its name where it cannot be read."""
    with naming(option):
        return read(text)


def _stem(path: str) -> str:
    """Return the file's name without ending, as the name of a liner."""
    kept = (" " if mark in "/\\\"'<>_" else mark for mark in Path(path).stem)
    return " ".join("".join(kept).split())[:60] or "liner"


class _Reader:
    """Reads options one by one and keeps what was wrong with each."""

    def __init__(self, texts: Texts, units: str) -> None:
        self._texts, self._units = texts, units
        self.errors: list[InputError] = []

    def length(self, name: str, default: str | None = None, least: int = 1) -> Fraction | None:
        """Return a length [mm], above zero or, with ``least`` 0, from zero."""
        from nesting.files.readers import LengthReaders
        from nesting.units import to_mm

        text = self._texts.get(name)
        text = default if text is None else text
        if text is None:
            return None
        readers = LengthReaders(self._units)
        try:
            return to_mm((readers.positive if least else readers.not_negative)(text))
        except InputError as error:
            self._note(name, error.rule, error.got, error.remedy)
            return None

    def number(self, name: str) -> float | None:
        """Return a finite number."""
        text = self._texts.get(name)
        if text is None:
            return None
        try:
            number = float(text)
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            self._note(name, "must be a number", shown(text), "")
        return number

    def height_unit(self) -> Fraction | None:
        """Return what 1 stands for [mm]."""
        from nesting.units import MM_PER_UNIT

        text = self._texts.get("height_units")
        if text is not None and text not in _UNITS:
            self._note("height_units", f"must be one of {', '.join(_UNITS)}", shown(text), "")
            return None
        return None if text is None else MM_PER_UNIT[text]

    def _note(self, name: str, rule: str, got: str, remedy: str) -> None:
        self.errors.append(InputError(f"--{name.replace('_', '-')}", rule, got, remedy))
