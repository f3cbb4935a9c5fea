"""Names on a drawing: panels inside their ground, dams and ornaments on or beside theirs.

Each name takes the cheapest free place; no two ever meet. A name that does not stand on what it
names has a leader to it.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain, islice
from math import hypot

from nesting.drawings.labels import Taken, beside, nearest_on, within
from nesting.drawings.lettering import fold, shorten, words_depth, words_rise, words_width
from nesting.drawings.record import Area, AreaStyle, Line, Rect, Shape, Spot, Text, TextStyle

TINY, SMALL, MEDIUM, LARGE = 2.5, 3.5, 5.0, 7.0
HEIGHTS = (LARGE, MEDIUM, SMALL)
"""Of the names of panels [mm], the best first."""
_AIR = 0.8
_LEADING = 1.0
_DOT = 0.5
_INSET, _BARE_INSET = 2.0, 0.4
_FAR_COST = 15.0
_ON_LEADER = 20.0
_BARE_RANK = 10
COVERS = 100.0
"""The cost of standing on a thing that a name must not cover; larger paper is tried first."""
_LEAST_PART = 11  # letters of a mark that is cut, with the dots

_Line = tuple[str, float, TextStyle]


@dataclass(frozen=True, slots=True)
class Caption:
    """Lines of words read together: (words, height [mm], style), the first one uppermost.

    ``is_tag`` puts a thin frame around them.
    """

    lines: tuple[_Line, ...]
    upright: bool = False
    is_tag: bool = False

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the ground it takes on the sheet, with air around it [mm]."""
        width = max(words_width(words, h, bold=style == "bold") for words, h, style in self.lines)
        height = sum(words_rise(w, h) + words_depth(w, h) for w, h, _ in self.lines)
        long, short = width + 2 * _AIR, height + _LEADING * (len(self.lines) - 1) + 2 * _AIR
        return (short, long) if self.upright else (long, short)

    @property
    def words(self) -> str:
        """All its words."""
        return " ".join(words for words, _, _ in self.lines)

    def texts(self, rect: Rect) -> list[Text]:
        """Return the words set in the middle of the rectangle."""
        x, y = rect.centre
        width, height = self.size
        offset = (width if self.upright else height) / 2 - _AIR
        texts: list[Text] = []
        for words, h, style in self.lines:
            offset -= words_rise(words, h)
            spot = (x - offset, y) if self.upright else (x, y + offset)
            texts.append(Text(*spot, words, h, style, "middle", upright=self.upright))
            offset -= words_depth(words, h) + _LEADING
        return texts


@dataclass(frozen=True, slots=True)
class _Place:
    """A possible place of a caption: its cost so far, and the spot a leader must reach, if any."""

    cost: float
    caption: Caption
    rect: Rect
    spot: Spot | None = None


