"""One word per thing: the glossary's words are used, and the words it bars are not."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
GLOSSARY = ROOT / "docs" / "glossary.md"
VALUE_MODULES = ("liner", "bed", "panels", "job", "casts")
TEXTS = [
    *sorted((ROOT / "nesting").rglob("*.py")),
    *(path for path in sorted((ROOT / "docs").glob("*.md")) if path != GLOSSARY),
    ROOT / "README.md",
    ROOT / "DEVELOPERS.md",
]


def read_rows():
    """Return (words, meaning, barred words) for each row of the glossary's tables."""
    lines = GLOSSARY.read_text(encoding="utf-8").splitlines()
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if "|" in line]
    return [
        (split(words), meaning, split(barred))
        for words, meaning, barred in rows
        if words != "word" and set(words) != {"-"}
    ]


def split(cell):
    """Return the words of a cell, parted by commas."""
    return [word.strip() for word in cell.split(",") if word.strip()]


ROWS = read_rows()
WORDS = [word for words, _, _ in ROWS for word in words]
BARRED = [word for _, _, barred in ROWS for word in barred]


def use(word):
    """Return a search for the word alone or in the plural, in any case, across a line's end."""
    return re.compile(rf"\b{re.escape(word)}(?:s|es)?\b".replace(r"\ ", r"[\s_]+"), re.IGNORECASE)


def test_the_glossary_is_read_whole():
    """Every row has words and a meaning, and no word stands twice or is both used and barred."""
    assert len(ROWS) > 30
    assert all(words and meaning for words, meaning, _ in ROWS)
    assert len({*WORDS, *BARRED}) == len(WORDS) + len(BARRED)


@pytest.mark.parametrize("word", WORDS)
def test_every_word_is_in_use(word):
    """A word of the glossary is found in the code or the other pages."""
    assert any(use(word).search(path.read_text(encoding="utf-8")) for path in TEXTS)


@pytest.mark.parametrize("word", BARRED)
def test_no_barred_word_is_in_use(word):
    """A second word for a thing is found nowhere, neither in code nor in prose."""
    found = [path.name for path in TEXTS if use(word).search(path.read_text(encoding="utf-8"))]
    assert found == []


@pytest.mark.parametrize("module", VALUE_MODULES)
def test_values_bear_names_from_the_glossary(module):
    """The classes that hold a job and a schedule are named by words a reader can look up."""
    tree = ast.parse((ROOT / "nesting" / "values" / f"{module}.py").read_text(encoding="utf-8"))
    names = [node.name for node in tree.body if isinstance(node, ast.ClassDef)]
    spoken = [re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name).lower() for name in names]
    known = {part for word in WORDS for part in (word, *word.split())}
    known |= {f"{word}s" for word in known}
    assert spoken
    assert [word for word in spoken if word not in known] == []
