"""Strips against every width tried one by one, and what holds for all of them.

The trial knows nothing of choices, rows or programs: it widens the liner and asks the exact
position maps for a place of every size.
"""

import random
from dataclasses import replace
from functools import cache
from itertools import product
from math import prod

import pytest
from longcases import leave_long
from makemotifs import MM, give_order, grid_motif, small_motif

from nesting.errors import NoScheduleError
from nesting.maps.ground import survey
from nesting.maps.positions import has_place
from nesting.maps.sizes import wish_of
from nesting.shapes.geometry import Polygon, turn_over
from nesting.values.bend import bend_of
from nesting.values.motif import liner_size, make_job
from nesting.zones.count import count_casts
from nesting.zones.strips import plan_zones, prepare
from nesting.zones.trade import weigh_rubber

pytestmark = pytest.mark.long


SEEDS = (0, 1, 3, 4, 6, 7, 8, 9, 11)


def gives_all(motif, widths):
    """Whether every size has a place on the liner with strips of those widths."""
    job = make_job(motif, widths)
    ground = survey(job.liner, job.rules)
    return all(
        has_place(
            ground,
            *bend_of(job, panel.bed).flat_size(panel),
            wish_of(ground, panel),
        )
        for panel in job.panels
    )


def is_allowed(motif, widths):
    """Whether the widths keep the limits of the strips and of the liner."""
    names = [strip.name for strip in motif.strips]
    twins = all(
        not strip.as_wide_as or width == widths[names.index(strip.as_wide_as)]
        for strip, width in zip(motif.strips, widths, strict=True)
    )
    across, up = liner_size(motif, widths)
    return twins and across <= motif.greatest[0] and up <= motif.greatest[1]


