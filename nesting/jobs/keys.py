"""Every key of a job file, table by table, in the order in which they are written.

What a key says here is what docs/file-format.md says of it. `nesting.jobs.shopkeys` has the tables
for quantities and for the calendar.
"""

from fractions import Fraction

from nesting.files.dates import read_date
from nesting.files.keys import ONE_OF, Inner, Key, Keys
from nesting.files.lengths import LengthReaders, read_tolerance
from nesting.files.readers import (
    read_choice,
    read_flag,
    read_half,
    read_name,
    read_names,
    read_text,
    read_whole,
)
from nesting.jobs.readers import read_expansion, read_share, read_shrink, read_temperature
from nesting.jobs.shopkeys import list_shop_keys
from nesting.values.bed import NO_SIZE
from nesting.values.shopdays import NO_DUE
from nesting.values.tolerances import CLASSES

MAX_QUANTITY = 100_000
"""Most panels of one size in an order."""
NEEDED_RULES = ("dam_width", "dam_clearance", "edge_margin")
"""Rules a job must give, or its liner file."""
CURVED_KEYS = ("radius", "curved_axis", "neutral", "ends")
"""Keys a flat bed does not have."""
TEMPERATURES = ("liner_temperature", "measured_temperature", "expansion")
"""Rules of which each calls for the two others."""
UNITS = read_choice("mm", "in")
_HALF = Fraction(1, 2)
_HAS_FILE = {"properties": {"liner": {"required": ["file"]}}, "required": ["liner"]}


def job_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of a job; what its liner file may give is needed where it names none."""
    partners = {key: [other for other in TEMPERATURES if other != key] for key in TEMPERATURES}
    rules = {"required": [*NEEDED_RULES], "dependentRequired": partners}
    return Keys(
        {
            "title": Key(read_text, "shown on every drawing"),
            "units": Key(UNITS, "of plain numbers here, and of report and drawings"),
            "liner": Inner(liner_keys(lengths), "one table", needed=True),
            "rules": Inner(rules_keys(lengths), "one table"),
            "dams": Inner(dams_keys(lengths), "one table"),
            "bed": Inner(bed_keys(lengths), "one table for each bed", many=True),
            "panel": Inner(panel_keys(lengths), "one table for each panel size", True, True),
            **list_shop_keys(lengths),
        },
        {"if": _HAS_FILE, "else": {"required": ["rules"], "properties": {"rules": rules}}},
    )


def liner_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[liner]``: those of a liner, or ``file`` alone."""
    unmarked, says = read_choice("detail", "blank"), "ground that is neither ornament nor blank"
    rows: dict[str, Key | Inner] = {
        "file": Key(read_text, "a liner file, and then no other key here", None),
        "name": Key(read_name, "name"),
        "size": Key(lengths.sized_box, "the liner's shape", ONE_OF),
        "outline": Key(lengths.outline, "the liner's shape", ONE_OF),
        "holes": Key(lengths.rings, "openings in the liner, such as a sink", ()),
        "thickness": Key(lengths.positive, "length > 0"),
        "unmarked": Key(unmarked, says, "detail", stated=True),
        "ornament": Inner(ornament_keys(lengths), "one table for each ornament", many=True),
        "blank_zone": Inner(zone_keys(lengths), "one table for each blank zone", many=True),
        "keep_clear": Inner(clear_keys(lengths), "each place that dams keep off", many=True),
    }
    described = [
        {"required": ["name", "thickness", shape], "properties": {"file": False}}
        for shape in ("size", "outline")
    ]
    alone = {"required": ["file"], "maxProperties": 1}
    return Keys(rows, {"required": [], "oneOf": [alone, *described]})


def ornament_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[[liner.ornament]]``."""
    relief = "how far it stands out of, or sinks into, the ground"
    on_panel = '`"boss"`: it stands out of the panel, and is a hollow in the liner'
    return Keys(
        {
            **zone_keys(lengths).rows,
            "relief": Key(lengths.not_negative, relief, 0),
            "on_panel": Key(read_choice("boss", "hollow"), on_panel, ""),
            "fill": Key(read_share("the relief", 1), "the mean relief over the outline", _HALF),
        }
    )


def zone_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[[liner.blank_zone]]``, which every ornament has too."""
    return Keys(
        {
            "name": Key(read_name, "name"),
            "rect": Key(lengths.rect, "shape; exactly one of the two", ONE_OF),
            "outline": Key(lengths.outline, "shape; exactly one of the two", ONE_OF),
        }
    )


