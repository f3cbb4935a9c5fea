"""How much room written words take, on the safe side, in any common sans-serif face.

Height is that of a capital letter, as on any workshop drawing. The reader's own machine chooses the
face, so the widths here are upper bounds: measured on DejaVu Sans, the widest of the usual ones,
and never below those of Helvetica. Where words fit by this table they fit on the sheet.
"""

import re
import unicodedata

CAPITAL = 0.72
"""Height of a capital letter, as a share of the type size (the em)."""

_CLASSES = (
    ("ijlft'()[],.:;/\\|!-I r", 0.42, 0.55),
    ("mMW@%", 1.05, 1.13),
    ("ABCDGHKNOQRUVXZw#+<=>^~&×±≈", 0.85, 0.93),  # noqa: RUF001 - the sign
)
_WIDTHS = {letter: (plain, bold) for letters, plain, bold in _CLASSES for letter in letters}
_USUAL = (0.66, 0.76)
_FOREIGN = (1.5, 1.75)
_ACCENT_WIDTH = 0.07
_HANGING = frozenset("gjpqyQ,;()[]{}|/\\@_$")
_MOST_LETTERS = 400
_SLIP = 1e-6  # rooms are sums of widths, so floats may differ in the last place
_RISE, _ACCENT_RISE = 0.78, 1.0
_FLAT_DEPTH, _HANGING_DEPTH = 0.03, 0.25


def clean(words: str) -> str:
    """Return the words without what no drawing can hold: control and unpaired characters.

    Line breaks and tabs become single spaces, since each text is one line.

    >>> clean(chr(7) + "heron " + chr(10) + " <3>")
    'heron <3>'
    """
    spaced = " ".join(words.split())
    return "".join(letter for letter in spaced if not _is_unwritable(letter))


def words_width(words: str, height: float, *, bold: bool = False) -> float:
    """Return an upper bound of the width [mm] of one line with capitals of that height [mm].

    >>> words_width("", 3.5)
    0.0
    """
    return sum(_letter_width(letter, bold) for letter in words) * height / CAPITAL


def words_rise(words: str, height: float) -> float:
    """Return how far the words reach above their base line [mm]; accented letters reach higher."""
    return (_RISE if _is_plain(words) else _ACCENT_RISE) * height / CAPITAL


def words_depth(words: str, height: float) -> float:
    """Return how far the words hang below their base line [mm]."""
    stands = _is_plain(words) and _HANGING.isdisjoint(words)
    return (_FLAT_DEPTH if stands else _HANGING_DEPTH) * height / CAPITAL


def shorten(words: str, room: float, height: float, *, bold: bool = False) -> str:
    """Return the words, or as many from both ends as fit the room [mm]; '' where none do.

    Both ends stay, because marks and names mostly differ at one of them.

    >>> shorten("heron", 100, 3.5), shorten("a very long name", 30, 3.5), shorten("heron", 2, 3.5)
    ('heron', 'a ve...me', '')
    """
    words, room = clean(words), room + _SLIP
    if words_width(words, height, bold=bold) <= room:
        return words
    for length in range(min(len(words), _MOST_LETTERS) - 1, 0, -1):
        short = f"{words[: (length + 1) // 2].rstrip()}...{_tail(words, length // 2)}"
        if words_width(short, height, bold=bold) <= room:
            return short
    return ""


def wrap(words: str, room: float, height: float) -> tuple[str, ...]:
    """Return the words broken into lines no wider than the room [mm]; a lone long word is cut.

    >>> wrap("flat liner measures", 40, 3.5)
    ('flat liner', 'measures')
    """
    lines: list[str] = []
    for word in clean(words).split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and words_width(longer, height) <= room:
            lines[-1] = longer
        else:
            lines.append(shorten(word, room, height))
    return tuple(line for line in lines if line)


def fold(words: str, room: float, height: float, *, bold: bool = False) -> tuple[str, ...]:
    """Return the words whole, in lines no wider than the room [mm]; () where they do not go in.

    Lines end at spaces and behind hyphens only.

    >>> fold("north side-light 12", 24, 3.5), fold("heron", 4, 3.5)
    (('north', 'side-', 'light 12'), ())
    """
    lines = [""]
    for part in re.split(r"(?<=[ -])", clean(words)):
        longer = lines[-1] + part
        if words_width(longer.rstrip(), height, bold=bold) <= room + _SLIP:
            lines[-1] = longer
        else:
            lines.append(part)
    lines = [line.rstrip() for line in lines if line]
    fits = all(words_width(line, height, bold=bold) <= room + _SLIP for line in lines)
    return tuple(lines) if fits else ()


def _tail(words: str, length: int) -> str:
    return words[len(words) - length :].lstrip()


def _letter_width(letter: str, bold: bool) -> float:
    base, *accents = tuple(unicodedata.normalize("NFD", letter))
    usual = _USUAL if base.isascii() else _FOREIGN
    return _WIDTHS.get(base, usual)[bold] + _ACCENT_WIDTH * len(accents)


def _is_plain(words: str) -> bool:
    return all(letter.isascii() or letter in _WIDTHS for letter in words)


def _is_unwritable(letter: str) -> bool:
    return unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Co", "Cn")
