"""How commands print: results to standard output, trouble to standard error."""

import os
import sys
from collections.abc import Iterable

import click

from nesting.errors import InputError


def say(text: str) -> None:
    """Print to standard output, ending the line; a reader that left early is no fault of the plan.

    Raises
    ------
    InputError
        Where standard output takes no text.
    """
    from nesting.commands.console import escape_text, hush

    hush()
    try:
        written = escape_text(text, getattr(sys.stdout, "encoding", None))
        click.echo(written, nl=not text.endswith("\n"))
    except BrokenPipeError:
        _drop_standard_output()
    except OSError as error:
        _drop_standard_output()
        reason = (error.strerror or str(error)).lower()
        raise InputError("Standard output", "must take the text", got=reason) from error


def tell(text: str) -> None:
    """Print each line to standard error, under the program's name."""
    from nesting.commands.console import escape_text, hush

    hush()
    lines = "\n".join(f"nesting: {line}" for line in text.splitlines())
    click.echo(escape_text(lines, getattr(sys.stderr, "encoding", None)), err=True)


def written_to(folder: str | None, names: Iterable[str], otherwise: str) -> str:
    """Return what is said of the files in a folder, or where none was given how to get them."""
    if folder is None:
        return f"Nothing was written; give a folder with -o for {otherwise}."
    return f"Written to {folder}: {', '.join(names)}."


def written(files: Iterable[object], otherwise: str) -> str:
    """Return what is said of files written, or where there is none how to get them."""
    listed = ", ".join(map(str, files))
    if not listed:
        return f"Nothing was written; name a file with {otherwise}."
    return f"Written: {listed}."


def _drop_standard_output() -> None:
    """Send what is still buffered nowhere, or the interpreter complains when it ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