@dataclass(slots=True)
class PlacedNames:
    """The names placed so far on the ground where names may stand, and what is left without one.

    An ornament's name may cost ``spare`` at most. ``marks`` are those of all panels. ``unsized``
    lists the panels, by mark, whose size had no room; ``unplaced`` what has no name, or one that
    covers what it must not.
    """

    ground: Rect
    taken: Taken
    spare: float = 0.0
    marks: tuple[str, ...] = ()
    leaders: list[Shape] = field(default_factory=list)
    plates: list[Shape] = field(default_factory=list)
    texts: list[Shape] = field(default_factory=list)
    unsized: list[str] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """Leaders lowest, then plates that keep the words clear, then the words."""
        return (*self.leaders, *self.plates, *self.texts)

    def name_panel(self, room: Rect, mark: str, size: str) -> None:
        """Name a panel inside its ground: mark and size, as large as they go, or the mark alone.

        A mark longer than the panel is folded, or cut where enough of it stays. Where not even
        that goes in, it stands beside with a leader.
        """
        inside, bare = room.grown(-_INSET), room.grown(-_BARE_INSET)
        others = [other for other in self.marks if other != mark]
        captions = chain(
            ((inside, *ranked) for ranked in _sized_captions(mark, size)),
            ((inside, *ranked) for ranked in _folded_captions(inside, mark, size)),
            ((bare, *ranked) for ranked in _bare_captions(mark)),
            ((bare, *ranked) for ranked in _folded_captions(bare, mark)),
            ((bare, *ranked) for ranked in _short_captions(bare, mark, _LEAST_PART, others)),
        )
        places = (
            _Place(rank + _shift(rect, inside) / 20, caption, rect)
            for space, rank, caption in captions
            for rect in within(space, *caption.size)
        )
        best = self._cheapest(places)
        if best:
            self._put(best)
        else:
            self._point(room, _core(room), Caption((self._line(mark),)), mark)
        if best is None or size not in best.caption.words:
            self.unsized.append(mark)

    def mark_panel(
        self, room: Rect, mark: str, number: str = "", heights: Sequence[float] = HEIGHTS
    ) -> bool:
        """Write the mark whole inside a panel, or where it is too small the number in a tag.

        The number stands beside the panel, with a leader, where it has no room inside. Words are
        as high as they can be of the ``heights`` [mm], the greatest first. Return whether the
        panel is named; where not, nothing is written.
        """
        inside = room.grown(-_BARE_INSET)
        tags = (Caption(((number, high, "plain"),), is_tag=True) for high in (*heights[1:], TINY))
        captions = chain(
            _bare_captions(mark, heights),
            _folded_captions(inside, mark),
            ((2 * _BARE_RANK, tag) for tag in tags if number),
        )
        places = (
            _Place(rank + _shift(rect, inside) / 20, caption, rect)
            for rank, caption in captions
            for rect in within(inside, *caption.size)
        )
        best = self._cheapest(places)
        if best:
            self._put(best)
        elif number:
            self._point(room, _core(room), Caption(((number, TINY, "plain"),), is_tag=True), mark)
        return bool(best or number)

    def name_dam(self, strip: Rect, name: str) -> None:
        """Name a dam in a tag: on it where it is thick enough, else beside it with a leader."""
        for upright in (False, True):
            caption = Caption((self._line(name),), upright, is_tag=True)
            for rect in within(strip.grown(-0.5), *caption.size):
                if self.taken.is_free(rect):
                    self._put(_Place(0, caption, rect))
                    return
        self._point(strip, strip, Caption((self._line(name),), is_tag=True), name)

    def name_ornament(
        self, room: Rect, name: str, *, is_needed: bool = False, nearby: int = 12
    ) -> None:
        """Name an ornament inside its bounds or close by, or not at all where that is not clear.

        Close by are so many places ``nearby``. A name that ``is_needed`` then stands beside with a
        leader.
        """
        words = shorten(name, 40, SMALL)
        if words and not self.name_within(room, words, nearby=nearby) and is_needed:
            self._point(room, _core(room), Caption(((words, SMALL, "plain"),)), name)

    def name_within(self, room: Rect, words: str, *, nearby: int = 0) -> bool:
        """Write words inside the room, or at one of so many places close by, where that is clear.

        Return whether they found a place.
        """
        for upright in (False, True):
            caption = Caption(((words, SMALL, "plain"),), upright)
            near = (rect for rect, _ in islice(beside(room, *caption.size), nearby))
            for rect in chain(within(room, *caption.size), near):
                if self._is_cheap(rect):
                    self._put(_Place(0, caption, rect))
                    return True
        return False

    def _point(self, target: Rect, core: Rect, caption: Caption, what: str) -> None:
        """Put the caption beside its target with a leader to its core; note what finds no place."""
        near = ((0.0, rect, nearest_on(core, spot)) for rect, spot in beside(target, *caption.size))
        far = (
            (_FAR_COST, rect, spot)
            for rect in within(self.ground, *caption.size, steps=24)
            for spot in [nearest_on(core, rect.centre)]
        )
        options = (
            _Place(extra + _distance(rect, spot), caption, rect, spot)
            for extra, rect, spot in chain(near, far)
        )
        best = self._cheapest(sorted(options, key=lambda place: place.cost))
        if best is None or self._whole_cost(best) >= COVERS:
            self.unplaced.append(what)
        if best and best.spot:
            self._put(best)
            self._lead(best.rect, best.spot)

    def _line(self, name: str) -> _Line:
        return shorten(name, min(60.0, self.ground.width / 3), SMALL, bold=True), SMALL, "bold"

    def _is_cheap(self, rect: Rect) -> bool:
        is_open = self.ground.holds(rect) and self.taken.is_free(rect)
        return is_open and self.taken.cost(rect) <= self.spare

    def _cheapest(self, places: Iterable[_Place]) -> _Place | None:
        """Return the place with the least whole cost; what already costs more is not looked at."""
        best: _Place | None = None
        least = float("inf")
        for place in places:
            if place.cost >= least or not self._is_open(place):
                continue
            cost = self._whole_cost(place)
            if cost < least:
                best, least = place, cost
        return best

    def _is_open(self, place: _Place) -> bool:
        rect, spot = place.rect, place.spot
        if not self.ground.holds(rect) or not self.taken.is_free(rect):
            return False
        return spot is None or self.taken.is_clear(nearest_on(rect, spot), spot)

    def _whole_cost(self, place: _Place) -> float:
        cost = place.cost + self.taken.cost(place.rect)
        if place.spot is None:
            return cost
        start = nearest_on(place.rect, place.spot)
        return cost + self.taken.leader_cost(start, place.spot)

    def _lead(self, rect: Rect, spot: Spot) -> None:
        leader = (nearest_on(rect, spot), spot)
        self.leaders.append(Line(leader, "leader"))
        self.leaders.append(Area((Rect(*spot, *spot).grown(_DOT).ring,), "datum"))
        self.taken.draw(leader, _ON_LEADER, _ON_LEADER)

    def _put(self, place: _Place) -> None:
        self.taken.take(place.rect)
        style: AreaStyle = "tag" if place.caption.is_tag else "plate"
        self.plates.append(Area((place.rect.grown(-0.2).ring,), style))
        self.texts += place.caption.texts(place.rect)


