"""The files of a template, and how they are told from others in a folder."""

import json

import pytest
from printtime import STAMP
from templates import long_dam_template, tile

from nesting.errors import InputError
from nesting.files.output import list_owned, write_folder
from nesting.templates.files import TEMPLATE, write_template_files


def make(svg=False):
    """Return the files of the long dam's template."""
    template = long_dam_template()
    setting = template, tile(template), "Foyer", "mm", STAMP
    return write_template_files(*setting, mirrored=False, svg=svg)


def test_a_template_is_a_pdf_and_its_list():
    """With SVG there is one more file per sheet, and the list names all of them."""
    assert sorted(make()) == ["template.json", "template.pdf"]
    files = make(svg=True)
    drawings = [f"template-1-{number}.svg" for number in (1, 2, 3, 4)]
    assert sorted(files) == sorted([*drawings, "template.json", "template.pdf"])
    assert json.loads(files["template.json"])["files"] == sorted(files)
    assert files["template.pdf"].startswith(b"%PDF-")


def test_a_former_template_is_replaced_and_other_files_stay(tmp_path):
    """Sheets of a former run do not lie about; a plan beside it is left alone."""
    (tmp_path / "layout-01.svg").write_text("a plan's", encoding="utf-8")
    write_folder(tmp_path, make(svg=True), TEMPLATE)
    assert len(list_owned(tmp_path, TEMPLATE)) == 6
    write_folder(tmp_path, make(), TEMPLATE)
    names = sorted(path.name for path in tmp_path.iterdir())
    assert names == ["layout-01.svg", "template.json", "template.pdf"]


@pytest.mark.parametrize("name", ["template.pdf", "template-1-1.svg", "template.json"])
def test_somebody_else_s_file_of_that_name_is_not_replaced(tmp_path, name):
    """The file is named and stays as it was."""
    (tmp_path / name).write_text("mine", encoding="utf-8")
    with pytest.raises(InputError, match=f"name of a template's that no template .* got {name}"):
        write_folder(tmp_path, make(), TEMPLATE)
    assert [path.read_text(encoding="utf-8") for path in tmp_path.iterdir()] == ["mine"]


def test_a_list_cannot_make_us_remove_other_files(tmp_path):
    """Names a template never has are not believed, wherever they lead."""
    files = ["template.pdf", "../mine.txt", "mine.txt", "template-1-1.svg/../../x", 7]
    document = {"format": "nesting-template", "files": files}
    (tmp_path / "template.json").write_text(json.dumps(document), encoding="utf-8")
    assert list_owned(tmp_path, TEMPLATE) == {"template.pdf"}
