"""The answer to "does this size fit that liner?" as text and as a JSON record."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from nesting.fitting.answer import Blocked, Fit, Seated, SideMove
from nesting.fitting.blockers import SIDE_WORDS, off_blank
from nesting.fitting.changes import FURTHEST
from nesting.fitting.nearest import Nearest
from nesting.schedules.setout import list_dams, order_words
from nesting.units import share_text, to_mm
from nesting.values.casts import Sides
from nesting.values.job import Job
from nesting.values.panels import Panel, Size
from nesting.values.tolerances import find_band

_MOST_NAMED = 3


def report_fit(job: Job, fit: Fit, *, exact: bool = False) -> str:
    """Return the answer as lines of plain text, without a final newline.

    Where ``exact`` is asked for, lengths that lie on no mark of the tape follow in decimals.
    """
    panel = fit.panel
    size = order_words(job, panel)
    lead = f"Liner {job.liner.name!r}, bed {fit.bed.name!r}, {size}:"
    if fit.seated is None:
        return "\n".join([f"{lead} does not fit.", *_explain(job, fit, exact)])
    verdict = "fits within tolerance" if any(fit.off_nominal) else "fits"
    return "\n".join([f"{lead} {verdict}.", *_describe(job, fit, fit.seated, exact)])


def fit_record(job: Job, fit: Fit, file: str) -> dict[str, object]:
    """Return the answer as a JSON object; lengths in mm."""
    seated, nearest = fit.seated, fit.nearest
    spot = seated.placement if seated else None
    return {
        "file": file,
        "liner": job.liner.name,
        "bed": fit.bed.name,
        "size": [to_mm(fit.panel.width), to_mm(fit.panel.height)],
        "fits": seated is not None,
        "with_tolerance": any(fit.off_nominal),
        "tolerance": tolerance_words(job, fit) if any(fit.off_nominal) else None,
        "x": None if spot is None else to_mm(spot.x),
        "y": None if spot is None else to_mm(spot.y),
        "width": None if spot is None else to_mm(spot.width),
        "height": None if spot is None else to_mm(spot.height),
        "shows": [] if spot is None else list(spot.shows),
        "clearance": seated and seated.clearance and to_mm(seated.clearance),
        "reason": None if seated else reason(job, fit),
        "nearest_smaller": _pair(nearest.smaller if nearest else None),
        "nearest_larger": _pair(nearest.larger if nearest else None),
        "nearest_proved": None if nearest is None else nearest.proved,
    }


def reason(job: Job, fit: Fit) -> str:
    """Return in one sentence why the size has no place, in the shop's words."""
    text, frame = job.tape.stated_words, job.liner.outline.bounds
    for extent, room, word in (
        (fit.flat[0], frame.width, "wide"),
        (fit.flat[1], frame.height, "high"),
    ):
        if extent > room:
            return f"It is {text(extent - room)} too {word} for the liner, lying flat."
    if not fit.blocked:
        return "No size of that width, and none of that height, has a place on this liner."
    lacks = " and ".join(_lack(move, text) for move in fit.blocked[0].moves)
    few = sorted(fit.blocked, key=lambda each: len(each.blockers))[: 3 - len(fit.blocked[0].moves)]
    ways = "; ".join(_way(each, text) for each in fit.blocked if each in few)
    return f"It is {lacks} where it would come nearest to lying: {ways}."


def _lack(move: SideMove, text: Callable[[int], str]) -> str:
    across = move.side in ("left", "right")
    more, less = ("wide", "narrow") if across else ("high", "low")
    return f"{text(abs(move.amount))} too {more if move.amount > 0 else less}"


def _way(blocked: Blocked, text: Callable[[int], str]) -> str:
    """Return what would be in the way with one side moved, or two."""
    hows = [
        f"{'grown to' if move.amount > 0 else 'cut back at'} the {move.side}"
        for move in blocked.moves
    ]
    words = list(blocked.blockers[:_MOST_NAMED])
    for move in blocked.moves:
        if move.zone and off_blank(move.side) in words:
            amount = text(abs(move.amount))
            zoned = f"its {move.side} dam would lie {amount} outside blank zone {move.zone!r}"
            words[words.index(off_blank(move.side))] = zoned
    more = len(blocked.blockers) - len(words)
    stands = "1 more thing stands" if more == 1 else f"{more} more things stand"
    words += [f"{stands} in the way"] * bool(more)
    listed = ", ".join(words[:-1]) + " and " * (len(words) > 1) + "".join(words[-1:])
    return f"{' and '.join(hows)}, {listed or 'its dams would have to change'}"


