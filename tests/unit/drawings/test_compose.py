"""The composer: what is alike on all sheets, and which paper and key a picture takes."""

from dataclasses import replace

import pytest
from handjob import hand_job, hand_schedule

from nesting.drawings.compose import Head, Painted, Picture, compose, lay_out, start_names
from nesting.drawings.key import KeyRow
from nesting.drawings.legend import key_rows
from nesting.drawings.ordinates import measure_faces
from nesting.drawings.record import Layer, Rect, Text
from nesting.drawings.sheet import Page
from nesting.drawings.terrain import frame_of


@pytest.fixture(params=["mm", "in"])
def job(request):
    """Return the hand-sized job in either units."""
    return replace(hand_job(), units=request.param)


def picture(job, **changes):
    """Return the first layout of the job as a picture."""
    layout = hand_schedule().layouts[0]
    frame = frame_of(job)
    head = Head("trial", "Trial", "A trial.", job.units, (("Trial", "of a picture"),))
    key = key_rows(job, layout, [], list_panels=False, list_places=False)
    return replace(Picture(head, frame, (key,), *measure_faces(job, layout, frame)), **changes)


def papers(job, unplaced=lambda sheet: 1, **changes):
    """Return every sheet tried with its figures, and the drawing that came of them."""
    tried = []

    def paint(sheet, figures):
        tried.append((sheet, figures))
        return Painted((Layer("art", ()),), unplaced(sheet))

    return tried, compose(picture(job, **changes), paint)


def strip_words(drawing):
    """Return the words of the title strip."""
    (strip,) = (layer for layer in drawing.layers if layer.name == "strip")
    return [shape.words for shape in strip.shapes if isinstance(shape, Text)]


def test_papers_grow_and_hold_all_figures(job):
    """The smallest comes first, and every figure lies within the ground of its sheet."""
    tried, _ = papers(job)
    areas = [sheet.width * sheet.height for sheet, _ in tried]
    assert areas == sorted(areas)
    assert len(areas) > 1
    for sheet, figures in tried:
        words = [shape for row in figures for shape in row if isinstance(shape, Text)]
        assert len(words) >= 6
        assert all(sheet.ground.holds(text.rect) for text in words)


def test_the_first_paper_with_room_for_every_name_is_taken(job):
    """Else the one that has most, the largest of those; a few may be missing where told so."""
    tried, drawing = papers(job, lambda sheet: 0)
    assert len(tried) == 1
    assert (drawing.width, drawing.height) == (tried[0][0].width, tried[0][0].height)
    sizes = iter((3, 1, 1, 2))
    tried, drawing = papers(job, lambda sheet: next(sizes))
    assert (len(tried), drawing.width) == (4, tried[2][0].width)
    sizes = iter((3, 2, 1, 0))
    tried, _ = papers(job, lambda sheet: next(sizes), may_miss=2)
    assert len(tried) == 2


def test_full_and_scant_are_explained_under_the_figures_of_the_key(job):
    """Where some figure has either, and nowhere else."""
    _, drawing = papers(job, lambda sheet: 0)
    words = [text.words for text in drawing.texts]
    across = picture(job).across
    has_some = any(figure.words.endswith((" full", " scant")) for figure in across)
    assert ("full: a little more" in words) == has_some == (job.units == "in")
    if has_some:
        at = words.index("Other dam face, rim")
        assert words[at + 1 : at + 3] == ["full: a little more", "scant: a little less"]


def test_the_longer_key_is_taken_where_something_finds_no_room(job):
    """What has no room on the drawing is then in the key."""
    short, long = (KeyRow(("short",)),), (KeyRow(("short",)), KeyRow(("long",)))
    drawing = compose(
        picture(job, keys=(short, long)),
        lambda sheet, figures: Painted((), unlisted=1),
    )
    assert {"short", "long"} <= {text.words for text in drawing.texts}
    drawing = compose(picture(job, keys=(short, long)), lambda sheet, figures: Painted(()))
    assert "long" not in {text.words for text in drawing.texts}


def test_layers_lie_between_the_sheet_and_the_key(job):
    """The strip is last; a page without a key has none."""
    names = [layer.name for layer in papers(job)[1].layers]
    assert names == ["sheet", "art", "key", "strip"]
    page = lay_out(picture(job).head, Page("A3", 420, 297), [Layer("art", ())])
    assert [layer.name for layer in page.layers] == ["sheet", "art", "strip"]
    assert strip_words(page) == ["Trial", "of a picture"]


def test_the_strip_tells_the_scale_and_what_figures_are_in(job):
    """Without figures it says nothing of them."""
    tried, drawing = papers(job, lambda sheet: 0)
    words = {"mm": "Figures in mm", "in": "Figures in inches"}
    assert {tried[0][0].scale_words, words[job.units]} <= set(strip_words(drawing))
    _, drawing = papers(job, across=(), up=())
    assert not [each for each in strip_words(drawing) if each.startswith("Figures")]


def test_names_keep_off_figures_the_datum_ornaments_and_the_rim(job):
    """No name may stand on the first two; standing on the others, or on a witness line, costs."""
    sheet, figures = papers(job)[0][0]
    ornament = job.liner.ornaments[0].outline
    taken = start_names(sheet, figures, job.liner.outline, [ornament], 0.0).taken
    number = next(shape for row in figures for shape in row if isinstance(shape, Text))
    assert not taken.is_free(number.rect)
    x, y = sheet.view.at((0, 0))
    assert not taken.is_free(Rect(x - 2, y - 2, x, y))
    assert taken.cost(sheet.view.rect(ornament.bounds).grown(0.1)) >= 12
    rim = sheet.view.rect(job.liner.outline.bounds)
    above = Rect(rim.x0 + 60, rim.y1 - 1, rim.x0 + 61, rim.y1 + 1)
    assert taken.cost(above) == 12 + 0.5  # the witness line of the rim's own figure lies on it
