"""What the files a command writes may be called."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

import click

from nesting.errors import InputError


def need_file_name(option: str, name: str, *endings: str) -> Path:
    """Return the file an option names; InputError where it has another ending than those known.

    So a drawing never lands under the name of a job, or of a picture that no viewer opens.
    """
    if not name:
        raise InputError(option, "must name a file", remedy=f"give its path after {option}")
    path = Path(name)
    if path.suffix.lower() not in endings:
        rule = f"must name a file that ends with {' or '.join(endings)}"
        raise InputError(
            option, rule, got=name, remedy=f"write {path.stem or 'name'}{endings[0]}, say"
        )
    return path


def need_different_files(words: str, paths: Iterable[Path]) -> None:
    """Refuse, as an error of use, paths of which two lead to the same file; ``words`` names all."""
    real = [os.path.realpath(path) for path in paths]
    if len(set(real)) < len(real):
        raise click.UsageError(f"{words} must be different files.")


def refuse_foreign_file(option: str, path: Path, mark: str, maker: str) -> None:
    """Refuse to replace a file whose first line lacks the mark of the command that writes it.

    In DXF a comment takes two lines, the first of which is its group code, 999.
    """
    try:
        with path.open(encoding="utf-8", errors="replace") as stream:
            first = stream.readline(1000)
            first = stream.readline(1000) if first.strip() == "999" else first
    except OSError:  # absent, or told when it is written
        return
    if first and mark not in first:
        rule = f"must not replace a file that {maker} did not write"
        raise InputError(option, rule, got=str(path), remedy="name another file, or remove it")
