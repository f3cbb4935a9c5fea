"""What reaches the terminal: text every stream can show, and one rewritten line of progress."""

import shutil
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import click

REDRAW_S = 0.1
"""Least time between two redraws of the progress line."""
WORKING = "working; Ctrl-C stops it"
"""What a progress line says of work that says nothing itself."""
SILENCE_S = 2.0
"""Longest time a command works without a word on a terminal."""


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
        self._text = WORKING

    def __call__(self, text: str) -> None:
        """Show the text with the seconds gone, unless the last redraw was a moment ago."""
        self._text = text
        self.tick()

    def note(self, text: str) -> None:
        """Have the text shown from the next tick on."""
        self._text = text

    def tick(self) -> None:
        """Show the latest text again with the seconds gone by now."""
        now = self._clock()
        if self._drawn is not None and now - self._drawn < REDRAW_S:
            return
        self._drawn = now
        shown = escape_text(f"{now - self._start:.0f} s  {self._text}", "ascii").replace("\n", " ")
        line = shown[: self._columns - 1]
        self._write("\r" + line.ljust(self._columns - 1))

    def wipe(self) -> None:
        """Leave nothing of the line where it has appeared."""
        if self._drawn is not None:
            self._write("\r" + " " * (self._columns - 1) + "\r")
            self._drawn = None


def watched_line() -> ProgressLine | None:
    """Return a line on standard error; None where no person sees standard error."""
    if sys.stderr is None or not sys.stderr.isatty():
        return None
    return ProgressLine(
        lambda text: click.echo(text, nl=False, err=True), shutil.get_terminal_size().columns
    )


@contextmanager
def speak_up(line: ProgressLine, after: float = SILENCE_S, every: float = 1.0) -> Iterator[None]:
    """Have the line tick from ``after`` seconds [s] on until `hush` or the end, then wipe it.

    One such block speaks at a time, the latest; its line is written from a thread of its own.
    """
    global _hush, _note
    over = threading.Event()

    def speak() -> None:
        pause = after
        while not over.wait(pause):
            line.tick()
            pause = every

    speaker = threading.Thread(target=speak, daemon=True)

    def stop() -> None:
        if not over.is_set():
            over.set()
            speaker.join()
            line.wipe()

    hush()
    _hush, _note = stop, line.note
    speaker.start()
    try:
        yield
    finally:
        stop()
        _hush = _note = None


def note_progress(text: str) -> None:
    """Have `speak_up` write what is being done, where it writes at all."""
    if _note is not None:
        _note(text)


def hush() -> None:
    """Wipe what `speak_up` wrote, and let it write no more: called before anything is printed."""
    if _hush is not None:
        _hush()


_hush: Callable[[], None] | None = None
_note: Callable[[str], None] | None = None
