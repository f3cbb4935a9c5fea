"""A job: one liner, the shop's rules, the beds and the order."""

from dataclasses import dataclass
from typing import Literal

from nesting.tape import Tape
from nesting.units import STEPS_PER_MM
from nesting.values.bed import Bed
from nesting.values.castsizes import AsCast
from nesting.values.liner import Liner
from nesting.values.material import USUAL, Materials
from nesting.values.panels import Panel
from nesting.values.shopdays import USUAL_DAYS, ShopDays

WIDTH_CLOSE = STEPS_PER_MM // 20
"""A strip counts as of a width within so many steps."""
Units = Literal["mm", "in"]

_AS_DRAWN = AsCast()


@dataclass(frozen=True, slots=True)
class Rules:
    """The shop's own distances [steps]: see rules 3 to 5 and 11 in docs/method.md.

    ``dam_width`` of a dam; ``dam_clearance`` from a dam to any ornament beyond it;
    ``edge_margin`` from a dam to any ornament inside the panel; ``set_out`` the division a person
    marks to; ``other_widths`` whether a plan may ask for strips of widths that are not listed.
    """

    dam_width: int
    dam_clearance: int
    edge_margin: int
    set_out: int
    other_widths: bool = False


@dataclass(frozen=True, slots=True)
class DamStock:
    """What dams are made of [steps].

    ``widths`` the shop has or rips, ascending, none where ``dam_width`` is the only one; ``height``
    of a dam, 0 for the panel's own thickness; ``on_curve`` what a dam along the curve of a bed is;
    ``stock`` the lengths in store, ascending; ``kerf`` what one cut takes.
    """

    widths: tuple[int, ...] = ()
    height: int = 0
    on_curve: Literal["bent", "cut"] = "bent"
    stock: tuple[int, ...] = ()
    kerf: int = 0


_ANY_STOCK = DamStock()


@dataclass(frozen=True, slots=True)
class Job:
    """Everything the plan depends on. Panels and beds keep the order of the file.

    The liner is as it lies now; ``as_cast`` says what that differs by from its drawing, and by what
    the panels will shrink.
    """

    title: str
    units: Units
    liner: Liner
    rules: Rules
    beds: tuple[Bed, ...]
    panels: tuple[Panel, ...] = ()
    as_cast: AsCast = _AS_DRAWN
    materials: Materials = USUAL
    shop: ShopDays = USUAL_DAYS
    dams: DamStock = _ANY_STOCK

    @property
    def dam_widths(self) -> tuple[int, ...]:
        """The widths [steps] of strips the shop has, ascending; ``dam_width`` is one of them."""
        return self.dams.widths or (self.rules.dam_width,)

    def lists_width(self, width: int) -> bool:
        """Whether a strip [steps] is of a width the shop has, to 0.05 mm."""
        return any(abs(width - listed) <= WIDTH_CLOSE for listed in self.dam_widths)

    @property
    def drawn(self) -> Liner:
        """The liner as its drawing has it."""
        return self.as_cast.drawn or self.liner

    def thickness_of(self, panel: Panel) -> int:
        """Return the panel's own thickness, or that of the job's material [steps]."""
        return panel.thickness or self.materials.panel.thickness

    @property
    def tape(self) -> Tape:
        """The tape the shop measures with."""
        return Tape(self.units, self.rules.set_out)

    def bed(self, name: str) -> Bed:
        """Return the bed of that name; KeyError where there is none."""
        return {bed.name: bed for bed in self.beds}[name]

    def panel(self, mark: str) -> Panel:
        """Return the panel of that mark; KeyError where there is none."""
        return {panel.mark: panel for panel in self.panels}[mark]
