"""Which gaps two panels of a cast may have: those that strips of the shop's widths fill.

And the search for casts that keep to them, where one that left them free does not.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from nesting.maps.candidates import Place, PlaceMap
from nesting.maps.held import find_held
from nesting.search.fewest import FewestCasts, find_casts
from nesting.search.instance import ANY_GAP, Certificate, Gaps, Instance, PlaceSet
from nesting.search.solver import Deadline, Report, silent
from nesting.values.casts import Placement
from nesting.values.job import Rules


@dataclass(frozen=True, slots=True)
class StripRule:
    """Two panels lie one listed width apart, along x or along y, or at least two dams.

    A gap of two dams or more holds two strips, one narrower is filled by one. ``widths`` [steps]
    are those of strips, ``dam`` the dam width among them; where ``others`` may be too, any gap from
    one dam on will do.
    """

    dam: int
    widths: tuple[int, ...]
    others: bool = False

    @property
    def gaps(self) -> Gaps:
        """The gaps two boxes may have, each of them its panel grown by one dam width."""
        filled = tuple(width - self.dam for width in self.widths if self.is_filled(width))
        return ANY_GAP if self.others else Gaps(filled, self.dam)

    @property
    def held(self) -> tuple[int, ...]:
        """The gaps at which a panel may be held by another, that of two strips last [steps]."""
        return (*filter(self.is_filled, self.widths), 2 * self.dam)

    def is_filled(self, gap: int) -> bool:
        """Whether one strip fills a gap [steps]."""
        return self.dam <= gap < 2 * self.dam

    def allows(self, gap: int) -> bool:
        """Whether a gap keeps two panels apart."""
        return bool(self.gaps.allow(np.array([gap - self.dam]))[0])

    def keeps(self, panels: Sequence[Placement]) -> bool:
        """Whether every two panels of a cast lie apart as they must."""
        grown = [panel.box.grown(0, 0, self.dam, self.dam) for panel in panels]
        boxes = np.array(grown, dtype=np.int64).reshape(-1, 4)
        return not np.triu(self.gaps.meet(boxes, boxes), 1).any()

    def between(self, first: Placement, second: Placement) -> tuple[int, int, int]:
        """Return (axis, which of the two lies lower along it, gap) of what keeps two panels apart.

        That is the widest gap that may be, wherever one of two dams or more is there.
        """
        a, b = first.box, second.box
        found = (0, 0, b.x0 - a.x1), (0, 1, a.x0 - b.x1), (1, 0, b.y0 - a.y1), (1, 1, a.y0 - b.y1)
        return max(found, key=lambda side: (self.allows(side[2]), side[2]))


def strip_rule(rules: Rules, widths: tuple[int, ...] = ()) -> StripRule:
    """Return the rule for strips of those widths [steps], of the dam width where none are given."""
    return StripRule(rules.dam_width, widths or (rules.dam_width,), rules.other_widths)


def keeps_gaps(instance: Instance, layouts: Iterable[PlaceSet], rule: StripRule) -> bool:
    """Whether the boxes of each layout lie apart as the rule has it."""
    grounds = (instance.boxes[list(layout)] for layout in layouts)
    return not any(np.triu(rule.gaps.meet(boxes, boxes), 1).any() for boxes in grounds)


def restrict(
    instance: Instance,
    free: FewestCasts,
    maps: Sequence[PlaceMap],
    rule: StripRule,
    deadline: Deadline,
    report: Report = silent,
) -> tuple[Instance, FewestCasts, Certificate]:
    """Search where a search with ``free`` gaps found layouts that break the rule.

    What that proved holds here too. Where its places do with the rule, nothing more is to be shown;
    else all that can matter under the rule are searched, or of too many some. Returns the places,
    the search on them, and what is proved of all places.
    """
    strict = replace(instance, gaps=rule.gaps)
    best, certificate = find_casts(strict, deadline, report, free.certificate), free.certificate
    if best.casts == certificate.bound:
        return strict, best, certificate
    held = find_held(maps, rule.held, deadline)
    places = held.places if held.is_whole else _joined(instance, held.places)
    items = zip(instance.items, places, strict=True)
    more = Instance(tuple(replace(item, places=at) for item, at in items), rule.gaps)
    found = find_casts(more, deadline, report, None if held.is_whole else certificate)
    certificate = max(certificate, found.certificate, key=lambda each: each.bound)
    return (more, found, certificate) if found.casts <= best.casts else (strict, best, certificate)


def _joined(instance: Instance, places: Sequence[Sequence[Place]]) -> list[tuple[Place, ...]]:
    """Return the places of an instance and others besides, item by item."""
    pairs = zip(instance.items, places, strict=True)
    return [tuple(sorted({*item.places, *others})) for item, others in pairs]
