"""Running dimensions: every dam face has its figure, and no leader crosses another."""

from dataclasses import replace

import pytest
from drawjobs import CASES, make_drum_job, make_drum_schedule
from ferry import MM, make_ferry_job, make_ferry_schedule

from nesting.drawings.ordinates import longest, measure_faces, pitch
from nesting.drawings.terrain import frame_of
from nesting.values.casts import Dam


def measured(job, layout):
    """Return (value in mm, bold) of each figure along x and along y."""
    rows = measure_faces(job, layout, frame_of(job))
    return tuple([(figure.value / MM, figure.is_panel_edge) for figure in row] for row in rows)


def test_the_ferry_job_by_hand():
    """Faces, datum and rim once each; where panel A1 ends the figure is bold."""
    across, up = measured(make_ferry_job(), make_ferry_schedule().layouts[0])
    assert across == [(0, True), (1500, True), (1525, False), (2400, False)]
    assert up == [(0, True), (900, True), (925, False), (1200, False)]


def test_a_face_shared_by_dams_has_one_figure():
    """Two dams with a face in line share its figure, which reaches over both."""
    job, layout = make_ferry_job(), make_ferry_schedule().layouts[0]
    dams = (*layout.dams, Dam("dam 3", 1500 * MM, 1000 * MM, 25 * MM, 100 * MM))
    across, _ = measure_faces(job, replace(layout, dams=dams), frame_of(job))
    shared = next(figure for figure in across if figure.value == 1500 * MM)
    assert shared.reach == (0, 1100 * MM)
    assert sum(figure.value == 1500 * MM for figure in across) == 1


@pytest.mark.parametrize("case", CASES)
def test_every_face_of_every_dam_is_measured(case):
    """The figures along x and y hold every dam face, the datum and the ends of the liner."""
    job, schedule = CASES[case]()
    layout, rim = schedule.layouts[-1], job.liner.outline.bounds
    across, up = measure_faces(job, layout, frame_of(job))
    wanted_across = {x for dam in layout.dams for x in (dam.box.x0, dam.box.x1)}
    wanted_up = {y for dam in layout.dams for y in (dam.box.y0, dam.box.y1)}
    assert [figure.value for figure in across] == sorted({*wanted_across, 0, rim.x0, rim.x1})
    assert [figure.value for figure in up] == sorted({*wanted_up, 0, rim.y0, rim.y1})


def test_the_room_asked_for_is_that_of_the_longest_figure():
    """A fraction is longer than a whole number, and its stroke hangs, so the pitch grows."""
    job, layout = make_drum_job(), make_drum_schedule().layouts[0]
    across, up = measure_faces(job, layout, frame_of(job))
    ferry = make_ferry_job()
    plain = measure_faces(ferry, make_ferry_schedule().layouts[0], frame_of(ferry))[0]
    assert longest(across) > longest(plain) > 5
    assert pitch((*across, *up)) > pitch(plain) > 3.5
