"""A re-set drawn."""

from dataclasses import replace
from fractions import Fraction

from handjob import MM
from stripjobs import ONE, lay, strip_job, strip_schedule, three_sets

from nesting.drawings.record import Area, Line
from nesting.strips.plan import plan_strips
from nesting.strips.sheet import draw_reset
from nesting.values.bed import Bed


def draw(schedule, number=1, job=None):
    """Return the sheet of one re-set."""
    job = job or strip_job()
    plan = plan_strips(job, schedule)
    return draw_reset(job, plan, plan.resets[number - 1])


def layer(drawing, name):
    """Return the shapes of a layer."""
    (found,) = [each.shapes for each in drawing.layers if each.name == name]
    return found


def count(drawing, name, style):
    """Return how many areas or lines of a style a layer has."""
    return sum(getattr(shape, "style", "") == style for shape in layer(drawing, name))


def words(drawing):
    """Return all texts of a drawing."""
    return [text.words for text in drawing.texts]


def test_old_dams_are_light_and_new_ones_dark():
    """What stays is grey; old places keep a dashed rim over what lies there now."""
    drawing = draw(three_sets())
    assert count(drawing, "old-dams", "old_dam") == 2
    assert count(drawing, "dams", "old_dam") == 2
    assert count(drawing, "dams", "staying_dam") == 1
    assert count(drawing, "dams", "dam") == 2


def test_an_arrow_leads_from_here_to_there():
    """From the middle of the old place to the rim of the new one, its head at the end."""
    drawing = draw(three_sets())
    line, head = layer(drawing, "moves")
    assert isinstance(line, Line)
    assert isinstance(head, Area)
    assert line.points[0][1] == line.points[1][1] == head.rings[0][0][1]
    assert line.points[0][0] < line.points[1][0] < head.rings[0][0][0]


def test_every_strip_is_named_and_listed():
    """On the drawing where it lies, or lay; in the key what becomes of it."""
    told = words(draw(three_sets()))
    assert {f"strip {n}" for n in (1, 2, 3, 4)} <= set(told)
    assert {
        "strip 1: dam 1",
        "strip 2: dam 2 to dam 2, 200 right",
        "strip 3: dam 3",
        "strip 4: dam 3, 400 × 25",  # noqa: RUF001 - the sign
    } <= set(told)
    assert {"These stay", "These move", "These go to the store", "These are new"} <= set(told)
    assert "These come from the store" not in told


def test_only_dams_laid_now_have_figures():
    """What stays is measured again, and needs no marks."""
    figures = [
        text.words for text in layer(draw(three_sets()), "dimensions") if hasattr(text, "words")
    ]
    assert {"1000", "1025", "500", "525"} <= set(figures)
    assert not {"650", "675"} & set(figures)


def test_the_strip_says_which_re_set_it_is():
    """Number, layouts, casts and that it is seen from above."""
    told = words(draw(three_sets(), 2))
    assert {"Re-set 2 of 2", "Layout 2 to layout 3", "Cast 4"} <= set(told)
    assert any(each.startswith("Seen from above.") for each in told)


def test_a_re_set_that_lifts_all_dams_is_drawn():
    """Where the next layout has none."""
    drawing = draw(strip_schedule(ONE, lay(2)))
    assert count(drawing, "old-dams", "old_dam") == 3
    assert layer(drawing, "moves") == ()


def test_on_a_curved_bed_the_size_to_cut_is_that_of_the_foot():
    """And it is told that figures are flat."""
    bed = Bed("table", "convex", 3000 * MM, "x", Fraction(1, 2))
    job = replace(strip_job(), beds=(bed,))
    told = words(draw(strip_schedule(lay(1), lay(2, (0, 650, 800, 25))), job=job))
    assert "strip 1: dam 1, 802 scant × 25" in told  # noqa: RUF001 - the sign
    assert any(each.startswith("Curved bed") for each in told)
