"""The output folder: everything of a plan is written, or nothing is."""

import errno
import json
import os
import re
import shutil
import subprocess

import pytest

from nesting.days.export import CALENDAR, CALENDAR_FILES
from nesting.errors import InputError
from nesting.files import output
from nesting.files.output import list_owned, name_layout_file, prove_writable, write_folder


def make_plan(count, text="new"):
    """Return the files of a plan with so many layouts."""
    layouts = [{"layout": number} for number in range(1, count + 1)]
    schedule = json.dumps({"format": "nesting-schedule", "layouts": layouts, "text": text})
    drawings = {name_layout_file(number + 1): text for number in range(count)}
    return {"schedule.json": schedule, **drawings, "overview.svg": text}


def read_all(folder):
    """Return every file below the folder by its relative name, hidden ones too."""
    return {
        str(path.relative_to(folder)): path.read_text(encoding="utf-8")
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_a_missing_folder_is_made_with_its_parents(tmp_path):
    """The folder holds exactly the files of the plan, and nothing is left beside it."""
    folder = tmp_path / "a" / "b"
    write_folder(folder, make_plan(2))
    assert read_all(tmp_path) == {f"a/b/{name}": text for name, text in make_plan(2).items()}
    assert [path.name for path in tmp_path.iterdir()] == ["a"]


def test_files_are_written_as_utf8_with_plain_line_ends(tmp_path):
    """The bytes are those of the text, on every system."""
    write_folder(tmp_path / "out", {"overview.svg": "\u0142\n"})
    assert (tmp_path / "out" / "overview.svg").read_bytes() == b"\xc5\x82\n"


def test_new_files_are_open_to_whom_the_user_lets_in(tmp_path):
    """Folder and files get the permissions that the user's own files get."""
    write_folder(tmp_path / "out", make_plan(1))
    (tmp_path / "own").mkdir()
    (tmp_path / "own.txt").write_text("")
    assert (tmp_path / "out").stat().st_mode == (tmp_path / "own").stat().st_mode
    written = tmp_path / "out" / "schedule.json"
    assert written.stat().st_mode == (tmp_path / "own.txt").stat().st_mode


def test_a_former_plan_is_replaced_and_its_spare_drawings_go(tmp_path):
    """A plan of three layouts leaves no third drawing behind when the next has two."""
    write_folder(tmp_path, make_plan(3, "old"))
    write_folder(tmp_path, make_plan(2))
    assert read_all(tmp_path) == make_plan(2)


def test_other_files_in_the_folder_stay(tmp_path):
    """Notes, photographs and folders of other people are not touched."""
    (tmp_path / "notes.txt").write_text("mine")
    (tmp_path / "photos").mkdir()
    write_folder(tmp_path, make_plan(1, "old"))
    write_folder(tmp_path, make_plan(1))
    assert (tmp_path / "photos").is_dir()
    assert read_all(tmp_path) == {**make_plan(1), "notes.txt": "mine"}


@pytest.mark.parametrize("name", ["schedule.json", "overview.svg", "layout-07.svg", "face-A1.svg"])
def test_a_file_of_ours_by_name_only_is_refused(tmp_path, name):
    """A file that no plan accounts for is not replaced, nor left to be taken for ours."""
    (tmp_path / name).write_text("mine")
    for attempt in (lambda: prove_writable(tmp_path), lambda: write_folder(tmp_path, make_plan(1))):
        with pytest.raises(InputError, match=f"no plan there accounts for, got {name}; move it"):
            attempt()
    assert read_all(tmp_path) == {name: "mine"}


def test_a_folder_of_ours_by_name_only_is_refused(tmp_path):
    """A folder where a drawing should go is refused rather than removed."""
    write_folder(tmp_path, make_plan(1, "old"))
    (tmp_path / "layout-01.svg").unlink()
    (tmp_path / "layout-01.svg").mkdir()
    with pytest.raises(InputError, match=r"got layout-01\.svg"):
        write_folder(tmp_path, make_plan(1))
    assert (tmp_path / "layout-01.svg").is_dir()


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{}", '{"format": "other", "layouts": []}', '{"layouts": 3}', "[" * 100_000, "\x00"],
)
def test_a_schedule_that_is_not_ours_owns_nothing(tmp_path, text):
    """Whatever else a schedule.json holds, no file is taken for ours on its word."""
    (tmp_path / "schedule.json").write_text(text)
    assert list_owned(tmp_path) == set()


def test_a_schedule_of_ours_owns_its_drawings(tmp_path):
    """The schedule, the overview and a drawing per layout belong to the plan."""
    write_folder(tmp_path, make_plan(2))
    assert list_owned(tmp_path) == set(make_plan(2))


def test_faces_of_ours_go_with_their_plan_and_others_are_refused(tmp_path):
    """A face its schedule knows of is replaced if it bears our mark; any other one is refused."""
    schedule = {"format": "nesting-schedule", "layouts": [{"layout": 1, "panels": [{"mark": "A"}]}]}
    face = "<svg><!-- by nesting -->"
    plan = make_plan(1) | {"schedule.json": json.dumps(schedule)}
    write_folder(tmp_path, plan | {"face-A.svg": face})
    assert list_owned(tmp_path) == set(plan) | {"face-A.svg"}
    write_folder(tmp_path, plan)
    assert read_all(tmp_path) == plan
    for name, text in (("face-A.svg", "mine"), ("face-B.svg", face)):
        (tmp_path / name).write_text(text)
        with pytest.raises(InputError, match=f"no plan there accounts for, got {name}"):
            prove_writable(tmp_path)
        (tmp_path / name).unlink()


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"format": "nesting-schedule"}'])
def test_a_calendar_of_ours_owns_its_four_files_and_no_plan(tmp_path, text):
    """A calendar.json that is not ours owns nothing; ours owns the calendar, the plan stays."""
    write_folder(tmp_path, make_plan(1))
    (tmp_path / "calendar.json").write_text(text)
    assert list_owned(tmp_path, CALENDAR) == set()
    with pytest.raises(InputError, match=r"a calendar's that no calendar .*calendar\.json"):
        write_folder(tmp_path, dict.fromkeys(CALENDAR_FILES, "new"), CALENDAR)
    (tmp_path / "calendar.json").write_text('{"format": "nesting-calendar"}')
    write_folder(tmp_path, dict.fromkeys(CALENDAR_FILES, "new"), CALENDAR)
    assert {(tmp_path / name).read_text() for name in CALENDAR_FILES} == {"new"}
    assert list_owned(tmp_path) == set(make_plan(1))


