r"""Writes DXF (R2000): a masking layout for the workshop's CAD, in mm, and a liner to draw on.

The same input gives the same bytes. Text is plain ASCII; other characters are written as DXF has
them, ``\U+00E9``.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

from nesting.drawings.labels import spread
from nesting.drawings.lettering import clean
from nesting.drawings.linersvg import ornament_facts
from nesting.drawings.ordinates import Ordinate, measure_faces
from nesting.drawings.terrain import frame_of
from nesting.files.columns import times_of
from nesting.files.marks import DXF_MARK, LINER_MARK
from nesting.shapes.geometry import Box, Polygon, Ring, polygon_of, subtract
from nesting.units import MM_PER_INCH, STEPS_PER_MM, decimal_text, to_mm
from nesting.values.casts import Layout
from nesting.values.job import Job
from nesting.values.liner import Liner

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

APP = "NESTING"
"""The name under which names and measures are kept with an entity (DXF: extended data)."""

_LAYOUT_LAYERS = {
    "LINER": 7,
    "ZONES": 30,
    "ORNAMENTS": 5,
    "PANELS": 3,
    "DAMS": 1,
    "MASKS": 8,
    "SET-OUT": 6,
}
_LINER_LAYERS = {"OUTLINE": 7, "BLANK": 30, "ORNAMENT": 5, "NAMES": 8}
_LETTER, _SMALL = 20.0, 12.0  # heights of capitals [mm]
_OFF, _STUB = 15.0, 60.0  # witness lines: how far off the liner, and how long [mm]


def layout_to_dxf(job: Job, layout: Layout) -> str:
    """Return a masking layout, positions as on the liner lying flat from its datum corner."""
    kept = {"KEEP-CLEAR": 1} if job.liner.keep_clear else {}
    with _document(_LAYOUT_LAYERS | kept) as doc:
        space = doc.modelspace()
        _rings(space, job.liner.outline, "LINER")
        for zone in job.liner.zones:
            _rings(space, zone.outline, "ZONES", {"name": zone.name})
        for ornament in job.liner.ornaments:
            _rings(space, ornament.outline, "ORNAMENTS", {"name": ornament.name})
        for each in job.liner.keep_clear:
            _ring(space, each.ground, "KEEP-CLEAR", {"name": each.name})
        sprayed = [polygon_of(panel.box) for panel in layout.panels]
        sprayed += [polygon_of(dam.box) for dam in layout.dams]
        for mask in subtract([job.liner.outline], sprayed):
            _rings(space, mask, "MASKS")
        for panel in layout.panels:
            mark = panel.mark + "*" * panel.turned
            _ring(space, panel.box.ring, "PANELS", {"mark": panel.mark})
            _words(space, mark, _middle(panel.box), "PANELS", _LETTER)
        for dam in layout.dams:
            _ring(space, dam.box.ring, "DAMS", {"name": dam.name})
            upright = dam.height > dam.width
            _words(space, dam.name, _middle(dam.box), "DAMS", _SMALL, upright=upright)
        frame = frame_of(job)
        times = times_of(layout.repeats)
        title = f"{job.title}: layout {layout.number}, cast {times} on bed {layout.bed}"
        top = (frame.x0 / STEPS_PER_MM, frame.y1 / STEPS_PER_MM + _OFF)
        _words(space, title, top, "SET-OUT", _LETTER, anchor="BOTTOM_LEFT")
        across, up = measure_faces(job, layout, frame)
        _set_out(space, across, frame, along_x=True)
        _set_out(space, up, frame, along_x=False)
        return f"{DXF_MARK}{_text(doc)}"


def liner_to_dxf(liner: Liner, units: str = "mm") -> str:
    """Return a liner on layers OUTLINE, ORNAMENT and BLANK that reads back equal, its units too.

    Names, thickness and relief are kept with each outline as extended data; layer NAMES shows the
    names to people and is not read.
    """
    with _document(_LINER_LAYERS) as doc:
        space = doc.modelspace()
        facts = {
            "name": liner.name,
            "thickness": f"{_mm(liner.thickness)} mm",
            "unmarked": liner.unmarked,
        }
        _rings(space, liner.outline, "OUTLINE", facts)
        for zone in liner.zones:
            _rings(space, zone.outline, "BLANK", {"name": zone.name})
            _words(space, zone.name, _middle(zone.outline.bounds), "NAMES", _SMALL)
        for ornament in liner.ornaments:
            facts = {"name": ornament.name, **ornament_facts(ornament)}
            _rings(space, ornament.outline, "ORNAMENT", facts)
            _words(space, ornament.name, _middle(ornament.outline.bounds), "NAMES", _SMALL)
        if units == "in":
            _turn_to_inches(doc)
        return f"999\nLiner written {LINER_MARK}\n{_text(doc)}"


@contextmanager
def _document(layers: Mapping[str, int]) -> Iterator[Drawing]:
    """Yield an empty document; while it is open, dates and random ids are fixed."""
    from ezdxf import units
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    was = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        doc = new("R2000", units=units.MM)
        doc.header["$MEASUREMENT"] = 1
        doc.appids.add(APP)
        for name, colour in layers.items():
            doc.layers.add(name, color=colour)
        yield doc
    finally:
        options.write_fixed_meta_data_for_testing = was


def _turn_to_inches(doc: Drawing) -> None:
    """Have a document that was drawn in mm count in inches, as its header then says."""
    from ezdxf import transform, units

    doc.units = units.IN
    doc.header["$MEASUREMENT"] = 0  # DXF reference: 0 is English, 1 metric
    transform.scale_uniform(doc.modelspace(), float(1 / MM_PER_INCH))


def _text(doc: Drawing) -> str:
    stream = io.StringIO()
    doc.write(stream)
    return "".join(map(_ascii, stream.getvalue()))


def _ascii(letter: str) -> str:
    """Return a character as DXF writes it in ASCII; one that has no four digits as ``?``."""
    if letter.isascii():
        return letter
    return f"\\U+{ord(letter):04X}" if ord(letter) < 0x10000 else "?"


def _rings(
    space: Modelspace, polygon: Polygon, layer: str, facts: Mapping[str, str] | None = None
) -> None:
    for number, ring in enumerate(polygon.rings):
        _ring(space, ring, layer, {} if number else facts)


def _ring(
    space: Modelspace, ring: Ring, layer: str, facts: Mapping[str, str] | None = None
) -> None:
    points = [(x / STEPS_PER_MM, y / STEPS_PER_MM) for x, y in ring]
    line = space.add_lwpolyline(points, close=True, dxfattribs={"layer": layer})
    if facts:
        line.set_xdata(APP, [(1000, f"{key}={value}") for key, value in facts.items()])


def _words(
    space: Modelspace,
    words: str,
    spot: tuple[float, float],
    layer: str,
    height: float,
    *,
    upright: bool = False,
    anchor: str = "MIDDLE_CENTER",
) -> None:
    from ezdxf.enums import TextEntityAlignment

    attributes = {"layer": layer, "height": height, "rotation": 90.0 if upright else 0.0}
    text = space.add_text(clean(words), dxfattribs=attributes)
    text.set_placement(spot, align=TextEntityAlignment[anchor])


def _set_out(space: Modelspace, faces: Sequence[Ordinate], frame: Box, *, along_x: bool) -> None:
    """Draw a figure for every face below or left of the liner, fanned out where they are close."""
    values = [face.value / STEPS_PER_MM for face in faces]
    pitch = 1.5 * _SMALL
    run = max(values) - min(values), pitch * (len(values) - 1)
    spare = max(0.0, run[1] - run[0]) / 2
    places = spread(values, pitch, min(values) - spare - pitch, max(values) + spare + pitch)
    edge = (frame.y0 if along_x else frame.x0) / STEPS_PER_MM
    for face, value, place in zip(faces, values, places, strict=True):
        line: list[tuple[float, float]] = [(value, edge - _OFF), (place, edge - _OFF - _STUB)]
        line = line if along_x else [(y, x) for x, y in line]
        space.add_lwpolyline(line, dxfattribs={"layer": "SET-OUT"})
        at = (place, edge - _OFF - _STUB - _SMALL / 2)
        spot = at if along_x else (at[1], at[0])
        _words(space, face.words, spot, "SET-OUT", _SMALL, upright=along_x, anchor="MIDDLE_RIGHT")


def _middle(box: Box) -> tuple[float, float]:
    return (box.x0 + box.x1) / 2 / STEPS_PER_MM, (box.y0 + box.y1) / 2 / STEPS_PER_MM


def _mm(steps: int) -> str:
    return decimal_text(to_mm(steps), 6)  # exact: a step is 1/8000 mm
