"""SVG text: escaped, stable, in millimetres, upside up."""

import math
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import get_args
from xml.etree import ElementTree

import pytest
import resvg_py
from drawjobs import CASES, drawn
from ferry import make_ferry_job, make_ferry_schedule
from pngimage import read_png

from nesting.drawings.masking import draw_layout
from nesting.drawings.overview import draw_overview
from nesting.drawings.record import Area, AreaStyle, Drawing, Layer, Line, LineStyle, Rect, Text
from nesting.drawings.svg import to_svg

NS = {"svg": "http://www.w3.org/2000/svg"}
TESTS = Path(__file__).parents[2]


def sheet(*shapes, name="one", title="A title"):
    """Return a drawing of 200 x 100 mm with one layer."""
    return Drawing(name, 200, 100, title, "A summary", (Layer("things", shapes),))


def parse(drawing):
    """Return the root of the drawing's SVG."""
    return ElementTree.fromstring(to_svg(drawing))


def test_the_root_is_in_mm_and_one_unit_is_one_mm():
    """Width and height are the sheet's in mm, and the view box has the same figures."""
    root = parse(sheet())
    assert (root.get("width"), root.get("height")) == ("200mm", "100mm")
    assert root.get("viewBox") == "0 0 200 100"


def test_y_turns_over():
    """What is 10 mm above the sheet's lower edge is 90 units below its upper one."""
    root = parse(sheet(Line(((0, 10), (50, 10)), "rule"), Text(5, 30, "D1", 3.6)))
    assert root.find(".//svg:g/svg:path", NS).get("d") == "M0 90 L50 90"
    text = root.find(".//svg:text", NS)
    assert (text.get("x"), text.get("y"), text.text) == ("5", "70", "D1")
    assert text.get("font-size") == "5"


def test_areas_close_every_ring_and_count_even_odd():
    """An area is one path whose rings are closed, so that a ring in a ring is a hole."""
    outer, inner = ((0, 0), (9, 0), (9, 9)), ((5, 1), (8, 1), (8, 4))
    path = parse(sheet(Area((outer, inner), "masked"))).find(".//svg:g/svg:path", NS)
    assert path.get("d") == "M0 100 L9 100 L9 91Z M5 99 L8 99 L8 96Z"
    assert path.get("fill-rule") == "evenodd"
    assert path.get("fill") == "url(#one-hatch)"


def test_upright_text_turns_about_its_anchor():
    """Upright words are turned left by a quarter, about the point they are anchored to."""
    text = parse(sheet(Text(50, 40, "1500", 3.5, "bold", "end", upright=True))).find(
        ".//svg:text", NS
    )
    assert text.get("transform") == "rotate(-90 50 60)"
    assert (text.get("text-anchor"), text.get("font-weight")) == ("end", "bold")


@pytest.mark.parametrize("mark", ["<A1>", "A&B", 'A"1"', "it's", "a]]>b", "<!-- -->", "&amp;"])
def test_names_are_escaped(mark):
    """Whatever a name holds, it comes back as it was and adds no element."""
    root = parse(sheet(Text(5, 30, mark, 3.5), title=mark))
    assert [text.text for text in root.iterfind(".//svg:text", NS)] == [mark]
    assert root.find("svg:title", NS).text == mark


def test_control_characters_are_dropped():
    """Characters that XML forbids are gone, so that the file can be read."""
    root = parse(sheet(Text(5, 30, "A\x00\x081\ufffe", 3.5), title="A\x07 title"))
    assert root.find(".//svg:text", NS).text == "A1"
    assert root.find("svg:title", NS).text == "A title"


def test_ids_begin_with_the_drawing_s_name():
    """Two drawings on one page share no id."""
    ids = [
        {element.get("id") for element in parse(sheet(name=name)).iter() if element.get("id")}
        for name in ("layout-01", "layout-02")
    ]
    assert ids[0].isdisjoint(ids[1])
    assert ids[0] == {"layout-01", "layout-01-hatch", "layout-01-things"}


def test_layers_become_groups_in_order():
    """Each layer is a group, the lowest first."""
    root = parse(
        draw_layout(make_ferry_job(), make_ferry_schedule(), make_ferry_schedule().layouts[0])
    )
    groups = [group.get("id") for group in root.iterfind("svg:g", NS)]
    names = ("sheet", "ground", "relief", "dams", "dimensions", "names", "key", "strip")
    assert groups == [f"layout-01-{name}" for name in names]


