"""The packet's pages on strips."""

from handjob import hand_schedule
from packets import cells, example_packet, figure, grid, grids, hand_packet, section, words
from quantityjobs import make_job
from stripjobs import strip_job, three_sets

from nesting.packets.strips import list_resets, list_strips
from nesting.strips.plan import plan_strips
from nesting.strips.report import NO_STOCK
from nesting.tape import FULL_OR_SCANT


def made(**values):
    """Return (job, plan) of the three sets."""
    job = strip_job(**values)
    return job, plan_strips(job, three_sets())


def test_the_page_has_list_and_cut_plan():
    """Every strip a row, every length of stock a row, and what is proved."""
    page = list_strips(*made())
    assert len(grid(page, "Strips to cut").rows) == 4
    assert len(grid(page, "Cut from stock").rows) == 1
    assert "fewest PROVED" in words(page)


def test_without_stock_the_page_says_how_to_get_a_cut_plan():
    """The list stands alone."""
    page = list_strips(*made(stock=()))
    assert len(grids(page)) == 1
    assert NO_STOCK in words(page)


def test_each_re_set_has_a_page():
    """With its drawing, without paper and key, and its table."""
    first, second = list_resets(*made())
    assert (first.ref, first.title, second.ref) == ("r1", "Re-set 1 of 2", "r2")
    assert {"key", "strip", "sheet"}.isdisjoint(each.name for each in figure(first).drawing.layers)
    assert len(grid(first, "Faces").rows) == 4


def test_full_and_scant_are_explained_where_they_stand():
    """On pages that have either, and on no other."""
    job, plan = made()
    assert FULL_OR_SCANT not in words(list_strips(job, plan))
    ferry = example_packet("ferry-terminal")
    told = {ref: FULL_OR_SCANT in words(section(ferry, ref)) for ref in ("strips", "r2", "r3")}
    assert told == {"strips": True, "r2": True, "r3": False}


def test_each_dam_of_a_layout_has_the_number_of_its_strip():
    """Beside the dam in the cut list of its page, so that none is cut twice."""
    job, schedule = make_job(), hand_schedule()
    page = section(hand_packet(strips=plan_strips(job, schedule)), "l2")
    table = grid(page, "Dams to cut")
    assert table.head[:2] == ("dam", "strip")
    assert [row[:2] for row in cells(table)] == [["dam 1", "3"]]
    assert "strip" not in grid(section(hand_packet(), "l2"), "Dams to cut").head


def test_the_packet_has_them_around_the_layouts():
    """The list before, the re-sets after; neither where no strips are given."""
    plan = plan_strips(make_job(), hand_schedule())
    refs = [each.ref for each in hand_packet(strips=plan).sections]
    assert refs.index("strips") < refs.index("l1") < refs.index("l2") < refs.index("r1")
    assert not {"strips", "r1"} & {each.ref for each in hand_packet().sections}
    assert section(hand_packet(strips=plan), "r1").title == "Re-set 1 of 1"
