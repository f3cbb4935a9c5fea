"""What reaches the terminal: text every stream can show, and one rewritten progress line."""

from __future__ import annotations

import time
from collections.abc import Callable
from types import TracebackType

REDRAW_S = 0.1
"""Least time between two redraws of the progress line."""


def escape_text(text: str, encoding: str | None) -> str:
    r"""Return the text with what a stream cannot show written as ``\uXXXX``.

    Control characters other than line ends are escaped too, so that a name in a file cannot steer
    the terminal. The escape is that of JSON strings, so JSON text stays JSON.

    Parameters
    ----------
    text
        What is to be printed.
    encoding
        The stream's encoding; None stands for UTF-8.

    Examples
    --------
    >>> print(escape_text("caf\xe9", "ascii"), escape_text("caf\xe9", None) == "caf\xe9")
    caf\u00e9 True
    """
    shown = set(text)
    escapes = {ord(char): _escape(char) for char in shown if not _shows(char, encoding or "utf-8")}
    return text.translate(escapes)


def _shows(char: str, encoding: str) -> bool:
    if char == "\n":
        return True
    try:
        char.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return char.isprintable()


def _escape(char: str) -> str:
    units = char.encode("utf-16-be", "surrogatepass").hex()
    return "".join(f"\\u{units[at : at + 4]}" for at in range(0, len(units), 4))


class ProgressLine:
    """The latest word on a long piece of work: one line rewritten in place, wiped at the end.

    Parameters
    ----------
    write
        Takes the text to send to the terminal as it is, without a line end.
    columns
        Width of the terminal in characters; the line is cut to fit.
    clock
        Seconds that only grow.
    """

    def __init__(
        self,
        write: Callable[[str], None],
        columns: int = 80,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._write, self._columns, self._clock = write, columns, clock
        self._start = clock()
        self._drawn: float | None = None

    def __call__(self, text: str) -> None:
        """Show the text with the seconds gone, unless the last redraw was a moment ago."""
        now = self._clock()
        if self._drawn is not None and now - self._drawn < REDRAW_S:
            return
        self._drawn = now
        shown = escape_text(f"{now - self._start:.0f} s  {text}", "ascii").replace("\n", " ")
        line = shown[: self._columns - 1]
        self._write("\r" + line.ljust(self._columns - 1))

    def __enter__(self) -> ProgressLine:
        """Return itself; the line appears with the first text."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Wipe the line, whatever happened."""
        if self._drawn is not None:
            self._write("\r" + " " * (self._columns - 1) + "\r")
