"""SVG text becomes a tree; what could fetch, bloat or never end is refused with its line."""

import pytest

from nesting.errors import InputError
from nesting.liners.svgtree import parse_svg


def test_elements_have_local_names_and_lines():
    """Prefixes are dropped from elements and attributes; styles go before attributes."""
    text = '<s:svg xmlns:s="u" xmlns:k="v">\n<s:g k:label="A" fill="red" style="fill: none; x:1"/>'
    text += "</s:svg>"
    (group,) = parse_svg("a.svg", text.encode()).children
    assert (group.tag, group.line, group.attributes["label"]) == ("g", 2, "A")
    assert (group.get("fill"), group.get("label"), group.get("stroke")) == ("none", "A", "")


def test_the_title_is_the_elements_own():
    """Not that of something within."""
    root = parse_svg("a.svg", b"<svg><g><title>a</title></g><title> heron &amp; co </title></svg>")
    assert root.title == "heron & co"


def test_attributes_with_a_prefix_never_stand_for_those_without():
    """Only a label, an id and a reference are kept; an id of another vocabulary is a label."""
    text = b'<svg><circle r="5" s:r="9" s:id="heron" id="c1"/><use s:href="#c1"/></svg>'
    circle, use = parse_svg("a.svg", text).children
    assert circle.attributes == {"r": "5", "id": "c1", "label": "heron"}
    assert use.attributes == {"href": "#c1"}


def test_short_entities_are_read():
    """Some drawing programs write their name spaces so."""
    text = b'<!DOCTYPE svg [<!ENTITY ns "http://a">]><svg xmlns:x="&ns;"/>'
    assert parse_svg("a.svg", text).tag == "svg"


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"<svg><g></svg>", "a.svg:1: the file is not XML: mismatched tag"),
        (b"<svg>\n<g", "a.svg:2: the file is not XML"),
        (b"<html/>", "the file is not SVG, got an element named html"),
        (b"\x1f\x8b\x08", "the file is compressed; save it uncompressed"),
        (b"<svg>" + b"<g>" * 300, "a.svg:1: elements nest at most 200 deep"),
        (b"<svg>" + b"<g/>" * 200_001, "at most 200000 elements"),
        (b"<svg>\n<g/>\ncircle r='5'/></svg>", "a.svg:3: words stand between the elements"),
        (b'<!DOCTYPE s [<!ENTITY a SYSTEM "b">]><svg/>', "must not reach outside the file"),
        (
            b'<!DOCTYPE s [<!ENTITY a "b&#38;b;">]><svg/>',
            "must be short and hold no other",
        ),
        (b'<?xml version="1.0" encoding="zz"?><svg/>', "unknown encoding|encoding is not known"),
    ],
)
def test_what_is_refused(content, told):
    """One line, with the place where there is one."""
    with pytest.raises(InputError, match=told):
        parse_svg("a.svg", content)
