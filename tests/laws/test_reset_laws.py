"""What holds for the strips of every job, on generated sets of dams, liners and days."""

import random
from collections import Counter
from functools import cache

import pytest
from calendarjobs import make_calendar
from stripjobs import lay, strip_job, strip_schedule

from nesting.strips.pieces import list_pieces
from nesting.strips.plan import plan_strips
from nesting.strips.reuse import follow_strips
from nesting.strips.settings import Setting, list_settings
from nesting.values.job import DamStock

SEEDS = range(20)


def make_layout(chance, number):
    """Return a layout of one to six dams, with few lengths and places, so that many recur."""
    boxes = set()
    for _ in range(chance.randint(1, 6)):
        length, at = chance.choice((300, 450, 700)), 50 * chance.randint(0, 15)
        boxes.add((at, 0, 25, length) if chance.random() < 0.5 else (0, at, length, 25))
    return lay(number, *sorted(boxes))


@cache
def make_settings(seed):
    """Return settings on one to three liners, work on one beginning before another's has ended."""
    chance = random.Random(seed)
    layouts = [make_layout(chance, number) for number in range(1, chance.randint(3, 8))]
    free, settings = [0] * chance.randint(1, 3), []
    for number, layout in enumerate(layouts, start=1):
        liner = chance.randrange(len(free))
        begins = free[liner] + chance.randint(1, 9)
        free[liner] = begins + chance.randint(0, 6)
        settings.append(Setting(liner + 1, layout, (number,), begins, free[liner]))
    return sorted(settings, key=lambda setting: (setting.begins, setting.liner))


def dams_by_name(layout):
    """Return how often each dam of a layout stands."""
    return Counter(dam.name for dam in layout.dams)


@pytest.mark.parametrize("seed", SEEDS)
def test_old_dams_stay_move_or_go_and_new_ones_stay_move_or_are_new(seed):
    """Each dam of either set is one change, and each strip is in one place."""
    settings = make_settings(seed)
    for laying in follow_strips(strip_job(), settings).layings:
        old = Counter(c.was.name for c in laying.by_way("stays", "moves", "goes"))
        new = Counter(
            c.becomes.name for c in laying.by_way("stays", "moves", "from store", "cut new")
        )
        assert old == (dams_by_name(laying.before.layout) if laying.before else Counter())
        assert new == dams_by_name(laying.after.layout)
        strips = [change.strip for change in laying.changes]
        assert len(set(strips)) == len(strips) == len(laying.changes)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_stays_lies_where_it_lay_and_a_strip_fits_every_dam_it_is(seed):
    """Staying is the same ground; whatever a strip becomes has its length and width."""
    listed = follow_strips(strip_job(), make_settings(seed))
    for laying in listed.layings:
        assert all(change.was.box == change.becomes.box for change in laying.by_way("stays"))
        assert not any(change.was.box == change.becomes.box for change in laying.by_way("moves"))
    for strip in listed.strips:
        for _, dam in strip.uses:
            assert (dam.length, min(dam.width, dam.height)) == (
                strip.piece.length,
                strip.piece.width,
            )


def count_needed(settings, piece):
    """Return the most of a piece that lie on all liners at once, re-sets counted with both sets."""
    job = strip_job()
    by_liner = {}
    for setting in settings:
        by_liner.setdefault(setting.liner, []).append(setting)
    moments = {moment for setting in settings for moment in (setting.begins, setting.laid)}

    def held(its, moment):
        wanted = [list_pieces(job, setting.layout).count(piece) for setting in its]
        begun = [at for at, setting in enumerate(its) if setting.begins <= moment]
        if not begun:
            return 0
        now = begun[-1]
        is_under_way = moment < its[now].laid and now > 0
        return max(wanted[now], wanted[now - 1]) if is_under_way else wanted[now]

    return max(sum(held(its, moment) for its in by_liner.values()) for moment in moments)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_more_strips_are_cut_than_lie_at_once(seed):
    """Of each piece exactly as many exist as some moment needs on all liners together."""
    settings = make_settings(seed)
    listed = follow_strips(strip_job(), settings)
    cut = Counter(strip.piece for strip in listed.strips)
    assert cut == {piece: count_needed(settings, piece) for piece in cut}


@pytest.mark.parametrize("seed", SEEDS)
def test_one_liner_needs_what_its_fullest_layout_needs(seed):
    """In the order of the schedule, the strips of a piece are the most of any one layout."""
    chance = random.Random(seed)
    layouts = [make_layout(chance, number) for number in range(1, 6)]
    job = strip_job()
    listed = follow_strips(job, list_settings(strip_schedule(*layouts), None))
    cut = Counter(strip.piece for strip in listed.strips)
    needs = [Counter(list_pieces(job, layout)) for layout in layouts]
    assert cut == {piece: max(need[piece] for need in needs) for piece in cut}


@pytest.mark.parametrize("seed", SEEDS)
def test_every_strip_is_cut_once_and_no_stock_is_overfull(seed):
    """With a cut between any two strips; and the bounds are never above the plan."""
    chance = random.Random(seed)
    job = strip_job(stock=chance.choice(((700,), (1000, 2440), (750, 1510, 2440))), kerf=3)
    schedule = strip_schedule(*(make_layout(chance, number) for number in range(1, 5)))
    plan = plan_strips(job, schedule, time_limit=20)
    lengths = {strip.number: strip.piece.length for strip in plan.strips}
    cuts = [cut for section in plan.cuts for cut in section.cuts]
    assert sorted(strip for cut in cuts for strip in cut.strips) == sorted(lengths)
    for cut in cuts:
        taken = sum(lengths[strip] for strip in cut.strips) + job.dams.kerf * (len(cut.strips) - 1)
        assert taken <= cut.stock
        assert cut.left == max(0, cut.stock - taken - job.dams.kerf)
    for section in plan.cuts:
        assert section.plan.bound <= section.plan.used == len(section.cuts)
        assert section.plan.length_bound <= section.plan.length


@pytest.mark.parametrize("liners", [1, 2, 3])
def test_a_calendar_has_as_many_re_sets_as_its_strips_tell(liners):
    """What the calendar counts as re-sets are the layings that follow other dams."""
    job, schedule, calendar = make_calendar(liners=liners)
    plan = plan_strips(job, schedule, calendar)
    assert job.dams == DamStock()
    assert len(plan.resets) == calendar.resets