def tolerance_words(job: Job, fit: Fit) -> str:
    """Return which tolerance was used, and by how much the size was changed."""
    panel = fit.panel
    across, up, low, high = (
        job.tape.signed(steps, words=True) for steps in (*fit.off_nominal, *panel.tolerance)
    )
    changes = f"width {across}, height {up}"
    if panel.tolerance_class:
        source = find_band(panel.tolerance_class, max(panel.width, panel.height)).source
        return f"{changes}, within class {panel.tolerance_class!r} ({source})"
    return f"{changes}, within {low} to {high}"


def _describe(job: Job, fit: Fit, seated: Seated, exact: bool) -> list[str]:
    text = job.tape.words
    spot = seated.placement
    left, right, down, up = (text(shift) for shift in seated.shift)
    flat = job.tape.size_words(spot.width, spot.height)
    shows = ", ".join(spot.shows) or "no ornament"
    clear = "no dam comes near ornament"
    if seated.clearance is not None:
        clear = f"least clearance from ornament {text(seated.clearance)}"
    return [
        *([f"  Changed: {tolerance_words(job, fit)}."] if any(fit.off_nominal) else []),
        f"  Marked out flat {flat}, lower left corner at x {text(spot.x)}, y {text(spot.y)}; "
        f"{_rim_words(spot.sides)}; shows {shows}.",
        f"  Room to shift: left {left}, right {right}, down {down}, up {up}; {clear}.",
        f"  Idle: {share_text(seated.idle_share)} of the liner.",
        *[f"  In decimals: {job.tape.list_exact(_seat_lengths(seated))}."] * exact,
        *list_dams(job, seated.dams, exact=exact),
    ]


def _seat_lengths(seated: Seated) -> dict[str, int]:
    spot = seated.placement
    sides = {"width": spot.width, "height": spot.height, "x": spot.x, "y": spot.y}
    shifts = dict(zip(("left", "right", "down", "up"), seated.shift, strict=True))
    clear = {} if seated.clearance is None else {"clearance": seated.clearance}
    return sides | shifts | clear


def _rim_words(sides: Sides) -> str:
    """Return which sides need no dam.

    >>> _rim_words(Sides("edge", "dam", "edge", "dam"))
    'its left and bottom sides lie on the rim'
    """
    on_rim = [word for word, side in zip(SIDE_WORDS, sides, strict=True) if side == "edge"]
    if not on_rim:
        return "a dam on every side"
    if len(on_rim) == 1:
        return f"its {on_rim[0]} side lies on the rim"
    return f"its {', '.join(on_rim[:-1])} and {on_rim[-1]} sides lie on the rim"


def _explain(job: Job, fit: Fit, exact: bool) -> list[str]:
    lines = [f"  {reason(job, fit)}"]
    if fit.nearest is not None:
        lines += _nearest_lines(job, fit, fit.nearest, exact)
    change = fit.change
    if change is None:
        return lines + [f"  {_no_change(job)}"] * fit.mended
    zone, ornament = f"widen blank zone {change.name!r}", f"cut ornament {change.name!r} back"
    what = zone if change.kind == "zone" else ornament
    what += f" by {job.tape.stated_words(change.amount)} on its {change.side} side"
    return [*lines, f"  Smallest change to the liner that gives it a place: {what}."]


def _no_change(job: Job) -> str:
    return (
        f"No blank zone widened on one side, by up to {job.tape.words(FURTHEST)}, and no ornament "
        "cut back on one side would give it a place."
    )


def _nearest_lines(job: Job, fit: Fit, nearest: Nearest, exact: bool) -> list[str]:
    """Return the nearest sizes: each side alone, then both."""

    def listed(*sizes: Size | None) -> str:
        panels = [replace(fit.panel, width=w, height=h) for w, h in filter(None, sizes)]
        texts = [order_words(job, panel) + _decimals(job, panel) * exact for panel in panels]
        return " or ".join(texts) or "none"

    proof = "proved"
    if nearest.within:
        within = job.tape.stated_words(nearest.within)
        proof += " to what a tape shows" if within == "0 in" else f" to within {within}"
    lead = f"Nearest sizes ({proof if nearest.proved else 'found, not proved'})"
    width, height = map(job.tape.stated_words, (fit.panel.width, fit.panel.height))
    return [
        f"  {lead}:",
        f"    smaller {listed(nearest.smaller)}; larger {listed(nearest.larger)}",
        f"    of the same height, {height}: {listed(nearest.narrower, nearest.wider)}",
        f"    of the same width, {width}: {listed(nearest.lower, nearest.higher)}",
    ]


def _decimals(job: Job, panel: Panel) -> str:
    listed = job.tape.list_exact({"width": panel.width, "height": panel.height})
    return "" if listed == "-" else f" ({listed})"


def _pair(size: Size | None) -> list[Fraction] | None:
    return None if size is None else [to_mm(side) for side in size]
