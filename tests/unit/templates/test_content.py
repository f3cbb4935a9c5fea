"""Templates: what is drawn of a layout, a dam, a panel, and where."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, change_panel, hand_job
from templates import drum_job, hand_layout, hand_template, long_dam_template

from nesting.drawings.record import Rect, bounds_of
from nesting.templates.content import (
    dam_template,
    panel_template,
    placed_panel_template,
)
from nesting.templates.fullsize import FullSize, on_face
from nesting.values.bend import bend_of
from nesting.values.castsizes import AsCast


def lines_of(template, style):
    """Return the bounds of every line of a style."""
    return [bounds_of([line]) for line in template.lines if line.style == style]


def words_of(template):
    """Return the longest words of every label."""
    return [label.words[0] for label in template.labels]


def test_a_layout_is_drawn_where_it_lies():
    """Rim, panels, dams, ornaments and zones lie at their liner coordinates, 1 mm for 1 mm."""
    template = hand_template()
    assert lines_of(template, "rim") == [Rect(0, 0, 1200, 800)]
    assert lines_of(template, "trace") == [Rect(0, 0, 800, 650), Rect(825, 0, 1200, 800)]
    assert lines_of(template, "strip") == [Rect(800, 0, 825, 800), Rect(0, 650, 800, 675)]
    assert lines_of(template, "ghost") == [Rect(300, 200, 520, 600)]
    assert len(lines_of(template, "zone")) == 2


def test_a_layout_names_what_is_on_it():
    """Dams with their set-out, panels with their size, ornaments and zones by name."""
    words = words_of(hand_template())
    assert "dam 1: x 800 to 825, y 0 to 800" in words
    assert "A1: 800 × 650" in words  # noqa: RUF001 - the sign
    assert {"heron", "blank zone east"} <= set(words)
    assert hand_template().marks


def test_a_mirrored_template_runs_the_other_way():
    """X changes sign, the datum's mark too; the words are the same."""
    plain, template = hand_template(), hand_template(FullSize(mirrored=True))
    assert lines_of(template, "trace")[0] == Rect(-800, 0, 0, 650)
    assert bounds_of(template.marks).x1 == pytest.approx(3.5)
    assert bounds_of(plain.marks).x0 == pytest.approx(-3.5)
    assert words_of(template) == words_of(plain)


def test_a_dam_shows_what_lies_within_a_hand_of_it():
    """Everything drawn is within 25 mm of the dam, which is drawn whole with its length."""
    template = long_dam_template()
    assert bounds_of(template.lines) == Rect(75, 625, 1125, 700)
    assert Rect(100, 650, 1100, 675) in lines_of(template, "strip")
    assert template.facts == ("Dam 2 is 1000 × 25 mm as drawn.",)  # noqa: RUF001 - the sign
    (dimension, *_) = lines_of(template, "leader")
    assert (dimension.x0, dimension.x1) == (100, 1100)


def test_an_upright_dam_has_its_length_beside_it():
    """The dimension line runs along y."""
    layout = hand_layout()
    template = dam_template(hand_job(), layout, layout.dams[0], FullSize())
    (dimension, *_) = lines_of(template, "leader")
    assert (dimension.y0, dimension.y1, dimension.x0) == (0, 800, 837)


def test_a_placed_panel_shows_what_it_holds():
    """The heron inside is drawn, size and diagonal are told."""
    layout = hand_layout()
    template = placed_panel_template(hand_job(), layout, layout.panels[0], FullSize())
    assert lines_of(template, "ghost") == [Rect(300, 200, 520, 600)]
    assert template.subject == "Panel A1 of layout 1, seen from above"
    assert "both diagonals measure 1031 mm scant" in template.facts[0]  # the root of 800² + 650²


def test_of_two_panels_alike_the_first_is_drawn_and_said():
    """The subject tells which."""
    layout = hand_layout()
    twice = replace(layout, panels=(layout.panels[0], replace(layout.panels[1], mark="A1")))
    template = placed_panel_template(hand_job(), twice, twice.panels[0], FullSize())
    assert template.subject == "Panel A1 of layout 1, the first of 2, seen from above"


def test_a_panel_alone_is_its_flat_outline():
    """On a drum of 3000 mm with 13 mm of liner a face of 800 mm is 796.5 mm flat."""
    job = drum_job()
    template = panel_template(job, job.panels[0], FullSize())
    (outline,) = lines_of(template, "trace")
    assert outline.width == pytest.approx(800 * 3000 / 3013, abs=1e-3)
    assert outline.height == 650
    assert "drawn flat" in template.notes[0]


def test_on_the_face_a_panel_has_the_size_ordered():
    """The curved axis is drawn as long as the bed makes it, and the sheet says so."""
    job = drum_job()
    size = on_face(bend_of(job, job.beds[0].name))
    template = panel_template(job, job.panels[0], size)
    (outline,) = lines_of(template, "trace")
    assert outline.width == pytest.approx(800, abs=1e-3)
    assert template.notes == ("Bed table: the developed FACE, x times 1.004333; not flat.",)
    layout = hand_template(size, job)
    assert lines_of(layout, "rim")[0].x1 == pytest.approx(1200 * 3013 / 3000, abs=1e-3)
    assert not any("x 800 to" in words for words in words_of(layout))


def test_a_turned_panel_has_its_star():
    """As on the masking layout."""
    layout = hand_layout()
    turned = replace(layout, panels=(replace(layout.panels[0], turned=True),))
    template = placed_panel_template(hand_job(), turned, turned.panels[0], FullSize())
    assert any(words.startswith("A1*:") for words in words_of(template))


def test_a_panel_s_outline_needs_no_ornament():
    """Only outline and dimensions are drawn."""
    job = change_panel(hand_job(), "A1", width=100 * MM, height=50 * MM)
    template = panel_template(job, job.panels[0], FullSize())
    assert {line.style for line in template.lines} == {"trace", "leader"}
    assert bounds_of(template.lines) == Rect(0, 0, 100, 50)


def test_a_panel_that_shrinks_is_drawn_as_cast():
    """A panel of 999 mm that shrinks by 1/1000 is drawn 1000 mm wide, and the sheet says so."""
    job = change_panel(hand_job(), "A1", width=999 * MM)
    job = replace(job, as_cast=AsCast(panel_shrink=Fraction(1, 1000)))
    template = panel_template(job, job.panels[0], FullSize())
    (outline,) = lines_of(template, "trace")
    assert outline.width == 1000
    assert template.notes[1] == "Panels are cast larger, as they shrink by 0.1 %."