def test_every_style_has_a_look():
    """No style of the record is unknown to the writer."""
    areas = [Area((((0, 0), (1, 0), (1, 1)),), style) for style in get_args(AreaStyle)]
    lines = [Line(((0, 0), (1, 1)), style) for style in get_args(LineStyle)]
    paths = parse(sheet(*areas, *lines)).findall(".//svg:g/svg:path", NS)
    assert len(paths) == len(areas) + len(lines) > 15
    assert all(path.get("fill") != "none" or path.get("stroke") for path in paths)


@pytest.mark.long
@pytest.mark.parametrize("case", CASES)
def test_every_drawing_is_well_formed(case):
    """Each case is XML and holds no number a reader would stumble over."""
    text = to_svg(drawn(case)[2])
    root = ElementTree.fromstring(text)
    for path in root.iterfind(".//svg:path", NS):
        numbers = path.get("d").replace("M", " ").replace("L", " ").replace("Z", " ").split()
        assert all(math.isfinite(float(number)) and number != "-0" for number in numbers)
        assert not any("e" in number or len(number.partition(".")[2]) > 3 for number in numbers)


@pytest.mark.parametrize("case", ["ferry", "inch", "odd", "long mark"])
def test_the_same_layout_gives_the_same_bytes(case):
    """Drawn again from values made again, a layout is the same to the byte."""
    job, schedule = CASES[case]()
    again = draw_layout(job, schedule, schedule.layouts[-1])
    assert to_svg(again) == to_svg(drawn(case)[2])


def test_another_hash_seed_gives_the_same_bytes():
    """Nothing depends on the order of a set."""
    code = (
        "from drawjobs import busy_case; from nesting.drawings.svg import to_svg;"
        "from nesting.drawings.masking import draw_layout;"
        "from nesting.drawings.overview import draw_overview;"
        "j, s = busy_case(); print(to_svg(draw_layout(j, s, s.layouts[0])));"
        "print(to_svg(draw_overview(j, s)))"
    )
    texts = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": f"{TESTS}:{TESTS.parent}"},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(texts) == 1
    assert len(texts.pop()) > 10_000


def test_no_date_and_no_machine_is_written():
    """The file holds the drawing and nothing about when, where or with what it was made."""
    text = to_svg(draw_overview(make_ferry_job(), make_ferry_schedule()))
    assert not any(word in text.lower() for word in ("svgwrite", "/home", "/work", "utc"))
    assert not re.search(r"20\d\d-\d\d", text)


def test_hatch_dam_and_panel_read_without_colour():
    """In grey a dam is nearly black, masked ground is hatched with it and white, a panel plain."""
    shapes = [
        Area((((x, 10), (x + 50, 10), (x + 50, 60), (x, 60)),), style)
        for x, style in ((10, "panel"), (70, "masked"), (130, "dam"))
    ]
    paper = Area((((0, 0), (200, 0), (200, 100), (0, 100)),), "paper")
    svg = to_svg(sheet(paper, *shapes))
    _, _, rows = read_png(bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=96, width=400)))
    grounds = [[grey for row in rows[90:170] for grey in row[x : x + 80]] for x in (30, 150, 270)]
    panel, masked, dam = grounds
    assert min(panel) > 220
    assert max(dam) < 60
    assert min(masked) < 150 < 240 < max(masked)
    dark = sum(grey < 200 for grey in masked) / len(masked)
    assert 0.05 < dark < 0.3


def test_a_layer_is_seen_through_its_window():
    """Shapes are shifted, those far outside are left out, and the rest is cut at the window."""
    shapes = (
        Line(((0, 0), (500, 0)), "rule"),
        Line(((400, 0), (500, 9)), "rule"),
        Text(30, 5, "D1", 3.5),
    )
    layer = Layer("art", shapes, Rect(10, 10, 90, 90), (20, 30))
    root = parse(Drawing("one", 200, 100, "A title", "", (layer,)))
    group = root.find("svg:g", NS)
    assert group.get("clip-path") == "url(#one-art-window)"
    assert [path.get("d") for path in group.iterfind("svg:path", NS)] == ["M20 70 L520 70"]
    assert group.find("svg:text", NS).get("x") == "50"
    clip = root.find("svg:defs/svg:clipPath[@id='one-art-window']/svg:path", NS)
    assert clip.get("d") == "M10 90 L90 90 L90 10 L10 10Z"
    svg = to_svg(Drawing("one", 200, 100, "", "", (layer,)))
    _, _, rows = read_png(bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=96, background="white")))
    inked = [x for row in rows for x, grey in enumerate(row) if grey < 200]
    assert min(inked) >= 20 * 96 / 25.4 - 1
    assert max(inked) <= 90 * 96 / 25.4 + 1
