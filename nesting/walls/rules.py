"""Reads the rules of a wall file: how panel widths are rounded, and how two skins are tied."""

from collections.abc import Sequence
from fractions import Fraction

from nesting.files.lengths import LengthReaders
from nesting.files.readers import read_choice, read_whole
from nesting.files.tomlcheck import Table, whole
from nesting.jobs.readers import read_mass
from nesting.units import STEPS_PER_MM
from nesting.walls.cladding import Skin
from nesting.walls.tierule import TieRule
from nesting.walls.widths import EXACT, WidthRule

MAX_TIE_ROWS = 50
"""Most rows of ties up one panel."""
LEAST_SPACING = 50 * STEPS_PER_MM
"""Least spacing of ties along a back [steps]; our own choice."""


def read_width_rule(top: Table, lengths: LengthReaders) -> WidthRule | None:
    """Return how panel widths are rounded; to the step where the file does not say."""
    if "widths" not in top:
        return EXACT
    table = top.table("widths")
    if table is None:
        return None
    rest = table.take("rest", read_choice("joints", "closing panel"))
    limits = {"joints": "widest_joint", "closing panel": "narrowest"}
    for other, key in limits.items():
        if rest and other != rest:
            table.refuse(key, f'has a meaning only where rest = "{other}"')
    found = whole(
        WidthRule,
        division=table.take("division", lengths.positive),
        rest=rest,
        **{
            key: table.take(key, lengths.positive, 0)
            for each, key in limits.items()
            if each == rest
        },
    )
    table.close()
    return found


def read_tie_rule(
    top: Table, lengths: LengthReaders, skins: Sequence[Skin]
) -> dict[str, TieRule | None]:
    """Return the rule of the ties under its key: nothing without one, None after a mistake."""
    if len(skins) == 1:
        top.refuse("ties", "a tie joins two skins", 'take it out or give skins = "both"')
    if "ties" not in top:
        return {}
    table = top.table("ties")
    if table is None:
        return {"ties": None}
    edge = table.take("edge_distance", lengths.positive)
    mass = table.take("mass", read_mass(lengths.units), Fraction(0))
    found = whole(
        TieRule,
        spacing=table.take("spacing", lengths.positive),
        rows=table.take("rows", read_whole(1, MAX_TIE_ROWS)),
        edge_distance=edge,
        hollow_distance=table.take("hollow_distance", lengths.not_negative, edge),
        mass=mass,
    )
    if found and found.spacing < LEAST_SPACING:
        rule = f"must be >= {lengths.text(LEAST_SPACING)}"
        table.fault("spacing", rule, lengths.text(found.spacing))
    table.close()
    return {"ties": found}
