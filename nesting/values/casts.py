"""The answer: panels placed, dams laid, layouts repeated, and the proof beside them.

All lengths are whole steps and all areas whole square steps, in flat liner coordinates.
"""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from nesting.shapes.geometry import Box

Side = Literal["edge", "dam"]


class Sides(NamedTuple):
    """For each side of a panel, whether the liner's rim or a dam stops the spray there."""

    left: Side
    right: Side
    bottom: Side
    top: Side

    def widths(self, dam: int) -> tuple[int, int, int, int]:
        """Return the ring's width on (left, right, bottom, top): ``dam`` on dam sides, else 0.

        >>> Sides("edge", "dam", "edge", "dam").widths(25)
        (0, 25, 0, 25)
        """
        left, right, bottom, top = (dam if side == "dam" else 0 for side in self)
        return left, right, bottom, top


@dataclass(frozen=True, slots=True)
class Placement:
    """A panel on the liner: lower-left corner, flat size, and what stops each side.

    ``shows`` lists the ornaments inside it in the liner's order. ``off_nominal`` is how far the
    *ordered* width and height [steps] were changed within the tolerance; (0, 0) for the size asked.
    """

    mark: str
    x: int
    y: int
    width: int
    height: int
    sides: Sides
    shows: tuple[str, ...] = ()
    turned: bool = False
    off_nominal: tuple[int, int] = (0, 0)

    @property
    def box(self) -> Box:
        """The ground the panel covers."""
        return Box(self.x, self.y, self.x + self.width, self.y + self.height)


@dataclass(frozen=True, slots=True)
class Dam:
    """One strip on the cut list. Dams of a layout are disjoint, so their areas add up.

    ``zones`` names the blank zones it lies in, in the liner's order; ``clearance`` is its distance
    to the nearest ornament, measured square to the dam [steps], None where the liner has none.
    """

    name: str
    x: int
    y: int
    width: int
    height: int
    zones: tuple[str, ...] = ()
    clearance: int | None = None

    @property
    def box(self) -> Box:
        """The ground the dam covers."""
        return Box(self.x, self.y, self.x + self.width, self.y + self.height)

    @property
    def length(self) -> int:
        """The longer side [steps]: what is cut from a strip."""
        return max(self.width, self.height)


@dataclass(frozen=True, slots=True)
class Areas:
    """The area account of one cast [square steps]: liner = panels + dams + masked."""

    liner: int
    panels: int
    dams: int
    masked: int

    @property
    def idle(self) -> int:
        """Liner area that yields no panel: masks plus dam footprints."""
        return self.dams + self.masked


@dataclass(frozen=True, slots=True)
class Layout:
    """A set of dams and panels, cast ``repeats`` times on one bed.

    ``same_dams_as`` names the layout whose dams stay in place while some of its bays are masked;
    such an entry is no new layout.
    """

    number: int
    repeats: int
    bed: str
    panels: tuple[Placement, ...]
    dams: tuple[Dam, ...]
    areas: Areas
    same_dams_as: int | None = None

    @property
    def idle_share(self) -> float:
        """Idle area over liner area."""
        return self.areas.idle / self.areas.liner


@dataclass(frozen=True, slots=True)
class Proof:
    """Why fewer casts cannot do, for one bed, so that anyone can check it.

    ``prices`` gives each mark its points, a whole number; ``demand`` sums points times quantity;
    ``heaviest`` is the most points any one cast can hold, or a proved upper limit of it, and
    ``method`` says in words how it was got. Then casts >= ceil(demand / heaviest). ``points``,
    where present, is the reason for ``heaviest``: weights on points (x, y) of the liner [steps]
    that total ``heaviest`` and of which every possible place of a panel, its dam allowance counted,
    covers at least its price.
    ``enumerated``, where not 0, says that ``lower_bound`` is higher than the prices show, proved by
    listing every layout heavy enough to matter: that many layouts hold them all.
    """

    bed: str
    lower_bound: int
    casts: int
    prices: tuple[tuple[str, int], ...]
    demand: int
    heaviest: int
    points: tuple[tuple[int, int, int], ...] = ()
    method: str = ""
    enumerated: int = 0


@dataclass(frozen=True, slots=True)
class Schedule:
    """The casts in order, with the proof that fewer cannot do.

    ``proved`` speaks of the number of casts, ``layouts_proved`` of the number of layouts at that
    many casts; ``dam_length_proved`` of the dams' total length with the panels that share each
    layout given. ``notes`` hold what the reader must know (a time limit reached, a size taken
    within its tolerance).
    """

    job: str
    lower_bound: int
    layouts: tuple[Layout, ...]
    proofs: tuple[Proof, ...] = ()
    layouts_bound: int = 0
    layouts_proved: bool = False
    dam_length_proved: bool = False
    notes: tuple[str, ...] = ()

    @property
    def casts(self) -> int:
        """Number of casts over all beds."""
        return sum(layout.repeats for layout in self.layouts)

    @property
    def proved(self) -> bool:
        """Whether fewer casts are proved impossible."""
        return self.lower_bound == self.casts

    @property
    def different_layouts(self) -> int:
        """How often dams are set: layouts that do not reuse another's dams."""
        return sum(layout.same_dams_as is None for layout in self.layouts)

    @property
    def panels(self) -> dict[str, int]:
        """How many panels of each mark the schedule yields, in order of first appearance."""
        counts: dict[str, int] = {}
        for layout in self.layouts:
            for placement in layout.panels:
                counts[placement.mark] = counts.get(placement.mark, 0) + layout.repeats
        return counts


@dataclass(frozen=True, slots=True)
class Totals:
    """What all casts of a schedule come to: panels by mark, and areas [square steps]."""

    casts: int
    panels: tuple[tuple[str, int], ...]
    liner_area: int
    panel_area: int
    idle_area: int

    @property
    def idle_share(self) -> float:
        """Idle area over liner area; 0 where nothing is cast."""
        return self.idle_area / self.liner_area if self.liner_area else 0.0


def totals(schedule: Schedule) -> Totals:
    """Return the totals over all casts; marks in order of first appearance."""
    layouts = schedule.layouts
    return Totals(
        schedule.casts,
        tuple(schedule.panels.items()),
        sum(layout.repeats * layout.areas.liner for layout in layouts),
        sum(layout.repeats * layout.areas.panels for layout in layouts),
        sum(layout.repeats * layout.areas.idle for layout in layouts),
    )
