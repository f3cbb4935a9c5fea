"""The output folder: all files of one run are written together, or none is.

A folder is taken over only as far as the file that lists a former run's says: other people's files
stay. A plan's is ``schedule.json``.
"""

import json
import os
import re
import secrets
import shutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from nesting.errors import InputError
from nesting.files.faces import FACE_PATTERN, list_face_files
from nesting.files.marks import DXF_MARK, MARK, is_foreign

SCHEDULE_FILE = "schedule.json"
OVERVIEW_FILE = "overview.svg"
SCHEDULE_FORMAT = "nesting-schedule"
"""What marks a schedule file as one of ours."""


def name_layout_file(number: int, ending: str = "svg") -> str:
    """Return the file name of a masking layout.

    >>> name_layout_file(3), name_layout_file(3, "dxf")
    ('layout-03.svg', 'layout-03.dxf')
    """
    return f"layout-{number:02d}.{ending}"


@dataclass(frozen=True, slots=True)
class Kind:
    """What one kind of run leaves in a folder.

    ``marker`` is the JSON file, of that ``format``, from which ``list_files`` tells the names a
    former run gave its files; only names like ``names`` are believed.
    """

    what: str
    marker: str
    format: str
    names: re.Pattern[str]
    list_files: Callable[[Any], Iterable[object]]


def _list_plan_files(document: Mapping[str, Any]) -> list[str]:
    numbers = [layout["layout"] for layout in document["layouts"]]
    drawings = [
        name_layout_file(number, ending)
        for number in numbers
        if type(number) is int
        for ending in ("svg", "dxf")
    ]
    return [SCHEDULE_FILE, OVERVIEW_FILE, *drawings, *list_face_files(document["layouts"])]


PLAN = Kind(
    "plan",
    SCHEDULE_FILE,
    SCHEDULE_FORMAT,
    re.compile(rf"schedule\.json|overview\.svg|layout-[0-9]{{2,}}\.(?:svg|dxf)|{FACE_PATTERN}"),
    _list_plan_files,
)
"""The files of a plan."""


def prove_writable(folder: Path, kind: Kind = PLAN) -> None:
    """Try the output folder before long work begins, and leave its files as they are.

    Raises
    ------
    InputError
        Where the folder cannot be written to, or where it holds a file with the name of one of the
        kind that no run of the kind wrote.
    """
    with _reporting(folder):
        _refuse_foreign(folder, kind)
        _make_scratch(_find_base(folder)).rmdir()


def write_folder(folder: Path, files: Mapping[str, str | bytes], kind: Kind = PLAN) -> None:
    """Write the files of one run into the folder, together or not at all.

    A missing folder is made with its parents. The files of a run of the kind that stood there
    before, as told by its marker, are replaced or removed; anything else is left alone.

    Parameters
    ----------
    folder
        Where to write.
    files
        Each file by its name, text written as UTF-8; the kind's marker is put in place last.
    kind
        Of the run: a plan unless given.

    Raises
    ------
    InputError
        Where that cannot be done; the folder is then as it was before.
    """
    with _reporting(folder):
        _refuse_foreign(folder, kind)
        if folder.exists():
            _replace_files(folder, files, kind)
        else:
            _make_folder(folder, files)


def write_together(files: Mapping[Path, str | bytes]) -> None:
    """Write all files, text as UTF-8, or none; InputError where a file cannot be written."""
    scratch: dict[Path, Path] = {}
    try:
        for path, content in files.items():
            if path.is_dir():
                raise IsADirectoryError(None, "is a directory")
            fresh = path.parent / f".nesting-{secrets.token_hex(4)}"
            scratch[path] = fresh
            fresh.write_bytes(_as_bytes(content))
        for path, fresh in scratch.items():
            os.replace(fresh, path)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        remedy = "mend that or name another file"
        raise InputError(str(path), "the file must be writable", reason, remedy) from error
    finally:
        for fresh in scratch.values():
            fresh.unlink(missing_ok=True)


def prove_folder(folder: Path) -> None:
    """Try a folder before long work begins: InputError where it cannot be written to."""
    with _reporting(folder):
        _make_scratch(_find_base(folder)).rmdir()


def write_into(folder: Path, files: Mapping[str, str | bytes]) -> None:
    """Write all files into the folder, or none; a missing folder is made with its parents.

    Files of those names are replaced. Raises InputError where that cannot be done.
    """
    made = [path for path in (folder, *folder.parents) if not path.exists()]
    try:
        with _reporting(folder):
            folder.mkdir(parents=True, exist_ok=True)
        write_together({folder / name: content for name, content in files.items()})
    except BaseException:
        for path in made:
            _remove_if_empty(path)
        raise


def list_owned(folder: Path, kind: Kind = PLAN) -> set[str]:
    """Return the names a former run gave its files there; none where its marker is missing.

    A layout as DXF and a face count only with their mark: one that was drawn on since, or put there
    under such a name, is somebody's work.
    """
    try:
        former = json.loads((folder / kind.marker).read_text(encoding="utf-8"))
        names = {name for name in kind.list_files(former) if isinstance(name, str)}
        ours = former["format"] == kind.format
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return set()
    if not ours:
        return set()
    return {name for name in names if kind.names.fullmatch(name) and _is_ours(folder / name)}


def _is_ours(path: Path) -> bool:
    """Whether a file that must bear its mark does; the name alone tells of the others."""
    if re.fullmatch(FACE_PATTERN, path.name):
        return path.is_file() and not is_foreign(path, MARK)
    if path.suffix != ".dxf":
        return True
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


def _refuse_foreign(folder: Path, kind: Kind) -> None:
    """Refuse a folder where a run would replace, or be mistaken for, somebody else's file."""
    if not folder.is_dir():
        return
    owned = list_owned(folder, kind)
    for path in sorted(folder.iterdir()):
        if kind.names.fullmatch(path.name) and (path.name not in owned or path.is_dir()):
            raise InputError(
                f"Output folder {str(folder)!r}",
                f"must hold no file with the name of a {kind.what}'s that no {kind.what} there "
                "accounts for",
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


def _as_bytes(content: str | bytes) -> bytes:
    return content.encode("utf-8") if isinstance(content, str) else content


def _write_all(folder: Path, files: Mapping[str, str | bytes]) -> None:
    for name, content in files.items():
        with (folder / name).open("wb") as stream:
            stream.write(_as_bytes(content))
            stream.flush()
            os.fsync(stream.fileno())  # a full disk must tell now, before anything is replaced


def _make_folder(folder: Path, files: Mapping[str, str | bytes]) -> None:
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


def _replace_files(folder: Path, files: Mapping[str, str | bytes], kind: Kind) -> None:
    scratch = _make_scratch(folder)
    fresh, former = scratch / "fresh", scratch / "former"
    try:
        fresh.mkdir()
        former.mkdir()
        _write_all(fresh, files)
        _swap_files(folder, fresh, former, list_owned(folder, kind) | set(files), kind)
        shutil.rmtree(former, ignore_errors=True)
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
        _remove_if_empty(former)  # not empty only where a file could not be moved back
        _remove_if_empty(scratch)


def _swap_files(folder: Path, fresh: Path, former: Path, names: set[str], kind: Kind) -> None:
    """Move the named files out and the fresh ones in; on any trouble move all of them back.

    The marker goes out first and comes in last, so that a folder with a marker is whole.
    """
    order = sorted(names, key=lambda name: (name == kind.marker, name))
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
