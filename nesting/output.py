"""The output folder: all files of a plan are written together, or none is.

A folder is taken over only as far as its own ``schedule.json`` says: other people's files stay.
"""

from __future__ import annotations

import json
import os
import re
import secrets
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from nesting.errors import InputError

SCHEDULE_FILE = "schedule.json"
OVERVIEW_FILE = "overview.svg"
SCHEDULE_FORMAT = "nesting-schedule"
"""What marks a schedule file as one of ours."""

DXF_MARK = "999\nWritten by nesting; a plan replaces this file.\n"
"""What a layout as DXF begins with: a comment, gone once other hands have saved the file."""

_PLAN_FILE = re.compile(r"schedule\.json|overview\.svg|layout-[0-9]{2,}\.(?:svg|dxf)")


def name_layout_file(number: int, ending: str = "svg") -> str:
    """Return the file name of a masking layout.

    >>> name_layout_file(3), name_layout_file(3, "dxf")
    ('layout-03.svg', 'layout-03.dxf')
    """
    return f"layout-{number:02d}.{ending}"


def prove_writable(folder: Path) -> None:
    """Try the output folder before long work begins, and leave its files as they are.

    Raises
    ------
    InputError
        Where the folder cannot be written to, or where it holds a file with the name of a plan's
        that no plan wrote.
    """
    with _reporting(folder):
        _refuse_foreign(folder)
        _make_scratch(_find_base(folder)).rmdir()


def write_folder(folder: Path, files: Mapping[str, str]) -> None:
    """Write the files of one plan into the folder, together or not at all.

    A missing folder is made with its parents. The files of a plan that stood there before, as told
    by its ``schedule.json``, are replaced or removed; anything else is left alone.

    Parameters
    ----------
    folder
        Where to write.
    files
        The text of each file by its name, written as UTF-8; ``schedule.json`` is put in place last.

    Raises
    ------
    InputError
        Where that cannot be done; the folder is then as it was before.
    """
    with _reporting(folder):
        _refuse_foreign(folder)
        if folder.exists():
            _replace_files(folder, files)
        else:
            _make_folder(folder, files)


def write_together(files: Mapping[Path, str]) -> None:
    """Write all texts as UTF-8, or none; InputError where a file cannot be written."""
    scratch: dict[Path, Path] = {}
    try:
        for path, text in files.items():
            if path.is_dir():
                raise IsADirectoryError(None, "is a directory")
            fresh = path.parent / f".nesting-{secrets.token_hex(4)}"
            scratch[path] = fresh
            fresh.write_bytes(text.encode("utf-8"))
        for path, fresh in scratch.items():
            os.replace(fresh, path)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        remedy = "mend that or name another file"
        raise InputError(str(path), "the file must be writable", reason, remedy) from error
    finally:
        for fresh in scratch.values():
            fresh.unlink(missing_ok=True)


def write_into(folder: Path, files: Mapping[str, str]) -> None:
    """Write all texts into the folder, or none; a missing folder is made with its parents.

    Files of those names are replaced. Raises InputError where that cannot be done.
    """
    made = [path for path in (folder, *folder.parents) if not path.exists()]
    try:
        with _reporting(folder):
            folder.mkdir(parents=True, exist_ok=True)
        write_together({folder / name: text for name, text in files.items()})
    except BaseException:
        for path in made:
            _remove_if_empty(path)
        raise


def list_owned(folder: Path) -> set[str]:
    """Return the names a former plan gave its files there; none where its schedule is missing.

    A layout as DXF counts only with its mark: one that was drawn on since is somebody's work.
    """
    try:
        former = json.loads((folder / SCHEDULE_FILE).read_text(encoding="utf-8"))
        numbers = [layout["layout"] for layout in former["layouts"]]
        ours = former["format"] == SCHEDULE_FORMAT
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return set()
    drawings = {name_layout_file(number) for number in numbers if type(number) is int}
    layouts = {name_layout_file(number, "dxf") for number in numbers if type(number) is int}
    drawings |= {name for name in layouts if _has_mark(folder / name)}
    return {SCHEDULE_FILE, OVERVIEW_FILE, *drawings} if ours else set()


