"""Slopes: the search is exact on axis-parallel ground and bracketed elsewhere."""

from dataclasses import replace

import pytest
from handjob import MM, hand_job, rect, sides
from smalljobs import small_job
from tinysheets import casts_of

from nesting.maps.ground import survey
from nesting.maps.layers import layer_map
from nesting.maps.positions import Wish
from nesting.maps.sizes import choose_size
from nesting.planning import slopes
from nesting.planning.slopes import LAYER_STEPS, search_casts, seat_at
from nesting.planning.strips import strip_rule
from nesting.search.solver import Deadline, silent
from nesting.shapes.geometry import Polygon
from nesting.values.bend import bend_of
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament
from nesting.values.panels import Panel

RULES = Rules(dam_width=25 * MM, dam_clearance=6 * MM, edge_margin=12 * MM, set_out=MM)


def search(ground, sizes, deadline, report):
    """Return the places searched, the schedule on them and its proof."""
    found = search_casts(ground, sizes, strip_rule(ground.rules), deadline, report)
    return found.instance, found.answer, found.certificate


def ring(*points):
    """Return a polygon of points in mm."""
    return Polygon(tuple((round(x * MM), round(y * MM)) for x, y in points))


def searched(liner, *panels, limit=None, rules=RULES, report=silent):
    """Return the ground, sizes and what the search gives for panels (width, height, quantity)."""
    ground = survey(liner, rules)
    bend = bend_of(hand_job(), "table")
    order = [
        Panel(f"P{k}", round(w * MM), round(h * MM), quantity, "table")
        for k, (w, h, quantity) in enumerate(panels)
    ]
    sizes = [choose_size(ground, panel, bend) for panel in order]
    return ground, sizes, search(ground, sizes, Deadline(limit), report)


LEAVES = (
    ring((60, 250), (120, 240), (150, 300), (90, 330)),
    ring((330, 40), (390, 55), (350, 110)),
)


def leafy():
    """Return plain ground 600 x 400 with two leaves."""
    ornaments = tuple(Ornament(f"leaf {k}", leaf) for k, leaf in enumerate(LEAVES))
    return Liner("reeds", rect(0, 0, 600, 400), 13 * MM, "blank", ornaments)


def check_answer(sizes, instance, answer):
    """Assert that every bay is on its map, no two conflict, and the demand is met."""
    yields = [0] * len(sizes)
    for repeats, layout in answer.layouts:
        boxes = [instance.boxes[bay] for bay in layout]
        for bay in layout:
            item = int(instance.owner[bay])
            x, y = (int(v) for v in instance.boxes[bay, :2])
            assert sizes[item].map.sheet_at(x, y) is not None
            yields[item] += repeats
        for n, (ax0, ay0, ax1, ay1) in enumerate(boxes):
            for bx0, by0, bx1, by1 in boxes[:n]:
                assert ax1 <= bx0 or bx1 <= ax0 or ay1 <= by0 or by1 <= ay0
    assert all(got >= size.panel.quantity for got, size in zip(yields, sizes, strict=True))


def test_the_hand_sized_job_needs_two_casts():
    """Its ground is stepped, so the proof is that of the answer itself."""
    job = hand_job()
    ground = survey(job.liner, job.rules)
    sizes = [choose_size(ground, panel, bend_of(job, "table")) for panel in job.panels]
    instance, answer, certificate = search(ground, sizes, Deadline(), silent)
    check_answer(sizes, instance, answer)
    assert casts_of(answer) == 2
    assert certificate == answer.certificate
    assert (certificate.bound, answer.layouts_bound) == (2, 2)


def test_leaves_are_answered_with_real_places():
    """Between narrow and wide layers the bound meets the schedule here."""
    ground, sizes, (instance, answer, certificate) = searched(leafy(), (150, 120, 4), (200, 90, 3))
    assert not ground.is_stepped
    check_answer(sizes, instance, answer)
    assert certificate.bound == casts_of(answer)
    assert 1 <= answer.layouts_bound <= len(answer.layouts)


