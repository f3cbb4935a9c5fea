"""What the files a command writes may be called."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
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


def need_different_files(words: str, *paths: Path | None) -> None:
    """Refuse, as an error of use, paths of which two lead to the same file; ``words`` names all."""
    real = [os.path.realpath(path) for path in paths if path is not None]
    if len(set(real)) < len(real):
        raise click.UsageError(f"{words} must be different files.")


@dataclass(frozen=True, slots=True)
class Writer:
    """What a command writes with -o: its word on the help page, its mark, and its endings."""

    metavar: str
    mark: str
    maker: str
    endings: tuple[str, ...]


def take_targets(
    source: str, output: str | None, picture: str | None, writer: Writer
) -> tuple[Path | None, Path | None]:
    """Return where -o and --svg write, each None where not given.

    Raises
    ------
    click.UsageError
        Where two of them, or one and the file that is read, are the same.
    InputError
        Where the ending is another, or a file is there that the command did not write.
    """
    from nesting.files.marks import MARK

    target = None if output is None else need_file_name("-o", output, *writer.endings)
    drawing = None if picture is None else need_file_name("--svg", picture, ".svg")
    need_different_files(f"FILE, {writer.metavar} and PICTURE", Path(source), target, drawing)
    refuse_foreign_file("-o", target, writer.mark, writer.maker)
    refuse_foreign_file("--svg", drawing, MARK)
    return target, drawing


def name_folder(folder: str | None) -> Path:
    """Return the folder that -o names; InputError where it names none."""
    if not folder:
        raise InputError("-o", "must name a folder", remedy="give its path after -o")
    return Path(folder)


def refuse_foreign_file(option: str, path: Path | None, mark: str, maker: str = "nesting") -> None:
    """Refuse to replace a file that lacks the mark of the command that writes it."""
    from nesting.files.marks import is_foreign

    if path is not None and is_foreign(path, mark):
        rule = f"must not replace a file that {maker} did not write"
        raise InputError(option, rule, got=str(path), remedy="name another file, or remove it")


def prove_folder(folder: str | None, marks: Mapping[str, str], maker: str = "nesting") -> Path:
    """Return the folder that -o names, tried before long work begins.

    Raises
    ------
    InputError
        Where it cannot be written to, or a file in it that is to be replaced lacks its mark;
        ``marks`` has one for each file by its name.
    """
    from nesting.files.output import prove_folder

    target = name_folder(folder)
    prove_folder(target)
    for name, mark in marks.items():
        refuse_foreign_file("-o", target / name, mark, maker)
    return target