def try_all(motif):
    """Return the least (area, strips in use) over all whole divisions, None where none does."""
    grid, found = motif.job.rules.set_out, []
    ranges = (range(-(-s.least // grid), s.greatest // grid + 1) for s in motif.strips)
    for counts in product(*ranges):
        widths = tuple(count * grid for count in counts)
        across, up = liner_size(motif, widths)
        found.append((across * up, sum(width > 0 for width in widths), widths))
    for area, used, widths in sorted(found):
        if is_allowed(motif, widths) and gives_all(motif, widths):
            return area, used
    return None


def answer(motif):
    """Return the least (area, strips in use) our search proves on whole divisions, or None."""
    try:
        found = plan_zones(prepare(motif))
    except NoScheduleError:
        return None
    if found.grid != motif.job.rules.set_out:
        return None
    assert is_allowed(motif, found.widths)
    assert gives_all(motif, found.widths)
    return found.area, sum(width > 0 for width in found.widths)


@cache
def answer_for(seed):
    """Return the answer for one small motif."""
    return answer(small_motif(seed))


@pytest.mark.parametrize("seed", leave_long(SEEDS, lambda seed: seed > 4))
def test_the_proved_least_is_what_trying_every_width_finds(seed):
    """Area and number of strips agree with full enumeration on a coarse grid."""
    assert answer_for(seed) == try_all(small_motif(seed))


@pytest.mark.long
def test_the_trials_have_answers_and_refusals_of_several_kinds():
    """Among the motifs tried some have an answer, equal strips, drawn zones, blank ground."""
    motifs = [small_motif(seed) for seed in SEEDS]
    assert sum(answer_for(seed) is not None for seed in SEEDS) > len(motifs) // 2
    assert any(strip.as_wide_as for motif in motifs for strip in motif.strips)
    assert any(motif.job.liner.zones for motif in motifs)
    assert {motif.job.liner.unmarked for motif in motifs} == {"detail", "blank"}
    assert any(panel.must_hide for motif in motifs for panel in motif.job.panels)


def try_trade(motif, needs):
    """Return (area, casts) of the first liner by our order, then of all that nothing beats."""
    grid, found = motif.job.rules.set_out, []
    ranges = (range(-(-s.least // grid), s.greatest // grid + 1) for s in motif.strips)
    for counts in product(*ranges):
        widths = tuple(count * grid for count in counts)
        if is_allowed(motif, widths) and all(need.ways_met(motif, widths) for need in needs):
            area, used = prod(liner_size(motif, widths)), sum(width > 0 for width in widths)
            found.append((area, used, count_casts(motif, widths).casts))
    kept = [min(found)[::2]]
    for area, _, casts in sorted(found, key=lambda each: (each[0], each[2])):
        if casts < kept[-1][1]:
            kept.append((area, casts))
    return kept


@pytest.mark.parametrize(("seed", "miss"), leave_long([(3, 0), (17, 2), (12, 0)], (17, 2).__eq__))
def test_the_trade_is_what_counting_casts_on_every_liner_finds(seed, miss):
    """Every liner that nothing beats is offered, each is proved, and that these are all."""
    motif = replace(small_motif(seed), lay_tolerance=miss * MM)
    setting = prepare(motif)
    trade = weigh_rubber(setting, plan_zones(setting))
    expected = try_trade(motif, setting.needs)
    assert len(expected) > 1
    assert [(offer.zoning.area, offer.casts) for offer in trade.offers] == expected
    assert trade.casts_proved
    assert trade.is_complete


@pytest.mark.parametrize("seed", [1, 2])
def test_more_to_serve_never_takes_less_liner(seed):
    """One size less or a larger limit never asks for more, a lay tolerance never for less."""
    motif = grid_motif(seed, 3, 2, 4)
    area = plan_zones(prepare(motif)).area
    fewer = replace(motif, job=replace(motif.job, panels=motif.job.panels[:-1]))
    wider = replace(motif, greatest=tuple(side + 50 * MM for side in motif.greatest))
    assert plan_zones(prepare(fewer)).area <= area
    assert plan_zones(prepare(wider)).area <= area
    careful = answer(replace(motif, lay_tolerance=1 * MM))
    assert careful is None or careful[0] >= area


@pytest.mark.parametrize("seed", [1, 2])
def test_exchanging_the_axes_changes_no_area(seed):
    """The motif turned over its diagonal needs as much liner and as many strips."""
    motif = grid_motif(seed, 3, 2, 4)
    assert answer(turned(motif)) == answer(motif)


@pytest.mark.parametrize(("kind", "is_exact"), [("detail", True), ("blank", False)])
def test_slanted_ornaments_never_make_the_proof_claim_too_much(kind, is_exact):
    """Where less is found by trying every width on true outlines, the answer says it is not proved.

    On detail with no strip near, nothing is lost.
    """
    motif = slanted(grid_motif(0, 2, 1, 0, division=20, unmarked=kind))
    strips = tuple(replace(strip, greatest=40 * MM) for strip in motif.strips)
    motif = give_order(random.Random(0), replace(motif, strips=strips), 2)
    found = plan_zones(prepare(motif))
    least = try_all(motif)[0]
    assert found.is_exact == is_exact
    assert found.area == least if is_exact else found.area > least


def slanted(motif):
    """Return the motif with each ornament a diamond in its box."""
    ornaments = []
    for each in motif.job.liner.ornaments:
        x0, y0, x1, y1 = each.outline.bounds
        x, y = (x0 + x1) // 2, (y0 + y1) // 2
        diamond = Polygon(((x, y0), (x1, y), (x, y1), (x0, y)))
        ornaments.append(replace(each, outline=diamond))
    liner = replace(motif.job.liner, ornaments=tuple(ornaments))
    return replace(motif, job=replace(motif.job, liner=liner))


def turned(motif):
    """Return the motif with x and y exchanged."""
    liner = motif.job.liner
    ornaments = tuple(replace(o, outline=turn_over(o.outline)) for o in liner.ornaments)
    liner = replace(liner, outline=turn_over(liner.outline), ornaments=ornaments)
    panels = tuple(replace(p, width=p.height, height=p.width) for p in motif.job.panels)
    strips = tuple(replace(s, axis="y" if s.axis == "x" else "x") for s in motif.strips)
    job = replace(motif.job, liner=liner, panels=panels)
    return replace(motif, job=job, strips=strips, greatest=motif.greatest[::-1])
