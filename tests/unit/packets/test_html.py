"""The packet as a page: well-formed, alone in the world, escaped, made for print."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from ferry import make_drum_job, make_drum_schedule
from handjob import hand_schedule
from packets import example_packet, hand_packet, read_example
from quantityjobs import make_job

from nesting.amounts.quantities import reckon_quantities
from nesting.packets.contents import make_packet
from nesting.packets.html import to_html
from nesting.packets.parts import Lines, Packet, PacketTable, Section, TableRow

NASTY = "A<b>&\"'</script><script>alert(1)</script>"


def parse(page):
    """Return the page's root; the parser refuses what is not well-formed."""
    first, rest = page.split("\n", 1)
    assert first == "<!DOCTYPE html><!-- Packet written by nesting. -->"
    return ElementTree.fromstring(rest)


@pytest.fixture(scope="module")
def ferry():
    """Return the ferry terminal's page."""
    return to_html(example_packet("ferry-terminal"))


def test_the_page_is_well_formed_and_its_ids_differ(ferry):
    """Every tag is closed, and no two elements have one id, drawings included."""
    ids = [each.get("id") for each in parse(ferry).iter() if each.get("id")]
    assert len(ids) > 60
    assert len(ids) == len(set(ids))


def test_the_page_needs_no_network_and_no_other_file(ferry):
    """No address, nothing loaded, and a policy that would forbid it."""
    assert re.findall(r"(?:https?:|//[a-z]|@import|url\((?!#))", ferry) == []
    tags = {each.tag for each in parse(ferry).iter()}
    assert tags & {"link", "img", "iframe", "object", "embed", "image", "use"} == set()
    assert all(each.get("src") is None for each in parse(ferry).iter())
    links = [each.get("href") for each in parse(ferry).iter("a")]
    ids = {each.get("id") for each in parse(ferry).iter()}
    assert {link.removeprefix("#") for link in links} <= ids
    assert "default-src 'none'" in ferry


def test_names_with_markup_stay_text():
    """A title, a mark, an ornament and a dam full of markup add no element and no script."""
    job, schedule = make_job(), hand_schedule()
    job = replace(
        job,
        title=NASTY,
        panels=(replace(job.panels[0], mark=NASTY), *job.panels[1:]),
        liner=replace(job.liner, ornaments=(replace(job.liner.ornaments[0], name=NASTY),)),
    )
    one = schedule.layouts[0]
    panel = replace(one.panels[0], mark=NASTY, shows=(NASTY,))
    dam = replace(one.dams[0], name=NASTY, zones=(NASTY,))
    one = replace(one, panels=(panel, *one.panels[1:]), dams=(dam, *one.dams[1:]))
    two = replace(schedule.layouts[1], panels=(replace(schedule.layouts[1].panels[0], shows=()),))
    schedule = replace(schedule, job=NASTY, layouts=(one, two))
    page = to_html(make_packet(job, schedule, reckon_quantities(job, schedule)))
    root = parse(page)
    assert len(list(root.iter("script"))) == 1
    assert list(root.iter("b")) == []
    assert "".join(root.find("head/title").itertext()) == NASTY
    cells = ["".join(each.itertext()) for each in root.iter("td")]
    assert cells.count(NASTY) > 5


def test_lines_as_they_stand_are_escaped_too():
    """Columns keep their blanks, and markup is text."""
    block = Lines("Sizes", ("  a   <b>", "  c & d"))
    page = to_html(Packet("T", "mm", (Section("s", "S", (block,)),)))
    assert "".join(parse(page).find("body/section/pre").itertext()) == "  a   <b>\n  c & d"


def test_the_printed_page_has_its_rules(ferry):
    """Paper, page breaks, heads that stand again, and rows that are not torn."""
    assert "@page { size: A4 portrait;" in ferry
    assert "counter(page)" in ferry
    assert "break-before: page" in ferry
    assert "display: table-header-group" in ferry
    assert "tr, figure, .part { break-inside: avoid; }" in ferry
    tables = list(parse(ferry).iter("table"))
    assert all(table.find("thead/tr/th") is not None for table in tables)


def test_an_inch_job_is_printed_on_letter_paper():
    """As its drawings are on inch papers."""
    job, schedule = make_drum_job(), make_drum_schedule()
    page = to_html(make_packet(job, schedule, reckon_quantities(job, schedule)))
    assert "@page { size: letter portrait;" in page


def test_a_wide_liner_turns_its_page():
    """The frieze's layout lies on the long side; the pages of words do not."""
    sections = parse(to_html(example_packet("bath-house-frieze"))).findall("body/section")
    kinds = {each.get("id"): each.get("class", "") for each in sections}
    assert [ref for ref, kind in kinds.items() if "wide" in kind.split()] == ["l1"]
    assert "@page l1 { size: A4 landscape;" in to_html(example_packet("bath-house-frieze"))


def test_a_page_that_runs_over_still_says_whose_it_is(ferry):
    """Pages of a layout bear its title at their head; those that sections share bear none."""
    assert "#l3 { page: l3; }" in ferry
    assert re.search(r'@page l3 \{ .*@top-right \{ content: "Layout 3 of 8";', ferry)
    assert "@page weights" not in ferry
    assert "@page order" not in ferry


def test_a_title_stays_whole_in_the_foot():
    """What is no letter is written by its number, so that nothing ends the string or the style."""
    page = to_html(Packet('</style>"Ż', "mm", (Section("s", "S", ()),)))
    assert r'content: "\3c \2f style\3e \22 Ż"' in page
    assert len(list(parse(page).iter("style"))) == 1


def test_rows_that_go_together_share_their_cells():
    """The name stands once beside both rows of a dam; a figure may break before its bracket."""
    rows = (TableRow(("D1", "5.3", "4"), "d1"), TableRow(("", "5 5/16 in (-0.3 mm)", ""), "d1"))
    grid = PacketTable("Dams", ("dam", "left", "clearance"), rows, frozenset({"dam"}))
    page = to_html(Packet("T", "in", (Section("s", "S", (grid,)),)))
    first, second = parse(page).findall("body/section/div/table/tbody/tr")
    assert [each.get("rowspan") for each in first] == ["2", None, "2"]
    assert ["".join(each.itertext()) for each in second] == ["5 5/16 in (-0.3 mm)"]
    assert "5 5/16 in <wbr />(-0.3 mm)" in page


def test_what_is_lit_in_a_drawing_has_its_rows(ferry):
    """A panel's: set-out, marks, what is measured on a curved bed; a dam's: set-out, cut list."""
    root = parse(ferry)
    spots = [each.get("data-ref") for each in root.iter("rect") if each.get("class") == "spot"]
    rows = [each.get("data-ref") for each in root.iter("tr") if each.get("data-ref")]
    _, schedule = read_example("ferry-terminal")
    assert len(spots) == sum(len(each.panels) + len(each.dams) for each in schedule.layouts)
    for ref in spots:
        page, what = ref.split("-")
        kept = page in ("l2", "l7") and what.startswith("d")
        measured = page in ("l4", "l5", "l6", "l7", "l8") and what.startswith("p")
        assert rows.count(ref) == (1 if kept else 3 if measured else 2)


def test_the_same_packet_gives_the_same_page():
    """Nothing in it tells when it was made."""
    assert to_html(hand_packet()) == to_html(hand_packet())