def test_a_path_that_is_a_file_is_refused(tmp_path):
    """A file cannot be the output folder, nor hold it."""
    (tmp_path / "file").write_text("mine")
    for folder in (tmp_path / "file", tmp_path / "file" / "out"):
        with pytest.raises(InputError, match="must be a folder that can be written to, got not a"):
            prove_writable(folder)
        with pytest.raises(InputError, match="not a directory"):
            write_folder(folder, make_plan(1))
    assert read_all(tmp_path) == {"file": "mine"}


def test_a_folder_that_cannot_be_written_to_is_refused(tmp_path, monkeypatch):
    """Missing permission is told in one line before the search begins."""

    def refuse(path, *_args, **_options):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))

    monkeypatch.setattr("pathlib.Path.mkdir", refuse)
    with pytest.raises(InputError, match=r"got permission denied; .* give another folder with -o"):
        prove_writable(tmp_path / "out")


def test_trying_a_folder_leaves_nothing_behind(tmp_path):
    """The trial neither makes the folder nor leaves a file in it."""
    prove_writable(tmp_path / "a" / "b")
    prove_writable(tmp_path)
    assert list(tmp_path.iterdir()) == []


def fill_disk_after(monkeypatch, count):
    """Let so many files be written; the next one finds the disk full."""
    real, left = os.fsync, [count]

    def fsync(number):
        left[0] -= 1
        if left[0] < 0:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        real(number)

    monkeypatch.setattr(output.os, "fsync", fsync)


@pytest.mark.parametrize("written", range(4))
def test_a_disk_that_fills_leaves_no_new_folder(tmp_path, monkeypatch, written):
    """With the disk full nothing is left of the folder or of the parents made for it."""
    fill_disk_after(monkeypatch, written)
    with pytest.raises(InputError, match="got no space left on device"):
        write_folder(tmp_path / "a" / "b", make_plan(2))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("written", range(4))
def test_a_disk_that_fills_leaves_the_former_plan(tmp_path, monkeypatch, written):
    """With the disk full the folder is as it was, byte for byte."""
    write_folder(tmp_path, make_plan(3, "old"))
    fill_disk_after(monkeypatch, written)
    with pytest.raises(InputError, match="no space left on device"):
        write_folder(tmp_path, make_plan(2))
    assert read_all(tmp_path) == make_plan(3, "old")


@pytest.mark.parametrize("kind", [OSError, KeyboardInterrupt])
@pytest.mark.parametrize("moved", range(9))
def test_a_stop_between_two_files_puts_all_of_them_back(tmp_path, monkeypatch, moved, kind):
    """However many files were moved when it stopped, the folder is as it was."""
    write_folder(tmp_path, make_plan(3, "old"))
    real, left = os.replace, [moved]

    def replace(source, target):
        left[0] -= 1
        if left[0] == -1:
            raise kind(errno.EIO, "stopped")
        real(source, target)

    monkeypatch.setattr(output.os, "replace", replace)
    with pytest.raises((InputError, KeyboardInterrupt)):
        write_folder(tmp_path, make_plan(2))
    assert read_all(tmp_path) == make_plan(3, "old")


def test_files_that_cannot_be_moved_back_are_kept(tmp_path, monkeypatch):
    """Where even the way back fails, the former files stay in the hidden folder."""
    write_folder(tmp_path, make_plan(1, "old"))
    real, left = os.replace, [2]

    def replace(source, target):
        left[0] -= 1
        if left[0] < 0:
            raise OSError(errno.EIO, "stopped")
        real(source, target)

    monkeypatch.setattr(output.os, "replace", replace)
    with pytest.raises(InputError, match="stopped"):
        write_folder(tmp_path, make_plan(1))
    kept = {re.sub(r".*/", "", name): text for name, text in read_all(tmp_path).items()}
    assert kept == make_plan(1, "old")


def test_a_disk_that_is_really_full_is_told(tmp_path):
    """On a file system of 64 kB a plan of 1 MB is refused and the former plan stays."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = shutil.which("mount")
    command = [str(mount), "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)]
    if mount is None or subprocess.run(command, capture_output=True, check=False).returncode:
        pytest.skip("a small file system cannot be mounted here")
    try:
        write_folder(disk / "out", make_plan(1, "old"))
        with pytest.raises(InputError, match="no space left on device"):
            write_folder(disk / "out", make_plan(1, "x" * 1_000_000))
        assert read_all(disk) == {f"out/{name}": t for name, t in make_plan(1, "old").items()}
    finally:
        subprocess.run([shutil.which("umount") or "umount", str(disk)], check=True)


def test_a_link_to_a_folder_is_followed(tmp_path):
    """Files go to the folder the link names, even across file systems."""
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    write_folder(tmp_path / "link", make_plan(1))
    assert read_all(tmp_path / "real") == make_plan(1)
    assert (tmp_path / "link").is_symlink()
