"""Casts in shifts: what is to be put in order, what an order is, and how it is judged.

A *shift* is a share of a working day in which a liner takes at most one cast; shifts are numbered
from 0. Layouts whose dams are the same are one *family*, which lies on beds of one kind.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum


class Way(IntEnum):
    """How a liner comes to a cast, which tells how long its work takes."""

    FIRST = 0
    """The liner's first cast: laid on a bed, dams set out."""
    AGAIN = 1
    """Bed and dams stay."""
    RESET = 2
    """The bed stays, the dams are re-set."""
    MOVE = 3
    """The dams stay, the liner is laid on a bed."""
    BOTH = 4
    """The liner is laid on a bed and its dams are re-set."""


CHANGES = {Way.FIRST: 0, Way.AGAIN: 0, Way.RESET: 1, Way.MOVE: 1, Way.BOTH: 2}
"""How many re-sets and bed changes each way takes."""


@dataclass(frozen=True, slots=True)
class Workload:
    """Casts to be put in order, in whole numbers.

    Parameters
    ----------
    family, counts
        Of each layout: its family, and how often it is cast.
    kind
        Of each family: the kind of bed it lies on.
    liners, beds
        How many liners there are, and how many beds of each kind.
    lead
        For each `Way`, how many shifts before that of the cast the work begins.
    free
        For each `Way` and each shift: in which later shift a cast of that shift is demoulded, which
        frees liner and bed at its beginning. Never falls from one shift to the next, and reaches
        over `horizon` shifts.
    late
        For each layout and each shift: how many panel-days late one cast demoulded then is.
    finish_first
        Whether an earlier end goes before fewer changes.
    """

    family: tuple[int, ...]
    counts: tuple[int, ...]
    kind: tuple[int, ...]
    liners: int
    beds: tuple[int, ...]
    lead: tuple[int, ...]
    free: tuple[tuple[int, ...], ...]
    late: tuple[tuple[int, ...], ...]
    finish_first: bool = False

    @property
    def casts(self) -> int:
        """How many casts there are."""
        return sum(self.counts)

    @property
    def horizon(self) -> int:
        """How many shifts hold some best order: casts one after another, each the slow way.

        In a best order moved as early as it goes, no shift before its last cast is idle on all
        liners, as a cast begun earlier is never demoulded later.
        """
        shift = 0
        for _ in range(self.casts):
            shift = max(self.free[way][shift + self.lead[way]] for way in Way)
        return shift

    def families_on(self, kind: int) -> list[int]:
        """Return the families that lie on that kind of bed."""
        return [family for family, its in enumerate(self.kind) if its == kind]

    def casts_of(self, family: int) -> int:
        """Return how many casts the family takes."""
        pairs = zip(self.family, self.counts, strict=True)
        return sum(count for its, count in pairs if its == family)


@dataclass(frozen=True, slots=True, order=True)
class Move:
    """One cast of an order: its shift, its liner, its layout, and how the liner came to it."""

    shift: int
    liner: int
    layout: int
    way: Way


@dataclass(frozen=True, slots=True)
class Worth:
    """What an order is judged by.

    ``late`` in panel-days, ``changes`` the re-sets and bed changes, ``end`` the first shift with
    every cast demoulded.
    """

    late: int
    changes: int
    end: int


def rank(work: Workload, worth: Worth) -> tuple[int, int, int]:
    """Return what orders are compared by, the less the better, the most important first."""
    if work.finish_first:
        return worth.late, worth.end, worth.changes
    return worth.late, worth.changes, worth.end


def judge(work: Workload, moves: Sequence[Move]) -> Worth:
    """Return what an order is worth."""
    freed = [work.free[move.way][move.shift] for move in moves]
    late = sum(work.late[move.layout][end] for move, end in zip(moves, freed, strict=True))
    changes = sum(CHANGES[move.way] for move in moves)
    return Worth(late, changes, max(freed, default=0))


def least_changes(work: Workload) -> int:
    """Return a number of changes no order can stay below.

    Each liner's first set-out gives one family its dams and one kind of bed its liner; every other
    family takes a re-set and every other kind a bed change.
    """
    families = {family for family, count in zip(work.family, work.counts, strict=True) if count}
    kinds = {work.kind[family] for family in families}
    return max(0, len(families) - work.liners) + max(0, len(kinds) - work.liners)


def least_end(work: Workload) -> int:
    """Return a shift before which no order has every cast demoulded.

    Liners, and likewise the beds of one kind, share casts out evenly at best, each the fastest way.
    """
    groups = [(work.casts, work.liners)]
    for kind, beds in enumerate(work.beds):
        casts = sum(work.casts_of(family) for family in work.families_on(kind))
        groups.append((casts, min(beds, work.liners)))
    return max(chain(work, -(-casts // machines)) for casts, machines in groups if casts)


def chain(work: Workload, casts: int) -> int:
    """Return when so many casts on one liner are demoulded at the earliest."""
    shift = work.lead[Way.FIRST]
    for _ in range(casts):
        shift = min(work.free[way][shift] for way in Way)
    return shift
