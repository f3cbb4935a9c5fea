"""File names on the command line: their endings, and what is never written over."""

import click
import pytest
from jobtext import JOB, write_job
from wallfiles import WALL

from nesting.amounts.export import CSV_MARKS
from nesting.cli import run
from nesting.commands.filenames import (
    need_different_files,
    need_file_name,
    prove_folder,
    refuse_foreign_file,
)
from nesting.errors import InputError
from nesting.files.marks import MARK, PDF_MARK

MARKS = {"svg": MARK, "html": MARK, "pdf": PDF_MARK, "csv": CSV_MARKS["panels.csv"]}


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
        need_different_files("A and B", tmp_path / "a", tmp_path / "." / "a")
    need_different_files("A and B", tmp_path / "a", tmp_path / "b", None)


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


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.svg", "<?xml version='1.0'?><svg/>"),
        ("a.csv", "mark,shows\n"),
        ("a.html", "<!DOCTYPE html>\n<!-- by nesting -->"),
        ("a.pdf", "%PDF-1.4\n/Creator (other)"),
    ],
)
def test_a_folder_with_a_file_of_other_hands_is_refused(tmp_path, name, text):
    """Before any work; the file stays, and marks are looked for where each kind has them."""
    (tmp_path / name).write_text(text)
    with pytest.raises(
        InputError, match=rf"that nesting did not write, got .*{name}; name another"
    ):
        prove_folder(str(tmp_path), {name: MARKS[name[2:]]})
    assert (tmp_path / name).read_text() == text


@pytest.mark.parametrize("ending", ["svg", "csv", "html", "pdf"])
def test_a_folder_with_files_of_ours_is_taken(tmp_path, ending):
    """What bears the mark may be replaced, in a PDF wherever it stands."""
    before = "%PDF-1.4\n" if ending == "pdf" else ""
    (tmp_path / f"a.{ending}").write_text(f"{before}<< {MARKS[ending]}\n")
    assert prove_folder(str(tmp_path), {f"a.{ending}": MARKS[ending]}) == tmp_path


@pytest.mark.parametrize(
    ("words", "written", "theirs"),
    [
        ("fit reeds.toml 800x650 -o out", "out/reeds-01.svg", "<svg/>"),
        ("range reeds.toml -o out/sizes.svg", "out/sizes.svg", "<svg/>"),
        ("liner reeds.toml --svg out/picture.svg", "out/picture.svg", "<svg/>"),
        ("wall wall.toml --svg out/plan.svg", "out/plan.svg", "<svg/>"),
        ("quantities reeds.toml -o out", "out/days.csv", "mine\n"),
        ("packet reeds.toml -o out", "out/packet.html", "<!DOCTYPE html>\n"),
        ("packet reeds.toml -o out", "out/packet.pdf", "%PDF-1.4\n"),
    ],
)
def test_every_command_replaces_what_it_wrote_and_nothing_else(
    tmp_path, monkeypatch, capsys, words, written, theirs
):
    """A second run replaces the file; one by other hands ends the run with 2 and stays."""
    monkeypatch.chdir(tmp_path)
    write_job(tmp_path, JOB, "reeds.toml")
    write_job(tmp_path, WALL, "wall.toml")
    (tmp_path / "out").mkdir()
    assert (run(words.split()), run(words.split())) == (0, 0)
    (tmp_path / written).write_text(theirs)
    capsys.readouterr()
    assert run(words.split()) == 2
    assert f"must not replace a file that nesting did not write, got {written}" in (
        capsys.readouterr().err
    )
    assert (tmp_path / written).read_text() == theirs
