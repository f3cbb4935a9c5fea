"""One panel at its best place on the liner, with every place it could take, as a drawing."""

from dataclasses import replace

from nesting.drawings.masking import Trial, draw_layout
from nesting.drawings.record import Area, Drawing, Layer, Line
from nesting.drawings.view import View
from nesting.fitting.answer import Fit, Seated
from nesting.maps.places import outline_places
from nesting.planning.dams import account
from nesting.schedules.setout import order_words
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job


def draw_fit(job: Job, fit: Fit, seated: Seated, name: str) -> Drawing:
    """Return the sheet of a size that has a place; ``name`` is that of the drawing."""
    size = order_words(job, fit.panel)
    spot = seated.placement
    layout = Layout(
        1, 1, fit.bed.name, (spot,), seated.dams, account(job.liner, [spot], seated.dams)
    )
    schedule = Schedule(job.title, 0, (layout,))
    words = f"Size {size}", "Trial of one size"
    trial = Trial(words, lambda view: _places(seated, view))
    drawing = draw_layout(replace(job, panels=(fit.panel,)), schedule, layout, trial)
    return replace(drawing, name=name, title=f"{job.liner.name}: size {size}")


def _places(seated: Seated, view: View) -> Layer:
    """Return the places of the panel's lower left corner."""
    places = outline_places(seated.map)
    rings = [view.rings(polygon) for polygon in places.areas]
    return Layer(
        "places",
        (
            *(Area(each, "place") for each in rings),
            *(Line((*ring, ring[0]), "place") for each in rings for ring in each),
            *(Line((view.at(a), view.at(b)), "place") for a, b in places.stretches),
        ),
    )
