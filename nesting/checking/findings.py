"""What the checker can find wrong: numbered codes that never change, and the finding itself."""

from dataclasses import dataclass
from types import MappingProxyType

from nesting.units import STEPS_PER_MM
from nesting.values.casts import Dam, Layout, Placement
from nesting.values.names import call_dam

CODES = MappingProxyType(
    {
        101: "an ornament is cut by a panel's edge",
        102: "a dam is nearer than dam_clearance to an ornament beyond it",
        103: "an ornament inside a panel is nearer than edge_margin to a dam side",
        104: "a panel does not show an ornament it must show",
        105: "a panel shows an ornament it must hide",
        106: "the list of ornaments a panel shows is wrong",
        201: "a dam lies off the liner",
        202: "a dam lies on ground that is not blank",
        203: "a dam side has no dam along it, dam_width wide and closed at its corners",
        204: "two dams overlap",
        205: "a dam overlaps a panel",
        206: "a dam stands along no panel",
        207: "the zones or the clearance stated for a dam are wrong",
        208: "two dams of a layout have the same name",
        209: "a dam has no width or no height",
        210: "a dam is nearer to a place that dams keep off than its distance",
        211: "a dam has no width that the shop has",
        301: "a panel lies off the liner",
        302: "two panels are nearer than dam_width both along x and along y",
        303: "a panel's size is not the size ordered, or leaves its tolerance",
        304: "an edge side does not lie on the liner's rim",
        305: "a panel's mark is not in the order",
        306: "a panel is cast on another bed than its own",
        307: "a panel is turned and may not be",
        308: "a layout is cast on a bed the job does not have",
        309: "two panels are neither as far apart as a strip is wide, nor two dams",
        401: "the casts yield too few panels of a mark",
        402: "the casts yield too many panels of a mark",
        403: "a layout is cast less than once, or the stated number of casts is wrong",
        404: "a layout said to keep another's dams differs from it",
        405: "the lower bound is above the casts, or its proof does not add up",
        406: "more different layouts are called necessary than are used",
        407: "two layouts have the same number",
        408: "the schedule belongs to another job",
        501: "the area account of a layout is wrong",
        502: "a total is wrong",
    }
)


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault: its code, the place, and the rule with the value found, in one sentence.

    >>> print(Finding(206, "layout 1, dam 3", "it stands along no panel"))
    206 layout 1, dam 3: it stands along no panel.
    """

    code: int
    where: str
    text: str

    def __post_init__(self) -> None:
        if self.code not in CODES:
            raise ValueError(f"a finding's code must be one of {sorted(CODES)}, got {self.code}")

    def __str__(self) -> str:
        return f"{self.code} {self.where}: {self.text}."


def mm(steps: int) -> str:
    """Write steps as millimetres, exactly and as short as that goes.

    >>> mm(3175), mm(8000), mm(-1)
    ('0.396875 mm', '1 mm', '-0.000125 mm')
    """
    return f"{steps / STEPS_PER_MM:.6f}".rstrip("0").rstrip(".") + " mm"


def size(width: int, height: int) -> str:
    """Write a width and a height [steps] as millimetres.

    >>> size(8000, 4000)
    '1 x 0.5 mm'
    """
    return f"{mm(width).removesuffix(' mm')} x {mm(height)}"


def at_layout(layout: Layout) -> str:
    """Name a layout."""
    return f"layout {layout.number}"


def at_panel(layout: Layout, panel: Placement) -> str:
    """Name a panel by its mark and, as a mark may stand twice in a layout, its place."""
    x, y = (mm(value).removesuffix(" mm") for value in (panel.x, panel.y))
    return f"{at_layout(layout)}, panel {panel.mark!r} at ({x}, {y}) mm"


def at_dam(layout: Layout, dam: Dam) -> str:
    """Name a dam of a layout."""
    return f"{at_layout(layout)}, {call_dam(dam.name)}"
