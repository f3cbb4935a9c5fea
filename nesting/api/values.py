"""Liner, rules, beds and panels as Python values in mm.

Each value says what a table of a job file says, by the same names, and `table` gives that table.
What is right is judged in one place, the reader of job files, when a `nesting.Job` is made of them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields
from datetime import date
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

if TYPE_CHECKING:
    from shapely.geometry import Polygon

from nesting.errors import InputError, shown

Points: TypeAlias = Sequence[Sequence[float]]
"""Corners (x, y) [mm] in turn, either way round, closed or not."""
Outline: TypeAlias = "Points | Polygon"
"""A simple polygon: its corners, or a polygon of shapely [mm]."""
Table: TypeAlias = dict[str, Any]
"""A table of a job file, by its keys."""


def _corners(where: str, outline: Outline) -> tuple[object, list[object]]:
    """Return the corners of an outline and of its holes, as lists."""
    kind = getattr(outline, "geom_type", "")
    if kind == "Polygon" and not outline.is_empty:  # type: ignore[union-attr]
        rings = [outline.exterior, *outline.interiors]  # type: ignore[union-attr]
        shell, *holes = [[[float(x) for x in point[:2]] for point in r.coords] for r in rings]
        return shell, list(holes)
    if kind or isinstance(outline, str) or not hasattr(outline, "__iter__"):
        what = f"a {kind}" if kind and kind != "Polygon" else "one without points"
        got = what if kind else shown(outline)
        raise InputError(where, "must be one polygon of shapely or a list of corners", got)
    return _plain(outline), []


class _Value:
    """What has the keys of a table: its fields, those left at None apart."""

    __slots__ = ()

    def table(self) -> Table:
        """Return the table of a job file that says the same; lengths are plain numbers [mm]."""
        given = {each.name: getattr(self, each.name) for each in fields(self)}  # type: ignore[arg-type]
        return {
            key: _plain(value)
            for key, value in given.items()
            if value is not None and not (isinstance(value, list | tuple) and not value)
        }


def _plain(value: object) -> object:
    """Return lists for tuples and arrays, and Python's numbers for those of numpy."""
    plain = value.tolist() if hasattr(value, "tolist") else value
    if isinstance(plain, Sequence) and not isinstance(plain, str):
        return [_plain(each) for each in plain]
    return plain


class _Shaped(_Value):
    """What has an ``outline`` or a ``rect`` and its ``holes`` go where the table has them."""

    __slots__ = ()

    def table(self) -> Table:
        """Return the table; an outline given as a polygon of shapely becomes corners."""
        found = super().table()
        outline = found.pop("outline", None)
        if outline is not None:
            where = f"{type(self).__name__} {found['name']!r}: outline"
            found["outline"], holes = _corners(where, outline)
            if holes and "holes" not in {each.name for each in fields(self)}:  # type: ignore[arg-type]
                raise InputError(where, "must have no holes", f"{len(holes)}")
            if holes:
                found["holes"] = [*holes, *found.get("holes", ())]
        return found


@dataclass(frozen=True, slots=True)
class Ornament(_Shaped):
    """Relief that must lie whole in a panel or whole outside it.

    Give ``rect`` (x, y, width, height) or ``outline``. ``relief`` is how far it stands out [mm];
    ``on_panel``, ``"boss"`` or ``"hollow"``, and ``fill``, 0 to 1, serve the weights.
    """

    name: str
    rect: Sequence[float] | None = None
    outline: Outline | None = None
    relief: float | None = None
    on_panel: Literal["boss", "hollow"] | None = None
    fill: float | None = None


@dataclass(frozen=True, slots=True)
class BlankZone(_Shaped):
    """Ground where a dam may lie: ``rect`` (x, y, width, height) or ``outline`` [mm]."""

    name: str
    rect: Sequence[float] | None = None
    outline: Outline | None = None


@dataclass(frozen=True, slots=True)
class KeepClear(_Value):
    """A place that dams keep off by ``distance`` [mm]: a point ``at`` (x, y), or a ``rect``."""

    name: str
    at: Sequence[float] | None = None
    rect: Sequence[float] | None = None
    distance: float = field(kw_only=True)


@dataclass(frozen=True, slots=True)
class Liner(_Shaped):
    """The liner lying flat, from its datum corner [mm]: ``size`` (width, height) or ``outline``.

    A polygon of shapely may have holes; ``holes`` are further outlines of openings. ``unmarked``
    says what ground is that is neither ornament nor blank zone: ``"detail"`` or ``"blank"``.
    """

    name: str
    size: Sequence[float] | None = None
    outline: Outline | None = None
    thickness: float = field(kw_only=True)
    unmarked: Literal["detail", "blank"] = "detail"
    ornaments: Sequence[Ornament] = ()
    zones: Sequence[BlankZone] = ()
    keep_clear: Sequence[KeepClear] = ()
    holes: Sequence[Points] = ()

    def table(self) -> Table:
        """Return the ``[liner]`` table with its ornaments and zones."""
        found = super(Liner, self).table()
        for own, key, parts in (
            ("ornaments", "ornament", self.ornaments),
            ("zones", "blank_zone", self.zones),
            ("keep_clear", "keep_clear", self.keep_clear),
        ):
            found.pop(own, None)
            if parts:
                found[key] = [part.table() for part in parts]
        return found

    def _repr_svg_(self) -> str:
        """Return the picture of the liner, for notebooks."""
        from nesting.api.texts import picture_of

        return picture_of(self.name, self.table())


@dataclass(frozen=True, slots=True)
class Rules(_Value):
    """The shop's own distances [mm], and what rubber and panels shrink by."""

    dam_width: float
    dam_clearance: float
    edge_margin: float
    set_out: float | None = None
    other_widths: bool | None = None
    liner_shrink: float | None = None
    liner_temperature: float | None = None
    measured_temperature: float | None = None
    expansion: float | None = None
    panel_shrink: float | None = None


@dataclass(frozen=True, slots=True)
class Bed(_Value):
    """What the liner lies on: flat, or bent along ``curved_axis`` to ``radius`` [mm]."""

    name: str
    form: Literal["flat", "convex", "concave"] = "flat"
    radius: float | None = None
    curved_axis: Literal["x", "y"] | None = None
    neutral: float | None = None
    size: Sequence[float] = ()
    ends: Literal["square", "plumb"] | None = None


@dataclass(frozen=True, slots=True)
class Panel(_Value):
    """One size of the order: ``size`` (width, height) as the finished panel is measured [mm].

    ``tolerance`` is (low, high) [mm] or the name of a class; ``must_show`` and ``must_hide`` name
    ornaments.
    """

    mark: str
    size: Sequence[float]
    quantity: int = 1
    bed: str | None = None
    measured_on: Literal["face", "back", "chord"] | None = None
    thickness: float | None = None
    turn: Literal["none", "half"] | None = None
    tolerance: Sequence[float] | str | None = None
    must_show: Sequence[str] = ()
    must_hide: Sequence[str] = ()
    due: date | None = None


Tables: TypeAlias = Mapping[str, Table]
"""Further tables of a job by their names: ``material``, ``mix``, ``calendar`` and so on."""
