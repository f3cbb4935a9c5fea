"""Exactly the order and no more."""

from hypothesis import given, settings
from hypothesis import strategies as st
from tinysheets import placed

from nesting.search.bays import Setting, Variant, share_out

ROW = [(3 * k, 0) for k in range(4)]


def instance_of(*demand):
    """Return an instance of so many of each item, each with four places in a row of its own."""
    rows = [[(x, 3 * item) for x, _ in ROW] for item in range(len(demand))]
    return placed(*((2, 2, n, places) for n, places in zip(demand, rows, strict=True)))


def made(instance, shared):
    """Return how many of each item the settings yield."""
    total = [0] * len(instance.items)
    for setting in shared:
        for variant in setting.variants:
            for bay in variant.bays:
                total[instance.owner[bay]] += variant.repeats
    return tuple(total)


def test_what_yields_the_order_is_left_as_it_is():
    """One setting per layout, each with one variant that sprays all bays."""
    shared = share_out(instance_of(6, 3), ((3, (0, 1, 4)),))
    assert shared == (Setting((0, 1, 4), (Variant(3, (0, 1, 4)),)),)
    assert shared[0].repeats == 3


def test_a_bay_not_needed_at_all_is_left_out():
    """Three A too many of three casts: one of the two bays goes for good."""
    instance = instance_of(3, 3)
    (setting,) = share_out(instance, ((3, (0, 1, 4)),))
    assert len(setting.bays) == 2
    assert setting.variants == (Variant(3, setting.bays),)
    assert made(instance, (setting,)) == (3, 3)


def test_a_bay_needed_in_some_casts_is_masked_in_the_others():
    """Three A and one B of a layout of both: two casts of the three mask the bay of B."""
    shared = share_out(instance_of(3, 1), ((3, (0, 4)),))
    assert shared == (Setting((0, 4), (Variant(1, (0, 4)), Variant(2, (0,)))),)


def test_masks_only_grow_from_cast_to_cast():
    """Of 5 casts B is wanted in 2 and C in 4: two casts with all, two without B, one without C."""
    (setting,) = share_out(instance_of(5, 2, 4), ((5, (0, 4, 8)),))
    assert setting.variants == (Variant(2, (0, 4, 8)), Variant(2, (0, 8)), Variant(1, (0,)))


def test_a_layout_left_without_a_bay_is_dropped():
    """Its casts are not made."""
    shared = share_out(instance_of(3), ((3, (0,)), (3, (1,))))
    assert [setting.repeats for setting in shared] == [3]


def test_casts_that_would_spray_nothing_are_not_made():
    """Four casts of one bay, three wanted."""
    assert share_out(instance_of(3), ((4, (0,)),)) == (Setting((0,), (Variant(3, (0,)),)),)


def test_no_layouts_are_no_settings():
    """An order of nothing."""
    assert share_out(instance_of(0), ()) == ()


LAYOUTS = st.lists(
    st.tuples(st.integers(1, 9), st.sets(st.integers(0, 11), min_size=1)), min_size=1, max_size=5
)


@given(LAYOUTS, st.data())
@settings(max_examples=200)
def test_the_yield_is_the_order_exactly(layouts, data):
    """Whatever is too many is left out or masked, and nothing else is."""
    layouts = tuple((times, tuple(sorted(bays))) for times, bays in layouts)
    most = [sum(t * sum(b // 4 == item for b in bays) for t, bays in layouts) for item in range(3)]
    demand = [data.draw(st.integers(0, total)) for total in most]
    instance = instance_of(*demand)
    shared = share_out(instance, layouts)
    assert made(instance, shared) == tuple(demand)
    assert sum(setting.repeats for setting in shared) <= sum(times for times, _ in layouts)
    partly = [0, 0, 0]
    for setting in shared:
        first, *rest = setting.variants
        assert first.bays == setting.bays
        for more, less in zip(setting.variants, rest, strict=False):
            assert set(less.bays) < set(more.bays)
        assert all(variant.repeats > 0 and variant.bays for variant in setting.variants)
        for bay in setting.bays:
            sprayed = sum(v.repeats for v in setting.variants if bay in v.bays)
            assert sprayed > 0
            partly[bay // 4] += sprayed < setting.repeats
    assert max(partly) <= 1
