"""What was found on a scan, in words, as JSON, and as the liner it comes to."""

from dataclasses import asdict
from fractions import Fraction
from typing import Any

from nesting.files.columns import count_of, wrap_text, write_table
from nesting.files.document import to_json
from nesting.jobs.found import Ignored, LinerFound
from nesting.scans.build import GRAINS, SIGMAS, ScanFound, ScanPart, is_uneven
from nesting.shapes.geometry import Polygon
from nesting.units import MM_PER_INCH, decimal_text, share_text, to_mm, to_mm2
from nesting.values.liner import BlankZone

_LEAST_SIGMAS = 3
_LEAST_PIECE = 100.0  # mm2 of plain ground outside all zones that are worth a line


def found_liner(found: ScanFound, source: str, units: str) -> LinerFound:
    """Return the liner with what its file says of it; ``units`` is ``mm`` or ``in``."""
    notes = (*_scan_notes(found, units), *_find_notes(found, units), *_warnings(found, units))
    return LinerFound(found.liner, units, notes, _ignored(found, units), source)


def report_scan(found: ScanFound, source: str, units: str) -> str:
    """Return the report: how the scan was read, ornaments, zones, what was left out."""
    told = found_liner(found, source, units)
    lines = [f"{source}: liner {found.liner.name!r}, {_counts(found)}.", ""]
    for note in told.notes:
        lines += wrap_text(f"{note[0].upper()}{note[1:]}.")
    lines += ["", f"Ornaments and ground without readings ({units}, from the datum corner):"]
    lines += _part_table(found, units) if found.parts else ["  none"]
    lines += ["", f"Blank zones ({units}, from the datum corner):"]
    lines += _zone_table(found, units) if found.liner.zones else ["  none"]
    lines += [""] if told.ignored else []
    lines += [f"Left out: {each.what}: {each.why}." for each in told.ignored]
    return "\n".join(lines)


def scan_to_json(found: ScanFound, source: str) -> str:
    """Return what was found as JSON, lengths in mm, areas in mm2, whatever the units."""
    told = found_liner(found, source, "mm")
    document = {
        "source": source,
        "liner": found.liner.name,
        "pixels": [found.columns, found.rows],
        "pixel": found.pixel,
        "size": [found.columns * found.pixel, found.rows * found.pixel],
        "outline": _box(found.liner.outline),
        "ground": _ground_figures(found),
        "threshold": round(found.threshold, 6),
        "seal_gap": to_mm(found.rules.seal_gap),
        "dam_width": to_mm(found.rules.dam_width),
        "join": to_mm(found.rules.join),
        "ornaments": [
            {"rect": _box(ornament.outline), **_part_figures(part)}
            for part, ornament in zip(found.parts, found.liner.ornaments, strict=True)
        ],
        "zones": [_zone_figures(zone) for zone in found.liner.zones],
        "plain_area": round(found.sealing, 6),
        "zone_area": round(found.held, 6),
        "notes": list(told.notes),
        "ignored": [{"what": each.what, "why": each.why} for each in told.ignored],
    }
    return to_json("nesting-scan", 1, document)


def _ground_figures(found: ScanFound) -> dict[str, float]:
    figures = asdict(found.ground) | {"bow": _bow(found)}
    return {name: round(value, 9) for name, value in figures.items()}


def _bow(found: ScanFound) -> float:
    """Return by how much the ground bows over the scan [mm]."""
    return found.ground.bow.rise((found.rows, found.columns))


def _part_figures(part: ScanPart) -> dict[str, str | float]:
    figures = asdict(part).items()
    return {name: round(each, 6) if isinstance(each, float) else each for name, each in figures}


def _zone_figures(zone: BlankZone) -> dict[str, Any]:
    corners = [[to_mm(x), to_mm(y)] for x, y in zone.outline.shell]
    area = to_mm2(zone.outline.area)
    return {"name": zone.name, "rect": _box(zone.outline), "outline": corners, "area": area}


def _counts(found: ScanFound) -> str:
    unread = sum(part.name.startswith("unread") for part in found.parts)
    words = [count_of(len(found.parts) - unread, "ornament")]
    words += [count_of(unread, "place") + " without readings"] if unread else []
    return f"{', '.join(words)} and {count_of(len(found.liner.zones), 'blank zone')}"


def _scan_notes(found: ScanFound, units: str) -> tuple[str, ...]:
    """Return how large the scan is and where its ground lies."""
    ground, size = found.ground, (found.columns * found.pixel, found.rows * found.pixel)
    width, height = (_length(side, units) for side in size)
    tilt = " and ".join(
        f"{'rises' if slope >= 0 else 'falls'} {abs(slope) * 1000:.2f} mm per m along {axis}"
        for slope, axis in ((ground.slope_x, "x"), (ground.slope_y, "y"))
    )
    bow = _bow(found)
    bowed = f" and bows by {bow:.2f} mm over the scan" if bow else ""
    off = "plane and bow" if bow else "the plane"
    grain = f"; the scan tells heights {found.grain:.4f} mm apart" if found.grain else ""
    return (
        f"the scan has {found.columns} x {found.rows} pixels of {_length(found.pixel, units, 4)} "
        f"{units}: {width} x {height} {units}",
        f"the ground {tilt}{bowed}, which is taken off; fitted to "
        f"{share_text(ground.share)} of the readings, which lie off {off} by "
        f"{ground.scatter:.3f} mm, and neighbours off each other by a "
        f"noise of {ground.noise:.3f} mm (standard deviations){grain}",
    )


