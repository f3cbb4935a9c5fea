"""What must be taken off or filled up on a liner, as text and as JSON."""

from collections.abc import Sequence
from typing import Any

from nesting.files.columns import INDENT, wrap_text, write_table
from nesting.files.document import to_json
from nesting.repair.mend import LinerChange, Remedy, Repair
from nesting.repair.patch import Patch
from nesting.schedules.cautions import CARVING_CAUTION
from nesting.schedules.setout import order_words
from nesting.shapes.geometry import Box
from nesting.units import to_mm, to_mm2
from nesting.unitwords import WORDS
from nesting.values.job import Job

TIME_UP = "the time limit was reached before anything was found that gives it a place"
_MOST_SHOWN = 8
_DONE = {"remove": "take away ornament", "trim": "trim ornament", "widen": "widen zone"}


def report_repairs(job: Job, repairs: Sequence[Repair]) -> str:
    """Return the whole report, without a final newline; every line is plain text."""
    lines = [f"Liner {job.liner.name}, kept: what gives each size, each for itself."]
    for repair in repairs:
        lines += ["", *_list_repair(job, repair)]
    return "\n".join([*lines, "", *wrap_text(CARVING_CAUTION, hang="")])


def tell_change(change: LinerChange) -> str:
    """Return what is done to the liner.

    >>> tell_change(LinerChange("widen", "east", "left"))
    "widen zone 'east' to the left"
    """
    where = {"remove": "", "trim": f" from the {change.side}", "widen": f" to the {change.side}"}
    where["widen"] = where["widen"].replace("the bottom", "below").replace("the top", "above")
    where["widen"] = where["widen"].replace("to below", "below").replace("to above", "above")
    return f"{_DONE[change.kind]} {change.name!r}{where[change.kind]}"


def _list_repair(job: Job, repair: Repair) -> list[str]:
    panel = repair.panel
    lead = f"Panel {panel.mark!r} ({order_words(job, panel)})"
    if repair.has_place:
        return [f"{lead}: has a place on the liner as it is."]
    if not repair.can_have_place and repair.stopped:
        return [f"{lead}: {TIME_UP}."]
    lines = [*_list_patch(job, lead, repair.patch)] if repair.patch else []
    if not repair.remedies:
        return [*lines, f"{INDENT if lines else lead + ': '}no single change gives it a place."]
    unit = WORDS[job.units].small_area[0]
    rows = [_row(job, remedy) for remedy in repair.remedies[:_MOST_SHOWN]]
    text = "change by itself, least area first, each exact to 1/8000 mm and planned for the first:"
    lines += wrap_text(f"{'or one' if lines else lead + ': one'} {text}")
    lines += write_table(["change", "by", f"area, {unit}"], rows, left=("change",))
    more = len(repair.remedies) - len(rows)
    if more:
        lines.append(f"  and {more} more")
    if repair.least is not None:
        least = job.tape.stated_words(repair.least)
        verdict = (
            "PROVED: with every zone widened and every ornament trimmed on all sides by one step "
            "less at once, it still has none."
            if repair.proved
            else "NOT PROVED least: several smaller changes together might do."
        )
        words = f"Least trim or widening {least}. {verdict}"
        lines += wrap_text(words, INDENT, hang="")
    if repair.stopped:
        lines.append(f"{INDENT}The time limit was reached: what was not tried may take less area.")
    return lines


def tell_ground(job: Job, box: Box) -> str:
    """Return from where to where ground lies, from the datum corner."""
    x0, y0, x1, y1 = (job.tape.figure(at) for at in box)
    return f"x {x0} to {x1}, y {y0} to {y1}"


def _list_patch(job: Job, lead: str, patch: Patch) -> list[str]:
    """Return what must be made plain, piece by piece, and where the panel then lies."""
    unit, scale = WORDS[job.units].small_area
    verdict = "PROVED" if patch.proved else "NOT PROVED"
    text = (
        f"{lead}: make {patch.area / scale:.1f} {unit} plain, the least with "
        f"ornaments whole or gone {verdict}; the panel then lies at "
        f"{tell_ground(job, patch.box)}, its dams with no room to spare:"
    )
    lines = wrap_text(text, hang=INDENT)
    gone = f"{INDENT}take away ornament "
    lines += [f"{gone}{name!r}" for name in patch.removed]
    lines += [f"{INDENT}make plain {tell_ground(job, each.bounds)}" for each in patch.ground]
    return lines


def _row(job: Job, remedy: Remedy) -> list[str]:
    area = remedy.area / WORDS[job.units].small_area[1]
    by = "-" if remedy.change.kind == "remove" else job.tape.stated_words(remedy.amount)
    return [tell_change(remedy.change), by, f"{area:.1f}"]


def repairs_to_json(job: Job, repairs: Sequence[Repair]) -> str:
    """Return the repairs as JSON text: lengths in mm, areas in mm2."""
    document = {
        "liner": job.liner.name,
        "panels": [_entry(repair) for repair in repairs],
    }
    return to_json("nesting-repair", 1, document)


def _patch_entry(patch: Patch) -> dict[str, Any]:
    return {
        "area": to_mm2(patch.area),
        "proved": patch.proved,
        "panel": [to_mm(at) for at in patch.box],
        "removed": list(patch.removed),
        "ground": [[[to_mm(x), to_mm(y)] for x, y in each.shell] for each in patch.ground],
    }


def _entry(repair: Repair) -> dict[str, Any]:
    return {
        "mark": repair.panel.mark,
        "has_place": repair.has_place,
        "least": None if repair.least is None else to_mm(repair.least),
        "proved": repair.proved,
        "complete": not repair.stopped,
        "patch": None if repair.patch is None else _patch_entry(repair.patch),
        "changes": [
            {
                "kind": remedy.change.kind,
                "name": remedy.change.name,
                "side": remedy.change.side or None,
                "amount": to_mm(remedy.amount),
                "area": to_mm2(remedy.area),
            }
            for remedy in repair.remedies
        ],
    }
