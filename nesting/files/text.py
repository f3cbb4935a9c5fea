"""Opens a file the user named and says what is wrong before its first word is read."""

from pathlib import Path

from nesting.errors import InputError, shown

MAX_BYTES = 20_000_000
"""Largest file that is read."""

_PLAN_FILE = "schedule.json"  # what a folder of ours is mostly meant for
_LONGEST = 200  # characters of a path in a message


def read_text_file(path: Path) -> str:
    """Return the text of a UTF-8 file, with or without a byte order mark.

    Raises
    ------
    InputError
        With the path as ``where``: no such file, a folder, not readable, larger than 20 MB, not
        UTF-8, or empty.
    """
    content, where = read_bytes(path, MAX_BYTES), path_label(path)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise InputError(
            f"{where}:{line}",
            "the file must be UTF-8 text",
            got=f"byte 0x{content[error.start]:02x} at position {error.start}",
            remedy="save it with the encoding UTF-8",
        ) from error
    if not text.strip():
        raise InputError(where, "the file is empty")
    return text


def path_label(path: Path | str) -> str:
    """Return a path as messages give it: on one line, however odd."""
    text = str(path)
    return text if text.isprintable() and len(text) <= _LONGEST else shown(text, _LONGEST)


def read_bytes(path: Path, most: int) -> bytes:
    """Return the bytes of a file of at most ``most`` bytes.

    Raises
    ------
    InputError
        With the path as ``where``: no such file, a folder, not readable, too large, empty.
    """
    where = path_label(path)
    try:
        if path.is_dir():
            inside = path / _PLAN_FILE
            remedy = f"name {path_label(inside)}" if inside.is_file() else "name the file itself"
            raise InputError(where, "this is a folder", remedy=remedy)
        if path.exists() and not path.is_file():
            raise InputError(where, "this is not a file")
        with path.open("rb") as stream:
            content = stream.read(most + 1)
    except InputError:
        raise
    except FileNotFoundError as error:
        raise InputError(where, "there is no such file") from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise InputError(where, f"the file cannot be read: {reason.lower()}") from error
    if len(content) > most:
        raise InputError(where, f"a file has at most {most // 1_000_000} MB")
    if not content or content.isspace():
        raise InputError(where, "the file is empty")
    return content
