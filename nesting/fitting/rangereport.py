"""Every size a liner can give, as text and as JSON."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from nesting.files.columns import wrap_text, write_table
from nesting.files.document import to_json
from nesting.maps.sizeledges import Ledge
from nesting.maps.sizeregion import OrderedSize, Region, RegionPart
from nesting.schedules.setout import placed_size
from nesting.shapes.geometry import Box, Polygon, slabs
from nesting.tape import Tape, explain_beside
from nesting.units import to_mm
from nesting.unitwords import WORDS
from nesting.values.bed import Bed
from nesting.values.job import Job

_MOST_BOXES = 6
CAUTION = (
    "Local codes and licensed practice rule: that a size has a place certifies no panel, lift or "
    "structure."
)


@dataclass(frozen=True, slots=True)
class BedRange:
    """The region of one bed, in face sizes, and the order's sizes on it."""

    bed: Bed
    region: Region
    ordered: tuple[OrderedSize, ...]


def number_of_dams(dams: int) -> str:
    """Return ``no dam``, ``1 dam``, ``2 dams``.

    >>> number_of_dams(0), number_of_dams(1), number_of_dams(3)
    ('no dam', '1 dam', '3 dams')
    """
    return {0: "no dam", 1: "1 dam"}.get(dams, f"{dams} dams")


def bed_words(job: Job, name: str) -> str:
    """Return the bed in words: its name, form, radius and curved axis."""
    bed = job.bed(name)
    if bed.form == "flat":
        return f"bed {name}, flat" if name != "flat" else "flat bed"
    radius = job.tape.words(bed.radius)
    return f"bed {name}, {bed.form}, radius {radius} along {bed.curved_axis}"


def ledge_words(ledge: Ledge, tape: Tape) -> str:
    """Return a ledge as ``1490: rim to zone 'east'``; '-' where no cause is known."""
    return f"{tape.figure(ledge.at)}: {ledge.cause or '-'}"


def report_range(job: Job, ranges: Sequence[BedRange], *, exact: bool = False) -> str:
    """Return the whole report, without a final newline.

    Where ``exact`` is asked for, lengths that lie on no mark of the tape follow in decimals.
    """
    unit = WORDS[job.units].lengths
    sections = [[f"{job.title}: every size the liner can give, as face sizes in {unit}."]]
    for each in ranges:
        sections += _bed_sections(job, each, exact)
    told = explain_beside("\n".join(line for lines in sections for line in lines))
    sections.append([*[told] * bool(told), CAUTION])
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def range_to_json(job: Job, ranges: Sequence[BedRange]) -> str:
    """Return the regions as JSON text: lengths in mm, sizes as [width, height]."""
    document = {
        "job": job.title,
        "liner": job.liner.name,
        "beds": [_bed_entry(each) for each in ranges],
    }
    return to_json("nesting-range", 1, document)


def _bed_sections(job: Job, each: BedRange, exact: bool) -> list[list[str]]:
    region = each.region
    words = bed_words(job, each.bed.name)
    return [
        [f"{words[0].upper()}{words[1:]}", *wrap_text(_certainty(region), hang="")],
        _list_parts(job, region, exact),
        _list_ledges(job, region, exact),
        _list_order(job, each.ordered),
    ]


def _certainty(region: Region) -> str:
    dams = "the fewest they need" if region.is_fewest else "the most they need"
    if region.is_exact:
        return f"Exact: every size listed has a place, and no other has one. Dams are {dams}."
    return (
        "Sizes listed under a number of dams have a place for certain; dams are "
        f"{dams}. Sizes listed as possible lie near slanted ornament: they may have a place, and "
        "each must be tried with nesting fit. No other size has a place."
    )


