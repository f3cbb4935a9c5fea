"""Areas as the checker reckons them, on outlines with slanted sides."""

from dataclasses import replace

from handjob import MM, hand_job

from nesting.checking.areas import liner_area, write_mm2
from nesting.shapes.geometry import Polygon


def job_on(shell, *holes):
    """Return the hand-sized job on a liner of that outline [mm]."""
    rings = [tuple((x * MM, y * MM) for x, y in ring) for ring in (shell, *holes)]
    job = hand_job()
    return replace(job, liner=replace(job.liner, outline=Polygon(rings[0], tuple(rings[1:]))))


def test_a_triangle_away_from_the_corner_has_its_area_less_that_of_its_hole():
    """300 x 400 mm of box less three corners are 55000 mm2; a square hole takes 100 mm2."""
    triangle = ((100, 100), (400, 200), (200, 500))
    hole = ((200, 210), (210, 210), (210, 200), (200, 200))
    assert liner_area(job_on(triangle)) == 55_000 * MM**2
    assert liner_area(job_on(triangle, hole)) == 54_900 * MM**2


def test_an_area_is_told_in_mm2_without_needless_zeros():
    """A square step is less than is shown."""
    assert write_mm2(3 * MM**2 // 2) == "1.5 mm2"
    assert write_mm2(100 * MM**2 + 1) == "100 mm2"
