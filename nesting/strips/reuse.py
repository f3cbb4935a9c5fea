"""Which strips serve again: what stays, moves, goes or is new where dams are re-set.

From one setting of a liner to its next, a dam *stays* where the new set has one of an equal piece
at the very same place. Of the others, as many as both sets have of a piece *move*, paired so that
the way along x and along y is shortest in total; that makes as many old dams serve again as can.
What is left of the old *goes* to the store, and what is left of the new comes from the store, or
is cut where the store has none.

So no more strips are cut than must exist. At any moment a liner holds, of each piece, as many as
its set of dams, or while it is re-set the larger of old and new; what goes is handed on once the
re-set has ended. A strip is cut only when the store is empty of its piece, so just then as many
are held as were ever cut; no set of strips without them could lay these dams at these times. With
one liner that number is the most that any one layout asks for.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Literal

from nesting.ordering.matching import match_cheapest
from nesting.strips.pieces import Piece, list_pieces
from nesting.strips.settings import Setting
from nesting.values.casts import Dam
from nesting.values.job import Job

Way = Literal["stays", "moves", "goes", "from store", "cut new"]
WAYS: tuple[Way, ...] = ("stays", "moves", "goes", "from store", "cut new")


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip, or one dam sawn from sheet, by its number: what it is, and where it serves.

    ``uses`` are its settings, by their place in the order, each with the dam it is there.
    """

    number: int
    piece: Piece
    uses: tuple[tuple[int, Dam], ...]


@dataclass(frozen=True, slots=True)
class Change:
    """What becomes of one strip: the dam it ``was``, the one it ``becomes``."""

    strip: int
    way: Way
    was: Dam | None
    becomes: Dam | None


@dataclass(frozen=True, slots=True)
class Reset:
    """The dams of a setting laid on its liner; ``before`` is the one there, None on a bare liner.

    ``number`` counts those with one before them from 1, in the order of the settings, else 0.
    """

    number: int
    before: Setting | None
    after: Setting
    changes: tuple[Change, ...]

    def by_way(self, *ways: Way) -> tuple[Change, ...]:
        """Return what stays, what moves, or another way's changes, in the order of the strips."""
        return tuple(change for change in self.changes if change.way in ways)


@dataclass(frozen=True, slots=True)
class StripList:
    """All strips by number, and every laying of dams in the order of the settings."""

    strips: tuple[Strip, ...]
    layings: tuple[Reset, ...]

    @property
    def resets(self) -> tuple[Reset, ...]:
        """The layings that follow another set of dams on their liner."""
        return tuple(each for each in self.layings if each.before is not None)


def follow_strips(job: Job, settings: Sequence[Setting]) -> StripList:
    """Return every strip and what becomes of it from setting to setting."""
    store = _Store()
    on_liner: dict[int, tuple[Setting, dict[int, Dam]]] = {}
    layings: list[Reset] = []
    count = 0
    for place, setting in enumerate(settings):
        before, old = on_liner.get(setting.liner, (None, {}))
        changes = tuple(_change(job, setting, store, old))
        count += before is not None
        layings.append(Reset(count if before else 0, before, setting, changes))
        laid = {each.strip: each.becomes for each in changes if each.becomes}
        on_liner[setting.liner] = setting, laid
        for strip, dam in laid.items():
            store.uses[strip].append((place, dam))
    strips = (
        Strip(number, store.pieces[number], tuple(uses)) for number, uses in store.uses.items()
    )
    return StripList(tuple(strips), tuple(layings))


class _Store:
    """Strips that lie in store, by piece, each from a moment on; and all that were ever cut."""

    def __init__(self) -> None:
        self.pieces: dict[int, Piece] = {}
        self.uses: dict[int, list[tuple[int, Dam]]] = {}
        self._free: dict[Piece, list[tuple[int, int]]] = defaultdict(list)

    def put(self, strip: int, since: int) -> None:
        """Take a strip into the store."""
        heappush(self._free[self.pieces[strip]], (since, strip))

    def take(self, piece: Piece, now: int) -> tuple[int, bool]:
        """Return a strip of the piece, and whether it is cut for this."""
        free = self._free[piece]
        if free and free[0][0] <= now:
            return heappop(free)[1], False
        number = len(self.pieces) + 1
        self.pieces[number], self.uses[number] = piece, []
        return number, True


def _change(job: Job, setting: Setting, store: _Store, old: dict[int, Dam]) -> Iterator[Change]:
    """Yield what becomes of every strip of a liner, those of the old set first."""
    pieces = list_pieces(job, setting.layout)
    new = list(zip(setting.layout.dams, pieces, strict=True))
    places = {(dam.box, piece): dam for dam, piece in new}
    staying = {
        strip: places[dam.box, store.pieces[strip]]
        for strip, dam in old.items()
        if (dam.box, store.pieces[strip]) in places
    }
    stay = set(staying.values())
    left = [(dam, piece) for dam, piece in new if dam not in stay]
    moving = dict(_pair([s for s in old if s not in staying], store, old, left))
    for strip, dam in old.items():
        if strip in staying:
            yield Change(strip, "stays", dam, staying[strip])
        elif strip in moving:
            yield Change(strip, "moves", dam, moving[strip])
        else:
            yield Change(strip, "goes", dam, None)
            store.put(strip, setting.laid)
    moved = set(moving.values())
    for dam, piece in left:
        if dam not in moved:
            strip, is_cut = store.take(piece, setting.begins)
            yield Change(strip, "cut new" if is_cut else "from store", None, dam)


def _pair(
    strips: Iterable[int], store: _Store, old: dict[int, Dam], new: Sequence[tuple[Dam, Piece]]
) -> Iterator[tuple[int, Dam]]:
    """Yield the strips that move, each with the dam it becomes: the shortest way in total."""
    by_piece: dict[Piece, list[int]] = defaultdict(list)
    for strip in strips:
        by_piece[store.pieces[strip]].append(strip)
    for piece, group in by_piece.items():
        dams = [dam for dam, its in new if its == piece]
        costs = [[_way(old[strip], dam) for dam in dams] for strip in group]
        for row, column in match_cheapest(costs):
            yield group[row], dams[column]


def _way(one: Dam, other: Dam) -> int:
    """Return the way between the middles of two dams, along x and along y [half steps]."""
    a, b = one.box, other.box
    return abs(a.x0 + a.x1 - b.x0 - b.x1) + abs(a.y0 + a.y1 - b.y0 - b.y1)
