"""The pages hang together: every link leads to a file and a heading, every command is told of."""

import re
from pathlib import Path

import pytest

from nesting.cli import nesting

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").glob("*.md"))]
LINK = re.compile(r"\]\(([^)\s#]*)(?:#([^)\s]+))?\)")


def read_prose(path):
    """Return the page without what stands in fences, where nothing is a link."""
    text = path.read_text(encoding="utf-8")
    return re.sub(r"^```.*?^```", "", text, flags=re.MULTILINE | re.DOTALL)


def list_anchors(path):
    """Return what the page's headings are linked by: lower case, blanks as dashes, no signs."""
    headings = re.findall(r"^#+ (.*)$", read_prose(path), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-") for heading in headings}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_links_lead_to_a_file_and_a_heading(page):
    """What a page links to is in the project, and so is the heading where one is named."""
    broken = []
    for name, anchor in LINK.findall(read_prose(page)):
        if name.startswith(("http:", "https:")):
            continue
        target = page.parent / name if name else page
        if not target.exists() or (anchor and anchor not in list_anchors(target)):
            broken.append(f"{name}#{anchor}")
    assert broken == []


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_modules_named_are_there(page):
    """Dotted paths in prose, as `maps.ground`, lead to a module of the package."""
    packages = {path.parent.name for path in (ROOT / "nesting").glob("*/__init__.py")}
    named = re.findall(r"`(\w+)\.(\w+)`", read_prose(page))
    found = [name for name in named if name[0] in packages]
    kinds = ("toml", "svg", "dxf", "json", "csv", "ics", "pdf", "html", "css", "txt")
    paths = {"/".join(name) for name in found if name[1] not in kinds}
    assert [path for path in sorted(paths) if not (ROOT / "nesting" / f"{path}.py").exists()] == []


def test_the_readme_lists_every_command():
    """The table at the top names all commands and no other."""
    rows = re.findall(
        r"^\| `(\w+)` \| .* \| \[", PAGES[0].read_text(encoding="utf-8"), re.MULTILINE
    )
    assert set(rows) == set(nesting.commands)


def test_assumptions_are_numbered_once():
    """The numbers run on through the page, so that each names one assumption."""
    text = (ROOT / "docs" / "assumptions.md").read_text(encoding="utf-8")
    numbers = [int(number) for number in re.findall(r"^(\d+)\. ", text, re.MULTILINE)]
    assert numbers == list(range(1, len(numbers) + 1))
