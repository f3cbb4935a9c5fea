"""Reads a DXF drawing: which entities have a role, and where they lie."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from nesting.errors import InputError
from nesting.liners.dxfentities import CurveRun, Entity, plane_of, read_entity
from nesting.liners.dxfopen import find_unit, open_dxf
from nesting.liners.options import DrawingOptions
from nesting.shapes.curves import IDENTITY, Curve, Matrix, apply, combined
from nesting.shapes.pieces import Label, Piece, Role, Sketch, Stray, trace_curve

if TYPE_CHECKING:
    from ezdxf.document import Drawing

MOST_VISITS = 100_000
"""Most entities that are read, those of blocks counted each time they are inserted."""
MOST_CURVES = 400_000
MOST_DEPTH = 16
"""How deep blocks may be inserted in blocks."""
APP = "NESTING"
"""The name under which names and measures are kept with an entity (DXF: extended data)."""

_SILENT = frozenset(
    """POINT DIMENSION ARC_DIMENSION LARGE_RADIAL_DIMENSION LEADER MULTILEADER ATTDEF ATTRIB
    TOLERANCE VIEWPORT XLINE RAY WIPEOUT""".split()  # noqa: SIM905 - a list of 15 lines says no more
)
"""Entities that bound no ground even on a layer with a role."""

_AREAS = ("HATCH", "MPOLYGON")
_FAR = 1e12
_CODED = re.compile(r"\\U\+([0-9A-Fa-f]{4})")
_NO_ROLE = "the layer has no role; give it one with --layer"
_GUESSED = (
    "a spline that is told by the points it meets runs between them as was worked out here, "
    "which another program may do otherwise"
)
_EMPTY = "it encloses nothing and leads nowhere"
_NOT_READ = (
    "such an entity is not read; break it into single lines, or move it to a layer without a role"
)


@dataclass(frozen=True, slots=True)
class _Around:
    """What the blocks around an entity pass on to it."""

    matrix: Matrix = IDENTITY
    layer: str = ""
    name: str = ""
    hidden: str = ""
    blocks: tuple[str, ...] = ()


@dataclass(slots=True)
class _Walk:
    """The walk through the drawing and what it has found."""

    where: str
    doc: Drawing
    options: DrawingOptions
    pieces: list[Piece] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)
    strays: list[Stray] = field(default_factory=list)
    guessed: list[str] = field(default_factory=list)
    visits: int = 0
    curves: int = 0


def read_dxf(where: str, content: bytes, options: DrawingOptions) -> Sketch:
    """Return what a DXF file draws in model space, in its own units.

    Raises
    ------
    InputError
        For a file that is not DXF, is past recovery, is hostile, or does not tell its unit; and
        where the package that reads DXF is missing.
    """
    doc, notes, lost = open_dxf(where, content)
    place, units, told = find_unit(where, doc, options)
    walk = _Walk(where, doc, options, strays=lost)
    for entity in doc.modelspace():
        _visit(entity, _Around(), walk)
    if walk.guessed:
        notes.append(f"Warning: {_GUESSED}: {', '.join(walk.guessed[:12])}")
    elsewhere = sum(len(doc.paperspace(name)) for name in doc.layout_names() if name != "Model")
    if elsewhere:
        notes.append(f"{elsewhere} entities on paper layouts are not looked at")
    return Sketch(
        tuple(walk.pieces),
        place,
        units,
        tuple(walk.labels),
        tuple(walk.strays),
        (told, *notes),
    )


def _visit(entity: Entity, around: _Around, walk: _Walk) -> None:
    walk.visits += 1
    if walk.visits > MOST_VISITS:
        rule = f"a drawing has at most {MOST_VISITS} entities, those of blocks counted each time"
        raise InputError(walk.where, rule)
    kind = entity.dxftype()
    own = _layer_of(entity)
    layer = around.layer if own == "0" and around.layer else own
    hidden = around.hidden or _hidden(entity, layer, walk.doc)
    inside = _Around(around.matrix, layer, around.name, hidden, around.blocks)
    role = walk.options.role_of(layer)
    if kind == "INSERT":
        _insert(entity, inside, role, walk)
    elif kind in ("TEXT", "MTEXT") and role is not None and not hidden:
        _label(entity, role, inside, walk)
    else:
        _read(entity, inside, role, walk)


def _attribute(entity: Entity, key: str, default: object) -> object:
    """Return an attribute of an entity, whose kind the library may not know."""
    return entity.dxf.get(key, default) if entity.dxf.is_supported(key) else default


def _layer_of(entity: Entity) -> str:
    """Return the layer of an entity, of one whose kind is not known too."""
    if entity.dxf.is_supported("layer"):
        return _plain(entity.dxf.get("layer", "0"))
    tags = getattr(entity, "xtags", None)
    found = (
        tag.value for part in (tags.subclasses if tags else ()) for tag in part if tag.code == 8
    )
    return _plain(next(found, "0"))


def _hidden(entity: Entity, layer: str, doc: Drawing) -> str:
    """Return why an entity is not shown; of an insert, why nothing in its block is.

    A layer that is off hides what is on it, and what lies in blocks by their own layers only.
    """
    if _attribute(entity, "invisible", 0):
        return "it is invisible"
    if doc.layers.has_entry(layer):
        found = doc.layers.get(layer)
        is_off = found.is_off() and entity.dxftype() != "INSERT"
        if is_off or found.is_frozen():
            return f"layer '{layer}' is off or frozen"
    return ""


def _what(entity: Entity, layer: str) -> str:
    handle = _attribute(entity, "handle", "")
    return f"{entity.dxftype()} {f'{handle} ' if handle else ''}on layer '{layer}'"


def _read(entity: Entity, around: _Around, role: Role | None, walk: _Walk) -> None:
    """Take in an entity with a role; note any other as left out."""
    what = _what(entity, around.layer)
    is_needed = role is not None and not around.hidden
    try:
        runs = read_entity(entity)
        for run in runs or ():
            _refuse_far(run.curves, around.matrix)
    except (ValueError, TypeError, ArithmeticError, AttributeError, IndexError) as error:
        walk.strays.append(Stray(what, f"it cannot be read: {error}"[:200], is_needed=is_needed))
        return
    if runs is None or role is None or around.hidden:
        _pass_by(entity, runs or (), around, role, walk)
        return
    walk.curves += sum(len(run.curves) for run in runs)
    if walk.curves > MOST_CURVES:
        raise InputError(walk.where, f"a drawing has at most {MOST_CURVES} curves")
    if not runs:
        walk.strays.append(Stray(what, _EMPTY, is_needed=entity.dxftype() in _AREAS))
    if entity.dxftype() == "SPLINE" and not len(entity.control_points):
        walk.guessed.append(what)
    facts = _facts(entity)
    name = facts.pop("name", around.name)
    told, group = tuple(facts.items()), str(walk.visits)
    for run in runs:
        moved = tuple(curve.moved(around.matrix) for curve in run.curves)
        walk.pieces.append(Piece(role, moved, run.is_closed, what, name, group, False, told))


def _pass_by(
    entity: Entity, runs: Sequence[CurveRun], around: _Around, role: Role | None, walk: _Walk
) -> None:
    """Note an entity that is not taken: a mistake where it has a role and could bound ground."""
    kind = entity.dxftype()
    why = around.hidden or _NOT_READ
    what = _what(entity, around.layer)
    if role is None:
        why, what = around.hidden or _NO_ROLE, f"{kind} on layer '{around.layer}'"
    curves = [curve for run in runs for curve in run.curves]
    traced = (spot for curve in curves for spot in (*trace_curve(curve), curve.end))
    spots = [apply(around.matrix, spot) for spot in traced]
    is_needed = role is not None and not around.hidden and kind not in _SILENT
    walk.strays.append(Stray(what, why, tuple(spots[:400]), is_needed=is_needed))


def _refuse_far(curves: tuple[Curve, ...], matrix: Matrix) -> None:
    for curve in curves:
        for part in (0.0, 0.5, 1.0):
            x, y = apply(matrix, curve.point(part))
            if not (math.isfinite(x) and math.isfinite(y) and max(abs(x), abs(y)) < _FAR):
                raise ValueError("its coordinates are not finite or too far out")


def _plain(text: object) -> str:
    r"""Return a text with its other characters, which older DXF writes like ``\U+00E9``."""
    return _CODED.sub(lambda found: chr(int(found[1], 16)), str(text))


def _facts(entity: Entity) -> dict[str, str]:
    """Return what was kept with the entity when it was written by us."""
    if not entity.has_xdata(APP):
        return {}
    texts = (_plain(tag.value) for tag in entity.get_xdata(APP) if tag.code == 1000)
    pairs = (text.partition("=") for text in texts)
    return {key: value for key, sign, value in pairs if sign}


def _label(entity: Entity, role: Role, around: _Around, walk: _Walk) -> None:
    """Note the words of a text and where it stands."""
    words = entity.plain_text()
    if not isinstance(words, str):
        words = " ".join(words)
    insert = entity.dxf.get("insert", (0.0, 0.0, 0.0))
    matrix = plane_of(entity) if entity.dxftype() == "TEXT" else IDENTITY
    spot = apply(combined(around.matrix, matrix), (float(insert[0]), float(insert[1])))
    if all(math.isfinite(value) for value in spot):
        walk.labels.append(Label(role, _plain(" ".join(words.split())), spot))


def _insert(entity: Entity, around: _Around, role: Role | None, walk: _Walk) -> None:
    """Read a block where it is inserted, as often as it is.

    Whatever the layer of the insert, that of an ornament may be told within the block. A block of
    another file on a layer without a role is background, as CAD users attach it.
    """
    what = _what(entity, around.layer)
    is_needed = not around.hidden
    block = entity.block()
    name = str(entity.dxf.get("name", ""))
    why = ""
    if block is None:
        why = f"there is no block '{name[:60]}'"
    elif block.block.is_xref:
        why = f"block '{name[:60]}' lies in another file, which is not fetched"
        is_needed = is_needed and role is not None
    elif name in around.blocks or len(around.blocks) >= MOST_DEPTH:
        why = (
            f"block '{name[:60]}' is inserted in itself, or blocks nest more than {MOST_DEPTH} deep"
        )
    elif walk.visits + entity.mcount * max(1, len(block)) > MOST_VISITS:
        rule = f"a drawing has at most {MOST_VISITS} entities, those of blocks counted each time"
        raise InputError(walk.where, rule, f"{entity.mcount} copies of block '{name[:60]}'")
    elif not len(block):
        why = f"block '{name[:60]}' is empty"
        is_needed = is_needed and role is not None
    if why:
        walk.strays.append(Stray(what, why, is_needed=is_needed))
        return
    shown = around.name if name.startswith("*") else _plain(name)
    for single in entity.multi_insert() if entity.mcount > 1 else (entity,):
        walk.visits += 1
        matrix = combined(around.matrix, _matrix(single))
        inside = _Around(matrix, around.layer, shown, around.hidden, (*around.blocks, name))
        for each in block:
            _visit(each, inside, walk)


def _matrix(insert: Entity) -> Matrix:
    found = insert.matrix44()
    (a, b, _), (c, d, _) = (found.transform_direction(axis) for axis in ((1, 0, 0), (0, 1, 0)))
    e, f, _ = found.transform((0, 0, 0))
    return a, b, c, d, e, f
