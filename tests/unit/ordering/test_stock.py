"""Stock and strips as whole numbers."""

from nesting.ordering.stock import CutPlan, Cutting, StockProof


def test_a_strip_takes_the_cut_after_it():
    """Its size is its length and the kerf."""
    strips = Cutting((100,), (40, 30), (2, 1), 3).strips
    assert (strips.sizes, strips.counts) == ((43, 33), (2, 1))


def test_a_plan_counts_its_stock():
    """How many lengths, and how long they are together."""
    plan = CutPlan(((100, (2, 0), 3), (60, (0, 1), 1)), 4, 360, StockProof((1, 1), 2))
    assert (plan.used, plan.length) == (4, 360)
