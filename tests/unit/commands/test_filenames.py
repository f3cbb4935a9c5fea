"""File names on the command line: their endings, and what is never written over."""

import click
import pytest

from nesting.commands.filenames import need_different_files, need_file_name, refuse_foreign_file
from nesting.errors import InputError


def test_a_known_ending_is_taken_in_any_case(tmp_path):
    """The path comes back as it was given."""
    assert need_file_name("-o", str(tmp_path / "a.SVG"), ".svg") == tmp_path / "a.SVG"


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("", "-o: must name a file; give its path after -o."),
        ("a", "-o: must name a file that ends with .svg or .dxf, got a; write a.svg, say."),
        ("b/a.png", "ends with .svg or .dxf, got b/a.png; write a.svg, say."),
    ],
)
def test_another_ending_is_refused(name, told):
    """The endings that are known, and the name put right."""
    with pytest.raises(InputError, match="must name a file") as caught:
        need_file_name("-o", name, ".svg", ".dxf")
    assert str(caught.value).endswith(told)


def test_two_ways_to_one_file_are_refused(tmp_path):
    """A path through its own folder is the same file."""
    with pytest.raises(click.UsageError, match=r"A and B must be different files\."):
        need_different_files("A and B", (tmp_path / "a", tmp_path / "." / "a"))
    need_different_files("A and B", (tmp_path / "a", tmp_path / "b"))


@pytest.mark.parametrize("text", ["", "# by nesting x\nmore"])
def test_a_file_with_the_mark_an_empty_one_and_none_may_be_replaced(tmp_path, text):
    """Nothing of anybody's is lost there."""
    path = tmp_path / "a.toml"
    refuse_foreign_file("-o", path, "by nesting x", "nesting x")
    path.write_text(text)
    refuse_foreign_file("-o", path, "by nesting x", "nesting x")
    assert path.read_text() == text


def test_a_file_without_the_mark_stays(tmp_path):
    """The mark counts in the first line only."""
    path = tmp_path / "a.toml"
    path.write_text("mine\n# by nesting x\n")
    with pytest.raises(InputError, match="must not replace a file that nesting x did not write"):
        refuse_foreign_file("-o", path, "by nesting x", "nesting x")
