"""How the panels of one row of a skin share their room: equal widths, or widths on a division.

All is whole steps: what panels leave of a face is its joints, and the two add up to the face.
"""

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from nesting.errors import InputError
from nesting.files.lengths import LengthReaders

Rest = Literal["joints", "closing panel"]
"""What takes the rest of a face where widths are rounded to a division."""

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class WidthRule:
    """Widths are whole numbers of ``division`` [steps], and ``rest`` takes what is left over.

    ``widest_joint`` [steps] is the most a joint may grow to, 0 for one and a half joints;
    ``narrowest`` the least width [steps] of a closing panel, 0 for half the width of the others.
    """

    division: int
    rest: Rest
    widest_joint: int = 0
    narrowest: int = 0


EXACT = WidthRule(1, "joints")
"""To the step, when joints take what no step can share: below a step for each panel."""


@dataclass(frozen=True, slots=True)
class End:
    """What stands between an end of a part and its first or last panel.

    ``leg`` [steps] of a corner return, and how many joints: one behind a leg, half a one where the
    next run or arc begins, none at an open end and at an arris.
    """

    leg: int = 0
    joints: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Room:
    """The face of a skin [steps] along one part, what its ends take, and the joint asked for.

    ``units`` are those of messages.
    """

    length: int
    ends: tuple[End, End]
    joint: int
    units: str = "mm"

    def text(self, steps: int | Fraction) -> str:
        """Return a length as messages give it."""
        return LengthReaders(self.units).text(round(steps))

    def for_panels(self, count: int) -> Fraction:
        """Return what joints of the width asked for leave to so many panels [steps]."""
        return self.length - self.legs - self.joint * self.joints(count)

    def joints(self, count: int) -> Fraction:
        """Return how many joints stand beside and between so many panels, halves at the ends."""
        return count - 1 + sum((end.joints for end in self.ends), Fraction(0))

    @property
    def legs(self) -> int:
        """What corner returns take [steps]."""
        return sum(end.leg for end in self.ends)


def count_fewest(room: Room, widest: int, rule: WidthRule) -> int:
    """Return the least number of panels that are no wider than ``widest`` [steps], 1 at least.

    Raises
    ------
    InputError
        Where a closing panel takes the rest and the widest holds no division.
    """
    if rule.rest == "closing panel":
        most = widest // rule.division * rule.division
        if not most:
            raise InputError(
                "", f"widest must be >= the division {room.text(rule.division)}", room.text(widest)
            )
        widest = most
    return max(1, math.ceil((room.for_panels(1) + room.joint) / (widest + room.joint)))


def share_out(room: Room, count: int, rule: WidthRule) -> tuple[Span, ...]:
    """Return where each panel of a row begins and ends on the face [steps].

    Where joints take the rest, every panel is as wide as the others, rounded down, so that joints
    only grow, all alike. Where a closing panel takes it, the others are rounded up, and it is the
    last one. Joints differ from one another by at most a step.

    Raises
    ------
    InputError
        Where a joint would be wider, or the closing panel narrower, than the rule allows.

    Examples
    --------
    >>> share_out(Room(1000, (End(), End()), 20), 3, WidthRule(50, "closing panel"))
    ((0, 350), (370, 720), (740, 1000))
    >>> share_out(Room(1000, (End(), End()), 20), 3, WidthRule(50, "joints", 50))
    ((0, 300), (350, 650), (700, 1000))
    """
    even = room.for_panels(count) / count
    if rule.rest == "closing panel" and count > 1:
        width = math.ceil(even / rule.division) * rule.division
        last = math.floor(room.for_panels(count)) - (count - 1) * width
        _refuse_narrow(room, last, rule.narrowest or width // 2)
    else:
        division = rule.division if rule.rest == "joints" else 1
        width = last = math.floor(even / division) * division
    gaps, rest = room.joints(count), room.length - room.legs - (count - 1) * width - last
    if rule.rest == "joints" and rule.division > 1:
        _refuse_wide(room, gaps, rest, rule.widest_joint or room.joint * 3 // 2)
    joint = rest / gaps if gaps else Fraction(0)
    start = room.ends[0].leg + room.ends[0].joints * joint
    starts = [_nearest(start + number * (width + joint)) for number in range(count)]
    return (*((each, each + width) for each in starts[:-1]), (starts[-1], starts[-1] + last))


def _refuse_narrow(room: Room, width: int, least: int) -> None:
    if width < least:
        rule = f"the closing panel must be >= {room.text(least)} wide"
        remedy = "give another division, another number of panels or a smaller narrowest"
        raise InputError("", rule, room.text(width), remedy)


def _refuse_wide(room: Room, gaps: Fraction, rest: int, most: int) -> None:
    remedy = "give a smaller division, more panels or a larger widest_joint"
    if not gaps and rest:
        rule = "one panel between open ends has no joint to take the rest of its width"
        raise InputError(
            "", rule, room.text(rest), 'give rest = "closing panel" or a smaller division'
        )
    if gaps and rest > most * gaps:
        raise InputError("", f"joints must be <= {room.text(most)}", room.text(rest / gaps), remedy)


def _nearest(steps: Fraction) -> int:
    """Return the nearest step, halves upward: so joints of one row differ by one at most."""
    return math.floor(steps + Fraction(1, 2))
