"""The ties of a wall as text and as JSON: their places on both backs, what was moved, and why."""

from math import ceil
from typing import Any

from nesting.files.columns import TextTable, count_of, wrap_text
from nesting.masses import mass_text
from nesting.schedules.setout import write_length
from nesting.units import to_mm
from nesting.unitwords import WORDS
from nesting.values.names import cast_range
from nesting.walls.cladding import Wall
from nesting.walls.tiedkinds import alike_pairs
from nesting.walls.ties import Tie, TiedPair, TiedWall
from nesting.walls.twins import worst_miss

TIE_CAUTION = (
    "Places and masses only: no strength of tie, insert or panel is reckoned or certified. Ties "
    "are for a licensed engineer to design, and local codes rule."
)


def list_ties(wall: Wall, tied: TiedWall) -> list[str]:
    """Return the lines of the report that tell of the ties."""
    lines = [tell_count(wall, tied), *tie_table(wall, tied).told]
    for text in tie_notes(wall, tied):
        lines += wrap_text(text)
    return lines


def tell_count(wall: Wall, tied: TiedWall) -> str:
    """Return how many ties the wall takes in all, and their mass where the file tells it."""
    count = wall.rows * sum(len(pair.ties) for pair in tied.pairs)
    text = f"Ties: {count}, each with an insert in either skin"
    if wall.ties and wall.ties.mass:
        return f"{text}; {mass_text(count * wall.ties.mass, wall.units)} in all."
    return f"{text}."


def tie_table(wall: Wall, tied: TiedWall) -> TextTable:
    """Return the places of all ties: a row for the rows of a pair that stand alike."""
    unit = WORDS[wall.units].lengths
    title = (
        f"Places in {unit}: along the back from its left edge seen from behind, as the panel lies "
        "on the liner, and up from its foot; in turn, the ties of an inner panel and their twins:"
    )
    rows = [
        [
            group[0].inner.stretch.mark,
            group[0].outer.stretch.mark,
            cast_range([pair.inner.number for pair in group]),
            *cells,
        ]
        for group in alike_pairs(tied.pairs)
        for cells in _place_cells(wall, group[0])
    ]
    head = ["inner", "outer", "panels", "up", "along inner back", "along outer back"]
    return TextTable(title, head, rows, head)


def tie_notes(wall: Wall, tied: TiedWall) -> list[str]:
    """Return what to know of the places, in paragraphs: checks, what was moved, and the caution."""
    miss = ceil(worst_miss(wall, tied.pairs) * 1000) / 1000
    notes = [
        "Looked at again in plan: each insert faces its twin square to both backs, within "
        f"{miss:g} mm. No tie is placed in a corner return."
    ]
    if tied.ground is None:
        notes.append("Hollows are not looked at: no job and schedule tell of them.")
    moved = [text for group in alike_pairs(tied.pairs) for text in _tell_moved(wall, group)]
    return [*notes, *moved, TIE_CAUTION]


def tie_entries(wall: Wall, tied: TiedWall) -> list[dict[str, Any]]:
    """Return the pairs of panels with their ties for JSON: lengths in mm, exact."""
    return [
        {
            "part": wall.parts[pair.inner.stretch.part].name,
            "panel": pair.inner.number,
            "inner": pair.inner.stretch.mark,
            "outer": pair.outer.stretch.mark,
            "ties": [
                {
                    "number": tie.number,
                    "row": tie.row,
                    "inner": [to_mm(each) for each in tie.inner],
                    "outer": [to_mm(each) for each in tie.outer],
                    "moved": to_mm(tie.shift),
                }
                for tie in pair.ties
            ],
        }
        for pair in tied.pairs
    ]


def _place_cells(wall: Wall, pair: TiedPair) -> list[list[str]]:
    """Return heights and places of the rows of a pair, rows at the same places together."""
    alike: dict[tuple[str, str], list[str]] = {}
    for row in sorted({tie.row for tie in pair.ties}):
        ties = [tie for tie in pair.ties if tie.row == row]
        inner = _join(wall, [tie.inner[0] for tie in ties])
        outer = _join(wall, [tie.outer[0] for tie in ties])
        alike.setdefault((inner, outer), []).append(write_length(ties[0].inner[1], wall.units))
    return [[", ".join(ups), *places] for places, ups in alike.items()]


def _join(wall: Wall, places: list[int]) -> str:
    return ", ".join(write_length(each, wall.units) for each in places)


def _tell_moved(wall: Wall, group: list[TiedPair]) -> list[str]:
    moved: list[Tie] = [tie for tie in group[0].ties if tie.shift]
    if not moved:
        return []
    told = ", ".join(
        f"{tie.number} by {write_length(abs(tie.shift), wall.units)} to the "
        f"{'right' if tie.shift > 0 else 'left'}"
        for tie in moved
    )
    where = f"{group[0].inner.stretch.mark} {cast_range([pair.inner.number for pair in group])}"
    ties = count_of(len(moved), "tie")
    return [
        f"Moved along to keep clear of hollows, both inserts on their ray: of {where}, {ties}, "
        f"in {WORDS[wall.units].lengths} on the inner back: {told}. The spacing beside them is "
        "more than was asked for."
    ]
