"""The answer to "does this size fit that liner?" as text and as a JSON record."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from nesting.blockers import off_blank
from nesting.changes import FURTHEST
from nesting.fits import Blocked, Fit, Seated
from nesting.job import Job
from nesting.nearest import Nearest
from nesting.setout import list_dams, write_size
from nesting.tolerances import find_band
from nesting.units import STEPS_PER_MM, length_text, to_mm

Size = tuple[int, int]
_MOST_NAMED = 3


def report_fit(job: Job, fit: Fit) -> str:
    """Return the answer as lines of plain text, without a final newline."""
    panel = fit.panel
    size = write_size(panel.width, panel.height, job.units)
    lead = f"Liner {job.liner.name!r}, bed {fit.bed.name!r}, {size} {job.units}:"
    if fit.seated is None:
        return "\n".join([f"{lead} does not fit.", *_explain(job, fit)])
    verdict = "fits within tolerance" if any(fit.off_nominal) else "fits"
    return "\n".join([f"{lead} {verdict}.", *_describe(job, fit, fit.seated)])


def fit_record(job: Job, fit: Fit, file: str) -> dict[str, object]:
    """Return the answer as a JSON object; lengths in mm."""
    seated, nearest = fit.seated, fit.nearest
    spot = seated.placement if seated else None
    return {
        "file": file,
        "liner": job.liner.name,
        "bed": fit.bed.name,
        "size": [_mm(fit.panel.width), _mm(fit.panel.height)],
        "fits": seated is not None,
        "with_tolerance": any(fit.off_nominal),
        "tolerance": tolerance_words(job, fit) if any(fit.off_nominal) else None,
        "x": None if spot is None else _mm(spot.x),
        "y": None if spot is None else _mm(spot.y),
        "width": None if spot is None else _mm(spot.width),
        "height": None if spot is None else _mm(spot.height),
        "shows": [] if spot is None else list(spot.shows),
        "clearance": None if seated is None or seated.clearance is None else _mm(seated.clearance),
        "reason": None if seated else reason(job, fit),
        "nearest_smaller": _pair(nearest.smaller if nearest else None),
        "nearest_larger": _pair(nearest.larger if nearest else None),
        "nearest_proved": None if nearest is None else nearest.proved,
    }


def reason(job: Job, fit: Fit) -> str:
    """Return in one sentence why the size has no place, in the shop's words."""
    text = _lengths(job)
    for extent, room, word in zip(fit.flat, _room(job), ("wide", "high"), strict=True):
        if extent > room:
            return f"It is {text(extent - room)} too {word} for the liner, lying flat."
    if not fit.blocked:
        return "No size of that width, and none of that height, has a place on this liner."
    least = fit.blocked[0]
    ways = "; ".join(_way(each, text) for each in fit.blocked)
    across = least.side in ("left", "right")
    word = {(True, True): "wide", (True, False): "narrow", (False, True): "high"}.get(
        (across, least.amount > 0), "low"
    )
    amount = text(abs(least.amount))
    return f"It is {amount} too {word} where it would come nearest to lying: {ways}."


def _way(blocked: Blocked, text: Callable[[int], str]) -> str:
    """Return what would be in the way with one side moved."""
    how = "grown to the" if blocked.amount > 0 else "cut back at the"
    words = list(blocked.blockers[:_MOST_NAMED])
    if blocked.zone and off_blank(blocked.side) in words:
        amount = text(abs(blocked.amount))
        zoned = f"its {blocked.side} dam would lie {amount} outside blank zone {blocked.zone!r}"
        words[words.index(off_blank(blocked.side))] = zoned
    more = len(blocked.blockers) - len(words)
    words += [f"{more} more stand in the way"] * bool(more)
    return f"{how} {blocked.side}, {' and '.join(words) or 'its dams would have to change'}"


def tolerance_words(job: Job, fit: Fit) -> str:
    """Return which tolerance was used, and by how much the size was changed."""
    panel, text = fit.panel, _lengths(job)
    across, up = fit.off_nominal
    changes = f"width {_signed(across, text)}, height {_signed(up, text)}"
    if panel.tolerance_class:
        source = find_band(panel.tolerance_class, max(panel.width, panel.height)).source
        return f"{changes}, within class {panel.tolerance_class!r} ({source})"
    low, high = panel.tolerance
    return f"{changes}, within {_signed(low, text)} to {_signed(high, text)}"


def _describe(job: Job, fit: Fit, seated: Seated) -> list[str]:
    text = _lengths(job)
    spot = seated.placement
    left, right, down, up = (text(shift) for shift in seated.shift)
    flat = write_size(spot.width, spot.height, job.units)
    shows = ", ".join(spot.shows) or "no ornament"
    clear = "no dam comes near ornament"
    if seated.clearance is not None:
        clear = f"least clearance from ornament {text(seated.clearance)}"
    return [
        *([f"  Changed: {tolerance_words(job, fit)}."] if any(fit.off_nominal) else []),
        f"  Marked out flat {flat} {job.units}, lower left corner at x {text(spot.x)}, "
        f"y {text(spot.y)}; shows {shows}.",
        f"  Room to shift: left {left}, right {right}, down {down}, up {up}; {clear}.",
        f"  Idle: {float(100 * seated.idle_share):.1f} % of the liner.",
        *list_dams(job, seated.dams),
    ]


def _explain(job: Job, fit: Fit) -> list[str]:
    lines = [f"  {reason(job, fit)}"]
    if fit.nearest is not None:
        lines += _nearest_lines(job, fit, fit.nearest)
    change, text = fit.change, _lengths(job)
    if change is None:
        none = (
            f"No blank zone widened on one side, by up to {text(FURTHEST)}, and no ornament cut "
            "back on one side would give it a place."
        )
        return lines + [f"  {none}"] * fit.mended
    if change.kind == "zone":
        what = (
            f"widen blank zone {change.name!r} by {text(change.amount)} on its {change.side} side"
        )
    else:
        what = (
            f"cut ornament {change.name!r} back by {text(change.amount)} on its {change.side} side"
        )
    return [*lines, f"  Smallest change to the liner that gives it a place: {what}."]


def _nearest_lines(job: Job, fit: Fit, nearest: Nearest) -> list[str]:
    """Return the nearest sizes: each side alone, then both."""
    text = _lengths(job)
    alone = [
        f"{word} {text(size[axis])}"
        for word, axis, size in (
            ("width", 0, nearest.narrower),
            ("width", 0, nearest.wider),
            ("height", 1, nearest.lower),
            ("height", 1, nearest.higher),
        )
        if size is not None
    ]
    both = [
        f"{word} {write_size(*size, job.units)} {job.units}"
        for word, size in (("smaller", nearest.smaller), ("larger", nearest.larger))
        if size is not None
    ]
    word = "Nearest sizes" if nearest.proved else "Nearest sizes found"
    return [
        f"  {word}, one side changed alone: {', '.join(alone) or 'none'}.",
        f"  {word}, one side or both: {', '.join(both) or 'none'}.",
    ]


def _room(job: Job) -> Size:
    box = job.liner.outline.bounds
    return box.width, box.height


def _lengths(job: Job) -> Callable[[int], str]:
    return lambda steps: length_text(steps, job.units, job.rules.set_out)


def _signed(steps: int, text: Callable[[int], str]) -> str:
    return ("+" if steps > 0 else "") + text(steps)


def _pair(size: Size | None) -> list[int | float] | None:
    return None if size is None else [_mm(side) for side in size]


def _mm(steps: int) -> int | float:
    exact = Fraction(to_mm(steps))
    return int(exact) if exact.denominator == 1 else steps / STEPS_PER_MM
