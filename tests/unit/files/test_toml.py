"""A TOML file read whole."""

import pytest

from nesting.errors import InputErrors
from nesting.files.readers import read_text
from nesting.files.toml import read_tables


def read_titles(table):
    """Return the two titles of a file, None where one is wrong."""
    titles = table.take("title", read_text), table.take("subtitle", read_text)
    table.close()
    return None if None in titles else titles


def test_a_file_gives_what_its_reader_makes_of_it(tmp_path):
    """The reader sees the top table."""
    path = tmp_path / "a.toml"
    path.write_text('title = "reeds"\nsubtitle = "herons"\n')
    assert read_tables(path, read_titles) == ("reeds", "herons")


def test_every_mistake_is_told_at_once_with_its_line(tmp_path):
    """A missing key and a strange one."""
    path = tmp_path / "a.toml"
    path.write_text('title = "reeds"\nzz = 1\n')
    with pytest.raises(InputErrors, match=r"a\.toml:2: zz: unknown key") as raised:
        read_tables(path, read_titles)
    assert "a.toml: subtitle: this key is needed" in str(raised.value)


def test_a_file_that_is_not_there_or_no_toml_is_one_mistake(tmp_path):
    """In one line each."""
    with pytest.raises(InputErrors, match="there is no such file"):
        read_tables(tmp_path / "none.toml", read_titles)
    (tmp_path / "b.toml").write_text("title =")
    with pytest.raises(InputErrors, match=r"b\.toml: the file is not TOML"):
        read_tables(tmp_path / "b.toml", read_titles)
