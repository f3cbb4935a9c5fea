"""The strips of a job as JSON, and the files of one run: this and a sheet for each re-set."""

import re
from collections.abc import Mapping
from typing import Any

from nesting.drawings.stamps import stamped
from nesting.drawings.svg import to_svg
from nesting.files.document import to_json
from nesting.files.output import Kind
from nesting.strips.cuts import SectionCuts
from nesting.strips.plan import StripPlan
from nesting.strips.reuse import Reset, Strip
from nesting.strips.sheet import draw_reset
from nesting.units import to_mm
from nesting.values.casts import Dam
from nesting.values.job import Job
from nesting.values.stamp import Stamp

FORMAT = "nesting-strips"
"""What marks the JSON file of the strips as one of ours."""
STRIPS_FILE = "strips.json"


def name_reset_file(number: int) -> str:
    """Return the file name of a re-set's sheet.

    >>> name_reset_file(3)
    'reset-03.svg'
    """
    return f"reset-{number:02d}.svg"


def _list_files(document: Mapping[str, Any]) -> list[str]:
    numbers = [each["reset"] for each in document["layings"]]
    return [STRIPS_FILE, *(name_reset_file(each) for each in numbers if type(each) is int and each)]


STRIPS = Kind(
    "strip list",
    STRIPS_FILE,
    FORMAT,
    re.compile(r"strips\.json|reset-[0-9]{2,}\.svg"),
    _list_files,
)
"""The files of one run; any number of them are sheets."""


def write_strip_files(job: Job, plan: StripPlan, stamp: Stamp) -> dict[str, str]:
    """Return the text of every file by its name, stamped sheets in the order of the re-sets."""
    sheets = {
        name_reset_file(reset.number): to_svg(stamped(draw_reset(job, plan, reset), stamp))
        for reset in plan.resets
    }
    return {STRIPS_FILE: strips_to_json(job, plan), **sheets}


def strips_to_json(job: Job, plan: StripPlan) -> str:
    """Return strips, layings and cuts as JSON text; lengths in mm."""
    document = {
        "job": plan.job,
        "strips": [_strip_record(plan, strip) for strip in plan.listed.strips],
        "layings": [_laying_record(reset) for reset in plan.listed.layings],
        "cuts": [_section_record(section) for section in plan.cuts],
        "kerf": to_mm(job.dams.kerf),
    }
    return to_json(FORMAT, 1, document)


def _strip_record(plan: StripPlan, strip: Strip) -> dict[str, object]:
    layings = plan.listed.layings
    return {
        "strip": strip.number,
        "from": "stock" if strip.piece.is_strip else "sheet",
        "length": to_mm(strip.piece.length),
        "width": to_mm(strip.piece.width),
        "height": to_mm(strip.piece.height),
        "parts": [to_mm(each) for each in strip.piece.parts],
        "uses": [
            {"laying": place + 1, "layout": layings[place].after.layout.number, "dam": dam.name}
            for place, dam in strip.uses
        ],
    }


def _laying_record(reset: Reset) -> dict[str, object]:
    return {
        "reset": reset.number or None,
        "liner": reset.after.liner,
        "before": reset.before and reset.before.layout.number,
        "layout": reset.after.layout.number,
        "casts": list(reset.after.casts),
        "changes": [
            {
                "strip": change.strip,
                "what": change.way,
                "was": _name(change.was),
                "becomes": _name(change.becomes),
            }
            for change in reset.changes
        ],
    }


def _name(dam: Dam | None) -> str | None:
    return dam.name if dam else None


def _section_record(section: SectionCuts) -> dict[str, object]:
    plan, proof = section.plan, section.plan.proof
    kerf = section.cutting.kerf
    return {
        "width": to_mm(section.width),
        "height": to_mm(section.height),
        "lengths": plan.used,
        "lower_bound": plan.bound,
        "total": to_mm(plan.length),
        "total_bound": to_mm(plan.length_bound),
        "proved": section.proved,
        "stock": [
            {"length": to_mm(cut.stock), "strips": list(cut.strips), "left_over": to_mm(cut.left)}
            for cut in section.cuts
        ],
        "proof": {
            "points": [
                [to_mm(size - kerf), points]
                for size, points in zip(section.cutting.strips.sizes, proof.points, strict=True)
            ],
            "heaviest": proof.heaviest,
            "listed": proof.listed,
        },
    }