def clear_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[[liner.keep_clear]]``; the distance from a point is above zero."""
    says = "`at = [x, y]`, a point, or a rectangle"
    above = {"properties": {"distance": lengths.positive.schema}}
    return Keys(
        {
            "name": Key(read_name, "name"),
            "at": Key(lengths.spot, says, ONE_OF),
            "rect": Key(lengths.box, says, ONE_OF),
            "distance": Key(lengths.not_negative, "no dam comes nearer"),
        },
        {"if": {"required": ["at"]}, "then": above},
    )


def rules_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[rules]``, which a liner file may give too."""
    others = "a plan may ask for strips of widths that `[dams]` does not list"
    least = lengths.not_negative
    return Keys(
        {
            "dam_width": Key(lengths.positive, "how wide a dam is", None),
            "dam_clearance": Key(least, "from a dam to any ornament outside the panel", None),
            "edge_margin": Key(least, "from a dam side to any ornament inside the panel", None),
            "set_out": Key(lengths.positive, "the division a person marks to", None),
            "other_widths": Key(read_flag, others, False),
            **CAST_KEYS,
        }
    )


CAST_KEYS: dict[str, Key | Inner] = {
    "liner_shrink": Key(read_shrink, "the rubber has shrunk since it was drawn", None),
    "liner_temperature": Key(read_temperature, "how warm the liner is when it is marked out", None),
    "measured_temperature": Key(read_temperature, "when it was drawn or measured", None),
    "expansion": Key(read_expansion, "the rubber grows with each degree C", None),
    "panel_shrink": Key(read_shrink, "a panel shrinks until it is measured", None),
}
"""The rules that say what liner and panels measure now."""


def dams_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[dams]``."""
    curve = "what a dam along the curve of a bed is"
    return Keys(
        {
            "widths": Key(lengths.choice, "widths of the strips you have or rip", ()),
            "height": Key(lengths.positive, "how high a dam is", 0),
            "on_curve": Key(read_choice("bent", "cut"), curve, "bent"),
            "stock": Key(lengths.choice, "the lengths in store that dams are cut from", ()),
            "kerf": Key(lengths.not_negative, "what one cut takes", 0),
        }
    )


def bed_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[[bed]]``; a flat one has its name and its form alone."""
    neutral = "where in its thickness the bent liner keeps its length, counted from the underside"
    curved = {"properties": {"form": {"enum": ["convex", "concave"]}}, "required": ["form"]}
    size = "along the curve, then straight; of a flat bed along x, then along y"
    ends = "how a panel ends along the curve"
    flat = {"properties": dict.fromkeys(CURVED_KEYS, False)}
    axis = read_choice("x", "y")
    return Keys(
        {
            "name": Key(read_name, "name"),
            "form": Key(read_choice("flat", "convex", "concave"), "seen from above", "flat"),
            "radius": Key(lengths.radius, "radius of the bed's own surface"),
            "curved_axis": Key(axis, "the axis of the liner that is bent", "x", stated=True),
            "neutral": Key(read_half, neutral, _HALF, stated=True),
            "size": Key(lengths.size, size, NO_SIZE),
            "ends": Key(read_choice("square", "plumb"), ends, "square"),
        },
        {"required": ["name"], "if": curved, "then": {"required": ["radius"]}, "else": flat},
    )


def panel_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[[panel]]``."""
    tolerance, measured = read_tolerance(lengths, CLASSES), read_choice("face", "back", "chord")
    used = "used only where the nominal size has no place on the liner"
    turn = "the panel may also be cast turned by half a turn"
    return Keys(
        {
            "mark": Key(read_name, "name"),
            "size": Key(
                lengths.size_in_feet, "along x and along y, as the finished panel is measured"
            ),
            "quantity": Key(read_whole(1, MAX_QUANTITY), "whole number"),
            "bed": Key(read_name, "name of a bed", None),
            "measured_on": Key(measured, "where `size` is measured on a curved bed", "face"),
            "thickness": Key(lengths.positive, "the panel's own", 0),
            "turn": Key(read_choice("none", "half"), turn, "none"),
            "tolerance": Key(tolerance, used, ((0, 0), "")),
            "must_show": Key(read_names, "ornaments every such panel holds whole", ()),
            "must_hide": Key(read_names, "ornaments no such panel holds", ()),
            "due": Key(read_date, "the day by whose end every such panel is demoulded", NO_DUE),
        }
    )