def _list_parts(job: Job, region: Region, exact: bool) -> list[str]:
    rows = []
    named = [(number_of_dams(part.dams), part) for part in region.certain]
    for words, part in [*named, ("possible", region.possible)]:
        boxes = [each for polygon in part.polygons for each in _boxes(polygon)]
        boxes += [(line, "all") for line in part.lines]
        boxes += [(Box(*point, *point), "all") for point in part.points]
        rows += [[words, *_extent(box, job.tape, of_these, exact)] for box, of_these in boxes]
    head = ["dams", "width", "height", "of these", *["exact"] * exact]
    return ["Sizes, rectangle by rectangle:", *write_table(head, rows, left=head)]


def _boxes(polygon: Polygon) -> list[tuple[Box, str]]:
    """Return the rectangles of an area, or one around all where they are many."""
    boxes = slabs(polygon)
    if len(boxes) > _MOST_BOXES:
        return [(polygon.bounds, "some")]
    return [(box, "all") for box in boxes]


def _extent(box: Box, tape: Tape, of_these: str, exact: bool) -> list[str]:
    ends = {
        "least width": box.x0,
        "greatest width": box.x1,
        "least height": box.y0,
        "greatest height": box.y1,
    }
    told = [tape.list_exact(ends)] * exact
    return [_run(box.x0, box.x1, tape), _run(box.y0, box.y1, tape), of_these, *told]


def _run(low: int, high: int, tape: Tape) -> str:
    if low == high:
        return tape.figure(low)
    return f"{tape.figure(low)} to {tape.figure(high)}"


def _list_ledges(job: Job, region: Region, exact: bool) -> list[str]:
    rows = [
        [
            f"{'greatest' if ledge.is_most else 'least'} {ledge.axis}",
            job.tape.figure(ledge.at),
            _run(*ledge.span, job.tape),
            ledge.cause or "-",
            *[job.tape.list_exact(_ledge_lengths(ledge))] * exact,
        ]
        for ledge in region.ledges
    ]
    head = ["ledge", "at", "over", "stopped by", *["exact"] * exact]
    title = "Ledges, with what stops the two sides:"
    return [title, *write_table(head, rows, left=head)] if rows else []


def _ledge_lengths(ledge: Ledge) -> dict[str, int]:
    return {"at": ledge.at, "from": ledge.span[0], "to": ledge.span[1]}


def _list_order(job: Job, ordered: Sequence[OrderedSize]) -> list[str]:
    rows = [
        [
            size.mark,
            placed_size(job, size),
            "yes" if size.has_place else "no",
        ]
        for size in ordered
    ]
    head = ["panel", "face", "has a place"]
    return ["Sizes of the order:", *write_table(head, rows, left=head)] if rows else []


def _bed_entry(each: BedRange) -> dict[str, Any]:
    region = each.region
    return {
        "bed": each.bed.name,
        "exact": region.is_exact,
        "dams_are_fewest": region.is_fewest,
        "certain": [{"dams": part.dams, **_part_entry(part)} for part in region.certain],
        "possible": _part_entry(region.possible),
        "ledges": [
            {
                "axis": ledge.axis,
                "at": to_mm(ledge.at),
                "over": [to_mm(end) for end in ledge.span],
                "limit": "greatest" if ledge.is_most else "least",
                "stopped_by": ledge.cause or None,
            }
            for ledge in region.ledges
        ],
        "order": [
            {
                "mark": size.mark,
                "size": [to_mm(size.width), to_mm(size.height)],
                "has_place": size.has_place,
            }
            for size in each.ordered
        ],
    }


def _part_entry(part: RegionPart) -> dict[str, Any]:
    return {
        "polygons": [_polygon_entry(polygon) for polygon in part.polygons],
        "lines": [[_pair(line[:2]), _pair(line[2:])] for line in part.lines],
        "points": [_pair(point) for point in part.points],
    }


def _polygon_entry(polygon: Polygon) -> dict[str, Any]:
    return {
        "outline": [_pair(point) for point in polygon.shell],
        "holes": [[_pair(point) for point in hole] for hole in polygon.holes],
    }


def _pair(point: Sequence[int]) -> list[Fraction]:
    return [to_mm(point[0]), to_mm(point[1])]
