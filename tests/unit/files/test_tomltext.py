"""TOML text and its lines: `nesting.files.tomltext`."""

import tomllib

import pytest
from jobtext import JOB

from nesting.errors import InputError
from nesting.files.tomltext import line_of, parse_toml

TEXT = '''\
title = "a [x] # no comment"
# [no.table]
note = """
[no.table]
a = 1
"""
[liner]
outline = [
  [0, 0], # = [1, 1]
  [300, 200]
]
'odd "key"' = { b = "}" }
[[liner.ornament]]
name = 'x = ['
deep.er.key = 1
[liner.ornament.more]
q = 1
[[liner . ornament]]
"name" = "y"
[[panel]]
size = [1,
2]
mark = "A1"
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("title",), 1),
        (("note",), 3),
        (("no",), 0),
        (("liner",), 7),
        (("liner", "outline"), 8),
        (("liner", "outline", 1), 8),
        (("liner", 'odd "key"'), 12),
        (("liner", 'odd "key"', "b"), 12),
        (("liner", "ornament"), 13),
        (("liner", "ornament", 0, "name"), 14),
        (("liner", "ornament", 0, "deep", "er", "key"), 15),
        (("liner", "ornament", 0, "more", "q"), 17),
        (("liner", "ornament", 1), 18),
        (("liner", "ornament", 1, "name"), 19),
        (("liner", "ornament", 1, "absent"), 18),
        (("panel", 0, "size"), 21),
        (("panel", 0, "mark"), 23),
        (("panel", 7), 20),
        (("absent",), 0),
        ((), 0),
    ],
)
def test_a_key_is_found_on_its_line(path, line):
    """Keys are found past lists, texts and comments; a key that is absent is at its table."""
    assert tomllib.loads(TEXT)
    assert line_of(TEXT, [path]) == [line]


def test_lines_are_the_same_with_windows_line_ends():
    """Line ends of either kind count once."""
    paths = [("panel", 2, "mark"), ("rules", "set_out")]
    assert line_of(JOB, paths) == line_of(JOB.replace("\n", "\r\n"), paths) == [38, 22]


def test_without_text_no_line_is_known():
    """An empty text has no lines, and no paths have none."""
    assert line_of("", [("a",), ("b",)]) == [0, 0]
    assert line_of(TEXT, []) == []


def test_toml_becomes_its_values():
    """Text that is TOML gives its tables."""
    assert parse_toml("a.toml", "[a]\nb = 1") == {"a": {"b": 1}}


def test_text_that_is_not_toml_is_refused_with_its_line():
    """The mistake names file, line, column and the line itself, shortened."""
    with pytest.raises(InputError, match="the line is not TOML") as caught:
        parse_toml("a.toml", "a = 1\nb = " + "x" * 300)
    assert caught.value.where == "a.toml:2"
    assert "(column 5)" in caught.value.rule
    assert len(str(caught.value)) < 200