def _has_mark(path: Path) -> bool:
    try:
        with path.open("rb") as stream:
            return stream.read(len(DXF_MARK)) == DXF_MARK.encode("ascii")
    except OSError:
        return False


@contextmanager
def _reporting(folder: Path) -> Iterator[None]:
    """Turn trouble with the file system into one line."""
    try:
        yield
    except OSError as error:
        raise InputError(
            f"Output folder {str(folder)!r}",
            "must be a folder that can be written to",
            got=(error.strerror or str(error)).lower(),
            remedy="mend that or give another folder with -o",
        ) from error


def _refuse_foreign(folder: Path) -> None:
    """Refuse a folder where a plan would replace, or be mistaken for, somebody else's file."""
    if not folder.is_dir():
        return
    owned = list_owned(folder)
    for path in sorted(folder.iterdir()):
        if _PLAN_FILE.fullmatch(path.name) and (path.name not in owned or path.is_dir()):
            raise InputError(
                f"Output folder {str(folder)!r}",
                "must hold no file with the name of a plan's that no plan there accounts for",
                got=path.name,
                remedy="move it away or give another folder with -o",
            )


def _find_base(folder: Path) -> Path:
    """Return the folder, or the nearest of its parents that exists."""
    return next(path for path in (folder, *folder.parents) if path.exists())


def _make_scratch(base: Path) -> Path:
    """Make an empty hidden folder, in the same file system as what will be moved out of it."""
    scratch = base / f".nesting-{secrets.token_hex(4)}"
    scratch.mkdir()
    return scratch


def _write_all(folder: Path, files: Mapping[str, str]) -> None:
    for name, text in files.items():
        with (folder / name).open("wb") as stream:
            stream.write(text.encode("utf-8"))
            stream.flush()
            os.fsync(stream.fileno())  # a full disk must tell now, before anything is replaced


def _make_folder(folder: Path, files: Mapping[str, str]) -> None:
    made = [parent for parent in folder.parents if not parent.exists()]
    scratch = _make_scratch(_find_base(folder))
    try:
        _write_all(scratch, files)
        folder.parent.mkdir(parents=True, exist_ok=True)
        scratch.rename(folder)
    except BaseException:
        shutil.rmtree(scratch, ignore_errors=True)
        for parent in made:
            _remove_if_empty(parent)
        raise


def _remove_if_empty(folder: Path) -> None:
    try:
        folder.rmdir()
    except OSError:
        return


def _replace_files(folder: Path, files: Mapping[str, str]) -> None:
    scratch = _make_scratch(folder)
    fresh, former = scratch / "fresh", scratch / "former"
    try:
        fresh.mkdir()
        former.mkdir()
        _write_all(fresh, files)
        _swap_files(folder, fresh, former, list_owned(folder) | set(files))
        shutil.rmtree(former, ignore_errors=True)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
        _remove_if_empty(former)  # not empty only where a file could not be moved back
        _remove_if_empty(scratch)


def _swap_files(folder: Path, fresh: Path, former: Path, names: set[str]) -> None:
    """Move the named files out and the fresh ones in; on any trouble move all of them back.

    The schedule goes out first and comes in last, so that a folder with a schedule is whole.
    """
    order = sorted(names, key=lambda name: (name == SCHEDULE_FILE, name))
    moves = [(folder / name, former / name) for name in reversed(order)]
    moves += [(fresh / name, folder / name) for name in order]
    begun: list[tuple[Path, Path]] = []
    try:
        for source, target in moves:
            begun.append((source, target))
            if os.path.lexists(source):
                os.replace(source, target)
    except BaseException:
        for source, target in reversed(begun):
            if os.path.lexists(target) and not os.path.lexists(source):
                os.replace(target, source)
        raise
