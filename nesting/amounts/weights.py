"""What panels weigh, from their true face area on the bed: face coat and backing, wet and cured.

Face coat and backing lie on the face at even thickness. An ornament that is a boss on the panel
adds flat area x relief x fill to the backing, on the face's scale; a hollow takes as much away.
Liner and panel are opposite: what stands out of the liner is a hollow in the panel.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import astuple, dataclass
from fractions import Fraction

from nesting.errors import InputError, InputErrors
from nesting.masses import STEPS_PER_M
from nesting.values.bend import bend_of
from nesting.values.casts import Layout, Placement, Schedule
from nesting.values.job import Job
from nesting.values.liner import Ornament
from nesting.values.panels import Panel


@dataclass(frozen=True, slots=True)
class Weight:
    """Face coat and backing apart, wet and cured [kg]."""

    face_wet: Fraction = Fraction(0)
    backing_wet: Fraction = Fraction(0)
    face_cured: Fraction = Fraction(0)
    backing_cured: Fraction = Fraction(0)

    @property
    def wet(self) -> Fraction:
        """The whole, freshly cast."""
        return self.face_wet + self.backing_wet

    @property
    def cured(self) -> Fraction:
        """The whole, cured."""
        return self.face_cured + self.backing_cured

    @property
    def heaviest(self) -> Fraction:
        """The greater of the two: what is reckoned with when a panel is handled."""
        return max(self.wet, self.cured)

    def times(self, count: int) -> Weight:
        """Return the weight of so many."""
        return Weight(*(count * part for part in astuple(self)))


@dataclass(frozen=True, slots=True)
class PanelWeight:
    """One panel as cast, with the true area of its face [m2].

    ``least`` is what its deepest hollow leaves of its ``thickness`` [steps]; ``deepest`` names that
    ornament, empty where there is none. ``shows`` are the ornaments on the panel.
    """

    mark: str
    shows: tuple[str, ...]
    thickness: int
    least: int
    deepest: str
    face_area: Fraction
    weight: Weight


@dataclass(frozen=True, slots=True)
class PanelRow:
    """Panels of one mark that weigh the same: how many, and in which layouts."""

    panel: PanelWeight
    pieces: int
    layouts: tuple[int, ...]


def sum_weights(weights: Iterable[Weight]) -> Weight:
    """Return all weights together; nothing weighs nothing."""
    parts = zip(*map(astuple, weights), strict=True)
    return Weight(*(sum(part, Fraction(0)) for part in parts))


def relief_volume(ornament: Ornament) -> Fraction:
    """Return the volume [m3] between an ornament and the ground, on the liner lying flat."""
    return ornament.fill * ornament.outline.area * ornament.relief / STEPS_PER_M**3


def added_volume(ornament: Ornament) -> Fraction:
    """Return what an ornament adds to a panel [m3], below 0 for a hollow.

    One whose ``on_panel`` is not stated counts as a boss: more weight is the safe side.
    """
    return relief_volume(ornament) * (-1 if ornament.on_panel == "hollow" else 1)


def weigh_panel(job: Job, placement: Placement, bed: str) -> PanelWeight:
    """Return what a placed panel weighs, at the size it is marked out.

    Raises
    ------
    InputError
        Where the panel is no thicker than its face coat, or a hollow cuts through it.
    """
    panel = job.panel(placement.mark)
    thickness = job.thickness_of(panel)
    shown = [each for each in job.liner.ornaments if each.name in placement.shows]
    least, deepest = _least_thickness(thickness, shown)
    _refuse_thin(job, panel, thickness, least, deepest)
    ratio = bend_of(job, bed).face_ratio
    area = ratio * placement.width * placement.height / STEPS_PER_M**2
    coat = area * job.materials.panel.face_coat / STEPS_PER_M
    backing = area * thickness / STEPS_PER_M - coat + ratio * sum(map(added_volume, shown))
    face, back = job.materials.face, job.materials.backing
    weight = Weight(
        coat * face.wet_density,
        backing * back.wet_density,
        coat * face.cured_density,
        backing * back.cured_density,
    )
    name = deepest.name if deepest else ""
    return PanelWeight(panel.mark, placement.shows, thickness, least, name, area, weight)


def weigh_layout(job: Job, layout: Layout) -> tuple[PanelWeight, ...]:
    """Return the panels of one cast of a layout, weighed, in its order; raises as `weigh_panel`."""
    return tuple(weigh_panel(job, placed, layout.bed) for placed in layout.panels)


def weigh_order(job: Job, schedule: Schedule) -> dict[int, tuple[PanelWeight, ...]]:
    """Return the weighed panels of one cast of each layout, by the layout's number.

    Raises
    ------
    InputErrors
        With one line for each panel that is too thin.
    """
    found: dict[int, tuple[PanelWeight, ...]] = {}
    errors: dict[str, InputError] = {}
    for layout in schedule.layouts:
        try:
            found[layout.number] = weigh_layout(job, layout)
        except InputError as error:
            errors.setdefault(str(error), error)
    if errors:
        raise InputErrors(errors.values())
    return found


def list_panels(
    job: Job, schedule: Schedule, weighed: dict[int, tuple[PanelWeight, ...]]
) -> tuple[PanelRow, ...]:
    """Return one row for all panels of a mark that weigh the same, in the order of the job."""
    pieces: dict[PanelWeight, int] = {}
    layouts: dict[PanelWeight, list[int]] = {}
    for layout in schedule.layouts:
        for panel in weighed[layout.number]:
            pieces[panel] = pieces.get(panel, 0) + layout.repeats
            numbers = layouts.setdefault(panel, [])
            if layout.number not in numbers:
                numbers.append(layout.number)
    order = {panel.mark: number for number, panel in enumerate(job.panels)}
    rows = [PanelRow(panel, count, tuple(layouts[panel])) for panel, count in pieces.items()]
    return tuple(sorted(rows, key=lambda row: order[row.panel.mark]))


def _least_thickness(thickness: int, shown: list[Ornament]) -> tuple[int, Ornament | None]:
    """Return what the deepest hollow leaves; one not stated counts as a hollow, the safe side."""
    hollows = [each for each in shown if each.on_panel != "boss" and each.relief]
    if not hollows:
        return thickness, None
    deepest = max(hollows, key=lambda each: each.relief)
    return thickness - deepest.relief, deepest


def _refuse_thin(
    job: Job, panel: Panel, thickness: int, least: int, deepest: Ornament | None
) -> None:
    text = job.tape.stated_words
    coat, where = job.materials.panel.face_coat, f"Panel {panel.mark!r}"
    remedy = "give the panel a greater thickness, or [material] a thinner face_coat"
    if thickness <= coat:
        rule = f"thickness must be > {text(coat)}, the face coat's"
        raise InputError(where, rule, text(thickness), remedy)
    if deepest and deepest.on_panel == "hollow" and least <= 0:
        rule = f"thickness must be > {text(deepest.relief)}, the relief of hollow {deepest.name!r}"
        raise InputError(where, rule, text(thickness), "give the panel a greater thickness")
