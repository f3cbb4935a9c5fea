"""A TOML file read whole: its text, its tables, and all its mistakes at once."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from nesting.errors import InputErrors, gathered
from nesting.files.kinds import refuse_drawing
from nesting.files.text import path_label, read_text_file
from nesting.files.tomlcheck import Mistakes, Table
from nesting.files.tomltext import parse_toml

T = TypeVar("T")


def read_tables(path: Path, read: Callable[[Table], T | None]) -> T:
    """Return what ``read`` makes of the file's top table; it gives None where it has mistakes.

    Raises
    ------
    InputErrors
        With every mistake of the file, each with file, line and key path.
    """
    with gathered():
        refuse_drawing(path)
        text = read_text_file(path)
        label = path_label(path.name)
        mistakes = Mistakes(label, text)
        found = read(Table(parse_toml(label, text), (), mistakes))
    if found is None or len(mistakes):
        raise InputErrors(mistakes.located())
    return found
