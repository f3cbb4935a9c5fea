"""Opening what the user named: `nesting.files.text`. Whole files are in test_bad_input.py."""

import pytest

from nesting.errors import InputError
from nesting.files.text import path_label, read_bytes, read_text_file


def test_text_is_read_without_its_byte_order_mark(tmp_path):
    """UTF-8 with or without a mark is the same text."""
    path = tmp_path / "a.toml"
    for mark in (b"", b"\xef\xbb\xbf"):
        path.write_bytes(mark + "Wände\r\n".encode())
        assert read_text_file(path) == "Wände\r\n"


def test_a_file_under_a_file_cannot_be_read(tmp_path):
    """The system's reason is passed on with the path."""
    (tmp_path / "a").write_text("x")
    with pytest.raises(InputError, match=r"cannot be read: not a directory|no such file") as caught:
        read_text_file(tmp_path / "a" / "b")
    assert caught.value.where == str(tmp_path / "a" / "b")


def test_odd_paths_are_told_on_one_line():
    """A path with a line break or of endless length is quoted and shortened."""
    assert path_label("a/b.toml") == "a/b.toml"
    assert path_label("a\nb") == "'a\\nb'"
    assert len(path_label("x" * 10_000)) == 200


def test_a_folder_with_a_plan_names_the_file_that_is_meant(tmp_path):
    """Where a folder holds schedule.json, that is what its reader was to be given."""
    (tmp_path / "schedule.json").touch()
    with pytest.raises(InputError, match=r"this is a folder; name .*schedule\.json\.$"):
        read_text_file(tmp_path)


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "the file is empty"),
        (b" \n\t", "the file is empty"),
        (b"x" * 1_000_001, "at most 1 MB"),
    ],
)
def test_what_is_no_file_worth_reading(tmp_path, content, told):
    """Whatever its kind, one line says so."""
    (tmp_path / "a").write_bytes(content)
    with pytest.raises(InputError, match=told):
        read_bytes(tmp_path / "a", 1_000_000)
