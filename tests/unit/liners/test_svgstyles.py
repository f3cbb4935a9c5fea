"""Style sheets: which rule holds for an element, and what is told of the others."""

import pytest

from nesting.errors import InputError
from nesting.liners.svgstyles import apply_sheets
from nesting.liners.svgtree import parse_svg


def styled(sheet, element='<g id="a" class="b c"/>'):
    """Return the element under a sheet, and what of the sheet was not read."""
    root = parse_svg("a.svg", f"<svg><style>{sheet}</style>{element}</svg>".encode())
    unread = apply_sheets("a.svg", root)
    return root.children[1], unread


@pytest.mark.parametrize(
    ("sheet", "shown"),
    [
        (".b{display:none}", "none"),
        ("#a , .z { stroke:red; display : none }", "none"),
        ("g.b.c{display:none} *{display:inline}", "none"),
        (".b{display:none!important}", "none"),
        ("/* .b{display:none} */ .z{display:none}", ""),
        ("#a{display:inline} .b{display:none} g{display:none}", "inline"),
        ("<!-- .c{display:none} -->".replace("<", "&lt;").replace(">", "&gt;"), "none"),
        ("rect.b{display:none}", ""),
        (".b{fill:red}.c{fill:none;display:none}", "none"),
    ],
)
def test_the_closest_rule_holds(sheet, shown):
    """An id goes before a class, a class before a type; of equals the later one."""
    element, unread = styled(sheet)
    assert element.get("display") == shown
    assert unread == []


def test_the_own_style_goes_before_and_attributes_after():
    """W3C, SVG 1.1, chapter 6.4."""
    element, _ = styled("g{fill:none}", '<g fill="red" style="fill:blue"/>')
    assert element.get("fill") == "blue"
    assert styled("g{fill:none}", '<g fill="red"/>')[0].get("fill") == "none"


@pytest.mark.parametrize(
    ("sheet", "told"),
    [
        ("g > .b{display:none}", ["g > .b"]),
        ("g .b, .c:hover{visibility:hidden}", ["g .b", ".c:hover"]),
        ("g .b{stroke:red}", []),
        ("@media print{.b{display:none}}", ["@media print{.b{display:none}}"]),
        ('@import "b.css";', ['@import "b.css";']),
    ],
)
def test_what_is_not_read_is_told_where_it_matters(sheet, told):
    """Rules that hide or place nothing are passed over."""
    element, unread = styled(sheet)
    assert unread == told
    assert element.get("display") == ""


def test_a_flood_of_rules_is_refused_at_once():
    """Every rule for every element would take minutes."""
    root = parse_svg(
        "a.svg", b"<svg><style>" + b"*{fill:red}" * 3000 + b"</style>" + b"<g/>" * 900 + b"</svg>"
    )
    with pytest.raises(InputError, match="the style sheets must be small beside the drawing"):
        apply_sheets("a.svg", root)
