"""Areas as a schedule file gives them: mm2 to six decimals, and back to the square step.

A square step is finer than six decimals can tell. Rounded figures are made to add up as the exact
ones do, and reading takes the exact area that geometry gives wherever it rounds to the figure
written, so that what was written reads back equal.
"""

from collections.abc import Mapping

from nesting.units import STEPS_PER_MM
from nesting.values.casts import Areas, Schedule

MILLIONTHS = 1_000_000
"""Areas are counted in millionths of a mm2 here: how many there are in one."""

_SQUARE_STEPS = STEPS_PER_MM**2 // MILLIONTHS  # in a millionth of a mm2
_TOTALS = {"liner_area": "liner", "panel_area": "panels", "idle_area": "idle"}


def round_areas(areas: Areas) -> dict[str, int]:
    """Return the area account of a cast [millionths of a mm2] with its idle area.

    >>> round_areas(Areas(liner=6400, panels=3232, dams=32, masked=3136))
    {'liner': 100, 'panels': 51, 'dams': 1, 'masked': 48, 'idle': 49}
    """
    liner, panels, dams = (_round(area) for area in (areas.liner, areas.panels, areas.dams))
    amiss = areas.masked - (areas.liner - areas.panels - areas.dams)
    masked = liner - panels - dams + _round(amiss)
    parts = {"liner": liner, "panels": panels, "dams": dams, "masked": masked}
    return parts | {"idle": dams + masked}


def exact_areas(rounded: Mapping[str, int], geometry: Mapping[str, int]) -> Areas:
    """Return the account [square steps] that rounds to the figures given.

    ``geometry`` is the area of liner, panels and dams [square steps] as their sizes give it: the
    account's own wherever it rounds to the figure given.
    """
    liner, panels, dams = (
        geometry[part] if _round(geometry[part]) == rounded[part] else exact_area(rounded[part])
        for part in ("liner", "panels", "dams")
    )
    amiss = rounded["masked"] - (rounded["liner"] - rounded["panels"] - rounded["dams"])
    return Areas(liner, panels, dams, liner - panels - dams + exact_area(amiss))


def round_totals(schedule: Schedule) -> dict[str, int]:
    """Return the totals of the rounded accounts of all casts [millionths of a mm2]."""
    rounded = [(layout.repeats, round_areas(layout.areas)) for layout in schedule.layouts]
    return {
        key: sum(repeats * areas[part] for repeats, areas in rounded)
        for key, part in _TOTALS.items()
    }


def exact_area(millionths: int) -> int:
    """Return an area [square steps] given in millionths of a mm2."""
    return millionths * _SQUARE_STEPS


def area_number(millionths: int) -> int | float:
    """Return an area as a number of mm2, whole where it can be."""
    whole, over = divmod(millionths, MILLIONTHS)
    return millionths / MILLIONTHS if over else whole


def _round(square_steps: int) -> int:
    return (square_steps + _SQUARE_STEPS // 2) // _SQUARE_STEPS
