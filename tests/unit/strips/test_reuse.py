"""Which strips serve again."""

from dataclasses import replace

from handjob import MM
from stripjobs import lay, strip_job, strip_schedule, three_sets

from nesting.strips.reuse import follow_strips
from nesting.strips.settings import Setting, list_settings


def follow(*layouts):
    """Return the strips of those layouts on one liner."""
    return follow_strips(strip_job(), list_settings(strip_schedule(*layouts), None))


def told(reset):
    """Return what becomes of each strip, dams by their numbers."""
    return [
        (
            each.strip,
            each.way,
            each.was and each.was.name[-1],
            each.becomes and each.becomes.name[-1],
        )
        for each in reset.changes
    ]


def test_strips_stay_move_go_and_are_new():
    """By place and piece alike; a strip that went comes back from the store."""
    listed = follow_strips(strip_job(), list_settings(three_sets(), None))
    first, second, third = listed.layings
    assert told(first) == [
        (1, "cut new", None, "1"),
        (2, "cut new", None, "2"),
        (3, "cut new", None, "3"),
    ]
    assert told(second) == [
        (1, "stays", "1", "1"),
        (2, "moves", "2", "2"),
        (3, "goes", "3", None),
        (4, "cut new", None, "3"),
    ]
    assert told(third) == [
        (1, "goes", "1", None),
        (2, "moves", "2", "2"),
        (4, "goes", "3", None),
        (3, "from store", None, "1"),
    ]
    assert [each.number for each in listed.layings] == [0, 1, 2]
    assert listed.resets == (second, third)
    uses = {strip.number: [place for place, _ in strip.uses] for strip in listed.strips}
    assert uses == {1: [0, 1], 2: [0, 1, 2], 3: [0, 2], 4: [1]}


def test_moves_are_the_shortest_in_total():
    """Two strips side by side do not cross: each takes the place that is near."""
    one = lay(1, (0, 0, 25, 300), (100, 0, 25, 300))
    two = lay(2, (110, 0, 25, 300), (10, 0, 25, 300))
    reset = follow(one, two).layings[1]
    assert told(reset) == [(1, "moves", "1", "2"), (2, "moves", "2", "1")]


def test_a_strip_may_be_turned():
    """Along x or along y it is the same strip."""
    reset = follow(lay(1, (0, 0, 25, 300)), lay(2, (0, 0, 300, 25))).layings[1]
    assert told(reset) == [(1, "moves", "1", "1")]


def test_another_length_or_width_is_another_strip():
    """Nothing is cut down for a later layout."""
    listed = follow(lay(1, (0, 0, 25, 300)), lay(2, (0, 0, 25, 299)), lay(3, (0, 0, 40, 300)))
    assert len(listed.strips) == 3
    assert [told(each)[0][1] for each in listed.resets] == ["goes", "goes"]


def test_one_liner_needs_the_most_of_any_layout():
    """Of each piece as many strips exist as the layout with most of them asks for."""
    many = [(100 * n, 0, 25, 300) for n in range(4)]
    listed = follow(lay(1, *many[:2]), lay(2, *many), lay(3, many[3]), lay(4, *many[1:]))
    assert len(listed.strips) == 4


def test_a_strip_is_handed_on_only_when_the_re_set_has_ended():
    """Another liner that begins before cuts its own; one that begins then takes it."""
    one, two = lay(1, (0, 0, 25, 300)), lay(2, (0, 0, 25, 400))
    first, other = Setting(1, one, (1,), 0, 5), Setting(1, two, (2,), 10, 15)
    for begins, ways in ((14, "cut new"), (15, "from store")):
        late = Setting(2, one, (3,), begins, begins + 5)
        listed = follow_strips(strip_job(), [first, other, late])
        assert listed.layings[2].changes[0].way == ways


def test_the_piece_decides_at_the_same_place():
    """A dam of another height does not stay where it is."""
    one = lay(1, (0, 0, 25, 300))
    thick = replace(
        strip_job(), panels=tuple(replace(p, thickness=30 * MM) for p in strip_job().panels)
    )
    low = follow_strips(strip_job(), [Setting(1, one, (1,), 0, 0)])
    high = follow_strips(thick, [Setting(1, one, (1,), 0, 0)])
    assert low.strips[0].piece != high.strips[0].piece