def _sized_captions(mark: str, size: str) -> Iterator[tuple[int, Caption]]:
    """Yield the ways to letter a panel with its size, and the rank of each, the best first."""
    for rank, height in enumerate(HEIGHTS):
        for upright in (False, True):
            below: tuple[_Line, ...] = ((mark, height, "bold"), (size, SMALL, "plain"))
            yield 2 * rank + upright, Caption(below, upright)
            yield 2 * rank + upright + 1, Caption(((f"{mark}: {size}", height, "bold"),), upright)


def _bare_captions(mark: str, heights: Sequence[float] = HEIGHTS) -> Iterator[tuple[int, Caption]]:
    """Yield the ways to letter a panel with its mark alone, and the rank of each."""
    for rank, height in enumerate(heights):
        for upright in (False, True):
            yield _BARE_RANK + 2 * rank + upright, Caption(((mark, height, "bold"),), upright)


def _folded_captions(room: Rect, mark: str, size: str = "") -> Iterator[tuple[int, Caption]]:
    """Yield the ways to letter a panel with its mark in several lines, and the rank of each."""
    below: tuple[_Line, ...] = ((size, SMALL, "plain"),) if size else ()
    for upright, length in ((False, room.width), (True, room.height)):
        lines = fold(mark, length - 2 * _AIR, SMALL, bold=True)
        if len(lines) > 1:
            folded: tuple[_Line, ...] = tuple((line, SMALL, "bold") for line in lines)
            rank = (_BARE_RANK - 3 if size else _BARE_RANK + 6) + upright
            yield rank, Caption((*folded, *below), upright)


def _short_captions(
    room: Rect, mark: str, least: int = 1, others: Sequence[str] = ()
) -> Iterator[tuple[int, Caption]]:
    """Yield the ways to letter a panel with a part of its mark, and the rank of each.

    The part has ``least`` letters, the dots counted, and is not that of any of the ``others`` too.
    """
    for upright, length in ((False, room.width), (True, room.height)):
        space = length - 2 * _AIR
        short = shorten(mark, space, SMALL, bold=True)
        is_own = all(shorten(other, space, SMALL, bold=True) != short for other in others)
        if len(short) >= least and is_own:
            yield 2 * _BARE_RANK, Caption(((short, SMALL, "bold"),), upright)


def _core(target: Rect) -> Rect:
    """Return the inner part of the target, where a leader's end cannot be mistaken."""
    inset = min(2.0, target.width / 2, target.height / 2)
    return target.grown(-inset)


def _shift(rect: Rect, room: Rect) -> float:
    return hypot(rect.centre[0] - room.centre[0], rect.centre[1] - room.centre[1])


def _distance(rect: Rect, spot: Spot) -> float:
    x, y = nearest_on(rect, spot)
    return hypot(x - spot[0], y - spot[1])
