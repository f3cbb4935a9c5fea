"""A liner measured from its datum corner: papers, figures, and the ground names keep off."""

from dataclasses import replace

import pytest
from handjob import hand_job, hand_schedule

from nesting.drawings.key import key_rows
from nesting.drawings.measured import keep_clear, measured_sheets, scale_cells
from nesting.drawings.ordinates import measure_faces
from nesting.drawings.record import Rect, Text
from nesting.drawings.terrain import frame_of


@pytest.fixture(params=["mm", "in"])
def job(request):
    """Return the hand-sized job in either units."""
    return replace(hand_job(), units=request.param)


def sheets(job):
    """Return every sheet of the first layout with its figures."""
    layout = hand_schedule().layouts[0]
    frame = frame_of(job)
    across, up = measure_faces(job, layout, frame)
    key = key_rows(job, layout, [], list_panels=False, list_places=False)
    return list(measured_sheets(job.units, frame, across, up, key))


def test_papers_grow_and_hold_all_figures(job):
    """The smallest comes first, and every figure lies within the ground of its sheet."""
    found = sheets(job)
    areas = [sheet.width * sheet.height for sheet, _ in found]
    assert areas == sorted(areas)
    assert len(areas) > 1
    for sheet, figures in found:
        words = [shape for row in figures for shape in row if isinstance(shape, Text)]
        assert len(words) >= 6
        assert all(sheet.ground.holds(text.rect) for text in words)


def test_names_keep_off_figures_the_datum_ornaments_and_the_rim(job):
    """No name may stand on the first two; standing on the others, or on a witness line, costs."""
    sheet, figures = sheets(job)[0]
    ornament = job.liner.ornaments[0].outline
    taken = keep_clear(sheet.view, figures, job.liner.outline, [ornament])
    number = next(shape for row in figures for shape in row if isinstance(shape, Text))
    assert not taken.is_free(number.rect)
    x, y = sheet.view.at((0, 0))
    assert not taken.is_free(Rect(x - 2, y - 2, x, y))
    assert taken.cost(sheet.view.rect(ornament.bounds).grown(0.1)) >= 12
    rim = sheet.view.rect(job.liner.outline.bounds)
    above = Rect(rim.x0 + 60, rim.y1 - 1, rim.x0 + 61, rim.y1 + 1)
    assert taken.cost(above) == 12 + 0.5  # the witness line of the rim's own figure lies on it


def test_the_title_tells_the_scale_and_what_figures_are_in(job):
    """In an inch job whose figures have millimetres beside them it says so."""
    sheet = replace(sheets(job)[0][0], wide=True)
    words = {"mm": "Figures in mm", "in": "Figures in inches (mm)"}[job.units]
    assert scale_cells(job, sheet) == [sheet.scale_words, words]