def test_a_slope_leaves_room_that_its_box_would_not():
    """A panel 150 square lies in the far corner of 300, its dam's corner beyond the slope."""
    triangle = ring((0, 0), (200, 0), (0, 200))
    wedge = Liner("wedge", rect(0, 0, 300, 300), 13 * MM, "blank", (Ornament("w", triangle),))
    boxed = replace(wedge, ornaments=(Ornament("w", rect(0, 0, 200, 200)),))
    _, sizes, (instance, answer, certificate) = searched(wedge, (150, 150, 2))
    check_answer(sizes, instance, answer)
    assert (casts_of(answer), certificate.bound) == (2, 2)
    (size,) = sizes
    assert choose_size(survey(boxed, RULES), size.panel, bend_of(hand_job(), "table")) is None


def test_rectangles_told_as_slanted_ground_need_as_many_casts():
    """One leaf too small to matter sends a stepped job between the layers; the count stays."""
    for seed in range(2):
        job = small_job("islands", seed, sizes=2, most=3)
        ground = survey(job.liner, job.rules)
        sizes = [choose_size(ground, panel, bend_of(job, "table")) for panel in job.panels]
        _, exact, _ = search(ground, sizes, Deadline(), silent)
        x0, y0, *_ = job.liner.ornaments[0].outline.bounds
        speck = Polygon(((x0, y0), (x0 + MM, y0), (x0, y0 + MM)))
        liner = replace(job.liner, ornaments=(*job.liner.ornaments, Ornament("speck", speck)))
        slanted = survey(liner, job.rules)
        assert not slanted.is_stepped
        sizes = [choose_size(slanted, panel, bend_of(job, "table")) for panel in job.panels]
        instance, answer, certificate = search(slanted, sizes, Deadline(), silent)
        check_answer(sizes, instance, answer)
        assert certificate.bound <= casts_of(exact) <= casts_of(answer)
        assert certificate.bound == casts_of(answer)


@pytest.mark.parametrize("limit", [0, 0.001])
def test_no_time_still_gives_an_answer_and_an_honest_bound(limit):
    """On slanted as on stepped ground."""
    order = (150, 120, 4), (200, 90, 3)
    _, sizes, (instance, answer, certificate) = searched(leafy(), *order, limit=limit)
    check_answer(sizes, instance, answer)
    assert answer.stopped_early
    _, _, (_, full, _) = searched(leafy(), *order)
    assert certificate.bound <= casts_of(full) <= casts_of(answer)


def test_the_search_reports_its_progress():
    """One line at a time, while there is something to search."""
    lines = []
    searched(leafy(), (150, 120, 4), (200, 90, 3), report=lines.append)
    assert lines
    assert all("casts, " in line and "at least " in line for line in lines)


def test_a_seat_is_a_panel_put_down():
    """With its flat size, its change from the order and no ornament listed yet."""
    ground = survey(leafy(), RULES)
    size = choose_size(
        ground, Panel("P", 150 * MM, 120 * MM, 1, "table"), bend_of(hand_job(), "table")
    )
    size = replace(size, off_nominal=(3, -4))
    seat = seat_at(size, 25 * MM, 30 * MM, sides("lrbt"))
    spot = seat.placement
    assert (spot.mark, spot.x, spot.y) == ("P", 25 * MM, 30 * MM)
    assert (spot.width, spot.height, spot.off_nominal) == (150 * MM, 120 * MM, (3, -4))
    assert spot.shows == ()
    assert seat.wish == Wish()
    assert seat.sheet.sides == sides("lrbt")


def test_layers_grow_finer_until_bound_and_schedule_meet(monkeypatch):
    """From 8 mm to 1/4 mm, narrow ones and wide ones in turn; after the first where they meet."""
    assert [step / MM for step in LAYER_STEPS] == [8, 2, 0.5, 0.25]
    tried = []

    def layered(panel_map, step, *, wide):
        tried.append((step / MM, wide))
        return layer_map(panel_map, step, wide=wide)

    monkeypatch.setattr(slopes, "layer_map", layered)
    _, sizes, (instance, answer, _) = searched(leafy(), (150, 120, 2))
    assert tried == [(8, False), (8, True)]
    tried.clear()
    monkeypatch.setattr(slopes._Bracket, "is_closed", False)
    searched(leafy(), (150, 120, 2), rules=replace(RULES, other_widths=True))
    assert tried == [(step, wide) for step in (8, 2, 0.5, 0.25) for wide in (False, True)]
    check_answer(sizes, instance, answer)
