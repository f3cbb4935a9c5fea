"""Which panels have their inserts at the same places, so that one sheet serves them all."""

from collections.abc import Iterable
from dataclasses import dataclass

from nesting.shapes.geometry import Point
from nesting.units import STEPS_PER_MM
from nesting.values.names import cast_range
from nesting.walls.backs import Back
from nesting.walls.cladding import Skin
from nesting.walls.ties import TiedPair

_ALIKE = STEPS_PER_MM // 1000
"""Places of two panels that differ by no more [steps] are the same: 0.001 mm."""


@dataclass(frozen=True, slots=True)
class TiedKind:
    """Panels of one mark with their inserts at the same places on the back.

    ``numbers`` are theirs along their part of the wall, ``inserts`` the number of each tie with its
    place [steps]; ``twin`` is the mark of the panels they are tied to.
    """

    back: Back
    numbers: tuple[int, ...]
    inserts: tuple[tuple[int, Point], ...]
    twin: str

    @property
    def mark(self) -> str:
        """The mark of the panels."""
        return self.back.stretch.mark

    @property
    def panels(self) -> str:
        """Which panels these are, in words."""
        word = "panel" if len(self.numbers) == 1 else "panels"
        return f"{word} {cast_range(list(self.numbers))}"


def alike_panels(pairs: Iterable[TiedPair]) -> list[TiedKind]:
    """Return the kinds of panels in the order of the walk, the inner kind of a pair first."""
    groups: list[list[TiedKind]] = []
    for pair in pairs:
        for skin in ("inner", "outer"):
            kind = _kind_of(pair, skin)
            group = next((each for each in groups if _are_alike(each[0], kind)), None)
            if group is None:
                groups.append([kind])
            else:
                group.append(kind)
    return [_joined(group) for group in groups]


def alike_pairs(pairs: Iterable[TiedPair]) -> list[list[TiedPair]]:
    """Return the pairs in the order of the walk, those together of which both panels are alike."""
    groups: list[list[TiedPair]] = []
    for pair in pairs:
        for group in groups:
            if all(
                _are_alike(_kind_of(group[0], skin), _kind_of(pair, skin))
                for skin in ("inner", "outer")
            ):
                group.append(pair)
                break
        else:
            groups.append([pair])
    return groups


def _kind_of(pair: TiedPair, skin: Skin) -> TiedKind:
    back, other = (pair.inner, pair.outer) if skin == "inner" else (pair.outer, pair.inner)
    inserts = tuple((tie.number, tie.inner if skin == "inner" else tie.outer) for tie in pair.ties)
    return TiedKind(back, (back.number,), inserts, other.stretch.mark)


def _are_alike(first: TiedKind, second: TiedKind) -> bool:
    if first.mark != second.mark or len(first.inserts) != len(second.inserts):
        return False
    pairs = zip(first.inserts, second.inserts, strict=True)
    return abs(first.back.width - second.back.width) <= _ALIKE and all(
        abs(a[0] - b[0]) <= _ALIKE and a[1] == b[1] for (_, a), (_, b) in pairs
    )


def _joined(group: list[TiedKind]) -> TiedKind:
    first = group[0]
    numbers = tuple(number for each in group for number in each.numbers)
    return TiedKind(first.back, numbers, first.inserts, first.twin)
