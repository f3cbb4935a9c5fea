"""How the code reads: public names explained and annotated, functions and modules short."""

import ast
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MODULE_LINES = 400
FUNCTION_LINES = 40

SOURCES = sorted((ROOT / "nesting").rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("test_*.py"))
FUNCTION = ast.FunctionDef | ast.AsyncFunctionDef


def label(path):
    """Return the path as read from the project's root."""
    return str(path.relative_to(ROOT))


@cache
def parse(path):
    """Return the file's syntax tree."""
    return ast.parse(path.read_text(encoding="utf-8"))


def list_public(body, owner=""):
    """Return (name, node) for every public function, class and method, depth first."""
    found = []
    for node in body:
        if not isinstance(node, FUNCTION | ast.ClassDef) or node.name.startswith("_"):
            continue
        found.append((owner + node.name, node))
        if isinstance(node, ast.ClassDef):
            found += list_public(node.body, f"{owner}{node.name}.")
    return found


def lacks_annotations(node):
    """Whether a function leaves an argument, or what it returns, without a type."""
    arguments = [
        *node.args.posonlyargs,
        *node.args.args,
        *node.args.kwonlyargs,
        *filter(None, (node.args.vararg, node.args.kwarg)),
    ]
    bare = [each.arg for each in arguments if each.annotation is None]
    return node.returns is None or set(bare) - {"self", "cls"}


def count_lines(node):
    """Return how many lines a function's body has, its docstring not counted."""
    body = node.body[1:] if ast.get_docstring(node) is not None else node.body
    return body[-1].end_lineno - body[0].lineno + 1 if body else 0


def asserts_something(node):
    """Whether a test has an assertion, expects an error, or hands over to a checking helper."""
    for part in ast.walk(node):
        if isinstance(part, ast.Assert):
            return True
        if isinstance(part, ast.Call):
            name = part.func.attr if isinstance(part.func, ast.Attribute) else part.func
            name = name.id if isinstance(name, ast.Name) else name
            if isinstance(name, str) and name.startswith(("raises", "assert", "check", "expect")):
                return True
    return False


def list_tests(path):
    """Return every test function of the file."""
    nodes = ast.walk(parse(path))
    return [node for node in nodes if isinstance(node, FUNCTION) and node.name.startswith("test_")]


@pytest.mark.parametrize("path", SOURCES, ids=label)
def test_public_names_are_explained(path):
    """Module, classes, functions and methods that others may use say what they are."""
    tree = parse(path)
    assert ast.get_docstring(tree), "the module needs one line on what it is for"
    assert [name for name, node in list_public(tree.body) if not ast.get_docstring(node)] == []


@pytest.mark.parametrize("path", SOURCES, ids=label)
def test_public_functions_are_annotated(path):
    """Every argument and every result has its type."""
    public = list_public(parse(path).body)
    functions = [(name, node) for name, node in public if isinstance(node, FUNCTION)]
    assert [name for name, node in functions if lacks_annotations(node)] == []


@pytest.mark.parametrize("path", SOURCES, ids=label)
def test_functions_are_short(path):
    """A function's body fits one screen."""
    functions = [node for node in ast.walk(parse(path)) if isinstance(node, FUNCTION)]
    assert [node.name for node in functions if count_lines(node) > FUNCTION_LINES] == []


@pytest.mark.parametrize("path", SOURCES, ids=label)
def test_modules_are_short(path):
    """A module holds one idea."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= MODULE_LINES


@pytest.mark.parametrize("path", TESTS, ids=label)
def test_tests_state_a_fact_and_assert_it(path):
    """Every test says what holds, and would fail if it did not."""
    tests = list_tests(path)
    assert tests, "a file of tests has at least one"
    assert [node.name for node in tests if not ast.get_docstring(node)] == []
    assert [node.name for node in tests if not asserts_something(node)] == []
