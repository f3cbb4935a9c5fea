"""Tables as values, and as plain text: columns as wide as their widest cell."""

import textwrap
from collections.abc import Collection, Sequence
from typing import NamedTuple

INDENT = "  "
WIDTH = 100
"""Longest line of running text; a table is as wide as it must be."""


class TextTable(NamedTuple):
    """A table before it is set: what it shows, its head, its rows, the columns set flush left."""

    title: str
    head: Sequence[str]
    rows: Sequence[Sequence[str]]
    left: Collection[str] = ()

    @property
    def lines(self) -> list[str]:
        """The table as plain text, without its title."""
        return write_table(self.head, self.rows, self.left)

    @property
    def told(self) -> list[str]:
        """The table as plain text under its title."""
        return [*wrap_text(self.title), *self.lines]


def write_table(
    head: Sequence[str], rows: Sequence[Sequence[str]], left: Collection[str] = ()
) -> list[str]:
    r"""Return the lines of a table, head first, each indented by two spaces.

    Parameters
    ----------
    head
        The column titles.
    rows
        One cell per column; no rows give the head alone.
    left
        The titles of the columns set flush left; the others are set flush right.

    Examples
    --------
    >>> rows = [["dam 1", "1500"], ["dam 12", "0"]]
    >>> print("\n".join(write_table(["dam", "left"], rows, left=["dam"])))
      dam     left
      dam 1   1500
      dam 12     0
    """
    flush_left = [title in left for title in head]
    table = [list(head), *(list(row) for row in rows)]
    widths = [max(len(cell) for cell in column) for column in zip(*table, strict=True)]
    return [_write_row(row, widths, flush_left) for row in table]


def _write_row(row: Sequence[str], widths: Sequence[int], flush_left: Sequence[bool]) -> str:
    cells = [
        cell.ljust(width) if left else cell.rjust(width)
        for cell, width, left in zip(row, widths, flush_left, strict=True)
    ]
    return (INDENT + "  ".join(cells)).rstrip()


def count_of(number: int, word: str) -> str:
    """Return a number with its word, in the plural where it is not one.

    >>> count_of(1, "cast"), count_of(2, "cast")
    ('1 cast', '2 casts')
    """
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def sets_of_dams(number: int) -> str:
    """Return a number of sets of dams in words.

    >>> sets_of_dams(1), sets_of_dams(6)
    ('1 set of dams', '6 sets of dams')
    """
    return f"{count_of(number, 'set')} of dams"


def times_of(number: int) -> str:
    """Return how often something is done, in words.

    >>> times_of(1), times_of(3)
    ('once', '3 times')
    """
    return "once" if number == 1 else f"{number} times"


def wrap_text(text: str, indent: str = "", hang: str = INDENT) -> list[str]:
    """Return running text in lines of at most ``WIDTH``, all but the first further in by ``hang``.

    A longer word stands whole on a line of its own.

    >>> wrap_text("dams and masks", INDENT)
    ['  dams and masks']
    """
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent + hang,
        break_long_words=False,
        break_on_hyphens=False,
    )
