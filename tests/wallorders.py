"""Orders for small walls, with schedules that cast them."""

from dataclasses import replace

from handjob import MM, liner_of, rect, sides

from nesting.values.casts import Areas, Layout, Placement, Schedule
from nesting.values.job import Job, Rules
from nesting.walls.cladding import divide_wall, order_of

LEAF = rect(20, 100, 60, 300)


def order_wall(wall):
    """Return a job that orders what a wall takes, and a schedule that casts it at two places.

    Panels of a mark show the leaf near their left, or 10 mm further to it, turn by turn.
    """
    beds, panels = order_of(wall, divide_wall(wall))
    liner = replace(liner_of(rect(0, 0, 9000, 9000), ornaments=[LEAF]), thickness=25 * MM)
    job = Job("order", "mm", liner, Rules(MM, 0, 0, MM), beds, tuple(panels))
    places = [
        Placement(panel.mark, x * MM, 0, panel.width, panel.height, sides("lrbt"), ("leaf 0",))
        for panel in panels
        for x in (0, 10)
    ]
    layout = Layout(1, 100, "flat", tuple(places), (), Areas(0, 0, 0, 0))
    return job, Schedule("order", 1, (layout,))
