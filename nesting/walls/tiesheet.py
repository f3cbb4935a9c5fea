"""A sheet for each kind of tied panel: the inserts on its back, seen from behind.

Nothing is decided here: the places are known already.
"""

from collections.abc import Sequence
from itertools import chain

from nesting.drawings.compose import Figures, Head, Painted, Picture, compose
from nesting.drawings.key import HEIGHT, MOST_WIDTH, KeyRow, explain, heading
from nesting.drawings.ordinates import Ordinate
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Spot, Text
from nesting.drawings.sheet import SheetPlan
from nesting.shapes.geometry import Box
from nesting.tape import Tape
from nesting.walls.cladding import Wall
from nesting.walls.clearing import Forbidden
from nesting.walls.tiedkinds import TiedKind, alike_panels
from nesting.walls.tiereport import TIE_CAUTION
from nesting.walls.ties import TiedWall

_ARM, _OFF = 2.2, 1.2
"""Half the width of a cross, and how far its number stands off its middle [mm]."""


def draw_tie_sheets(wall: Wall, tied: TiedWall) -> list[Drawing]:
    """Return the sheets in the order of the walk, the inner panels of a pair first."""
    ground = tied.ground or {}
    return [
        _draw_kind(wall, kind, number, ground.get(kind.mark, ()))
        for number, kind in enumerate(alike_panels(tied.pairs), start=1)
    ]


def _draw_kind(wall: Wall, kind: TiedKind, number: int, ground: Sequence[Forbidden]) -> Drawing:
    behind = [Forbidden(each.name, tuple(map(kind.back.behind, each.rings))) for each in ground]
    frame = Box(0, 0, round(kind.back.width), wall.row_height)
    key = _key_rows(kind, has_hollows=bool(behind))
    across, up = _measure(wall, frame, kind, 0), _measure(wall, frame, kind, 1)

    def paint(sheet: SheetPlan, figures: Figures) -> Painted:
        rim = sheet.view.rect(frame).ring
        hollows = tuple(chain.from_iterable(_draw_hollow(sheet, each) for each in behind))
        inserts = chain.from_iterable(
            _draw_insert(sheet.view.at(spot), name, inward=1 if 2 * spot[0] < frame.x1 else -1)
            for name, spot in kind.inserts
        )
        return Painted(
            (
                Layer("panel", (Area((rim,), "panel"), Line((*rim, rim[0]), "rim"))),
                *([Layer("hollows", hollows)] if hollows else []),
                Layer("dimensions", tuple(chain(*figures))),
                Layer("inserts", tuple(inserts)),
            )
        )

    return compose(Picture(_head(wall, kind, number), frame, (key,), across, up), paint)


def _head(wall: Wall, kind: TiedKind, number: int) -> Head:
    return Head(
        f"ties-{number:02d}",
        f"{kind.mark}: inserts for ties",
        f"Back of {kind.mark}, {kind.panels}, seen from behind, with {len(kind.inserts)} inserts.",
        wall.units,
        (
            (wall.title, "Inserts for ties"),
            (f"{kind.mark}, {kind.panels} along the wall",),
            ("Back, seen from behind: as it lies on the liner",),
        ),
        "along the back",
    )


def _measure(wall: Wall, frame: Box, kind: TiedKind, axis: int) -> tuple[Ordinate, ...]:
    """Return the figures along x (0) or y (1): the back's ends heavy, the inserts between them."""
    end, across = (frame.x1, frame.y1) if axis == 0 else (frame.y1, frame.x1)
    tape = Tape(wall.units)
    hits: dict[int, list[int]] = {0: [0, across], end: [0, across]}
    for _, spot in kind.inserts:
        hits.setdefault(spot[axis], []).append(spot[1 - axis])
    return tuple(
        Ordinate(place, (min(hit), max(hit)), tape.figure(place), place in (0, end))
        for place, hit in sorted(hits.items())
    )


def _draw_hollow(sheet: SheetPlan, hollow: Forbidden) -> list[Shape]:
    rings = tuple(tuple(sheet.view.at(spot) for spot in ring) for ring in hollow.rings)
    x = sum(spot[0] for spot in rings[0]) / len(rings[0])
    y = sum(spot[1] for spot in rings[0]) / len(rings[0])
    name = Text(x, y - HEIGHT / 2, hollow.name, HEIGHT, "plain", "middle")
    rims = [Line((*ring, ring[0]), "rule") for ring in rings]
    return [Area(rings, "masked"), *rims, Area((name.rect.grown(0.8).ring,), "plate"), name]


def _draw_insert(at: Spot, number: int, *, inward: int) -> list[Shape]:
    """Return a cross and its number, which stands on the side of the back's middle."""
    x, y = at[0] + inward * _OFF, at[1] + _OFF
    return [*_cross(at), Text(x, y, str(number), HEIGHT, "bold", "start" if inward > 0 else "end")]


def _cross(at: Spot) -> list[Shape]:
    x, y = at
    return [
        Line(((x - _ARM, y), (x + _ARM, y)), "rim"),
        Line(((x, y - _ARM), (x, y + _ARM)), "rim"),
    ]


def _key_rows(kind: TiedKind, *, has_hollows: bool) -> tuple[KeyRow, ...]:
    def cross(place: Rect) -> list[Shape]:
        return _cross(place.centre)

    rows = [heading("Inserts for ties, seen from behind")]
    rows += explain("middle of an insert, with the number of its tie", MOST_WIDTH, cross)
    rows += explain(f"its twin: the same number in {kind.twin}", MOST_WIDTH, "blank")
    if has_hollows:
        words = "hollow that leaves too little thickness, on a panel of this mark"
        rows += explain(words, MOST_WIDTH, "masked")
    rows += explain("heavy figures: the ends of the back", MOST_WIDTH, "bold")
    rows += explain(
        "all figures from the left edge and the foot, as seen here", MOST_WIDTH, "blank"
    )
    rows += explain(TIE_CAUTION, MOST_WIDTH)
    return tuple(rows)