def _find_notes(found: ScanFound, units: str) -> tuple[str, ...]:
    """Return what counted as ornament and as plain ground."""
    rules, pixel = found.rules, _length(found.pixel, units, 4)
    given = rules.threshold is not None
    why = "as given" if given else f"{SIGMAS} times the noise, {GRAINS} grains or 0.1 mm"
    slack = max((part.slack for part in found.parts), default=0.0)
    gap = _steps(rules.seal_gap, units)
    held = share_text(found.held, found.sealing)
    share = f", {held} of it in zones" if found.sealing else ""
    return (
        f"ornament is what stands more than {found.threshold:.3f} mm off the ground ({why}), "
        f"joined across gaps narrower than {_steps(rules.join, units)} {units}; its outline covers "
        f"every pixel and one pixel of doubt ({pixel} {units}), and lies at most "
        f"{_length(Fraction(slack), units)} {units} further out",
        f"a dam {_steps(rules.dam_width, units)} {units} wide seals where the readings under it "
        f"differ by at most {gap} {units}; it meets up to {found.window} pixels across",
        f"it seals on {found.sealing / 1e6:.4f} m2{share}",
        f"the liner is {_steps(found.liner.thickness, units)} {units} thick, as --thickness says: "
        "a scan does not show it",
    )


def _warnings(found: ScanFound, units: str) -> tuple[str, ...]:
    """Return what the person should see to."""
    notes: list[str] = []
    gap = float(to_mm(found.rules.seal_gap))
    if found.noise_range > gap:
        notes.append(
            f"noise alone makes readings differ by up to {found.noise_range:.2f} mm, more than the "
            f"seal gap of {_steps(found.rules.seal_gap, units)} {units}, so plain ground may be "
            "lost: smooth the scan or raise --seal-gap"
        )
    if found.threshold < _LEAST_SIGMAS * found.ground.noise:
        notes.append(
            f"the threshold is below {_LEAST_SIGMAS} times the noise, so noise counts as ornament: "
            "raise --threshold"
        )
    if is_uneven(found.ground) and found.ground.scatter > gap / 10:
        notes.append(
            "the ground is uneven or textured: look at the picture before an order rests on this "
            "liner"
        )
    if _bow(found):
        notes.append(
            "the bow of the ground is taken for the way the model lay, and is no part of the "
            "liner: see that a dam seals on the longest zone"
        )
    if not found.liner.zones:
        notes.append(
            "no dam has a place on this scan: see --dam-width and --seal-gap, and whether a pixel "
            "is small beside a dam"
        )
    if not found.liner.outline.is_box:
        notes.append(
            "the liner's rim is not a rectangle along the scan's axes, so few panel sides can lie "
            "on it: turn the scan square and cut it to the liner where it should be one"
        )
    return tuple(notes)


def _ignored(found: ScanFound, units: str) -> tuple[Ignored, ...]:
    left: list[Ignored] = []
    if found.specks:
        size = _steps(found.rules.speck, units)
        left.append(
            Ignored(
                count_of(found.specks, "speck"),
                f"no larger than {size} {units} or one pixel; zones keep off, panels need not",
            )
        )
    if found.beyond > 0:
        why = "no readings at the frame of the scan: not liner"
        left.append(Ignored(f"{found.beyond / 1e6:.4f} m2", why))
    if found.sealing - found.held > _LEAST_PIECE:
        piece = f"{(found.sealing - found.held) / 1e6:.4f} m2 of plain ground"
        left.append(Ignored(piece, "in pieces too small for a zone of their own"))
    return tuple(left)


def _part_table(found: ScanFound, units: str) -> list[str]:
    head = ["name", "left", "right", "bottom", "top", "rise mm", "sink mm", "area m2", "unread"]
    rows = [
        [
            part.name,
            *_sides(ornament.outline, units),
            f"{part.rise:.2f}",
            f"{part.sink:.2f}",
            f"{part.area / 1e6:.4f}",
            f"{100 * part.unread:.0f} %" if part.unread else "-",
        ]
        for part, ornament in zip(found.parts, found.liner.ornaments, strict=True)
    ]
    return write_table(head, rows, left=["name"])


def _zone_table(found: ScanFound, units: str) -> list[str]:
    head = ["name", "left", "right", "bottom", "top", "corners", "area m2"]
    rows = []
    for zone in found.liner.zones:
        corners, area = len(zone.outline.shell), float(to_mm2(zone.outline.area) / 1_000_000)
        rows.append([zone.name, *_sides(zone.outline, units), str(corners), f"{area:.4f}"])
    return write_table(head, rows, left=["name"])


def _sides(outline: Polygon, units: str) -> list[str]:
    box = outline.bounds
    return [_steps(side, units) for side in (box.x0, box.x1, box.y0, box.y1)]


def _box(outline: Polygon) -> list[Any]:
    box = outline.bounds
    return [to_mm(side) for side in (box.x0, box.y0, box.width, box.height)]


def _steps(steps: int, units: str) -> str:
    return _length(to_mm(steps), units)


def _length(millimetres: Fraction, units: str, decimals: int | None = None) -> str:
    """Return a length without its unit, to 0.1 mm or 0.001 in unless told otherwise."""
    if units == "in":
        return decimal_text(millimetres / MM_PER_INCH, decimals or 3)
    return decimal_text(millimetres, decimals or 1)
