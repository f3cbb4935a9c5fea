"""What people measure in an inch job is told in inches: no decimal, no mm, in any output."""

import re
from functools import cache
from pathlib import Path

import pytest
from packets import flat

from nesting.amounts.quantities import reckon_quantities
from nesting.drawings.masking import draw_layout
from nesting.drawings.overview import draw_overview
from nesting.fitting.rangechart import draw_range
from nesting.fitting.rangereport import BedRange, report_range
from nesting.fitting.screening import Question, answer
from nesting.jobs.read import read_job
from nesting.maps.ground import survey
from nesting.maps.sizeregion import list_ordered, map_region, scale_region
from nesting.packets.contents import make_packet
from nesting.packets.parts import Figure, PacketTable, Ticks
from nesting.schedules.report import report_schedule
from nesting.schedules.write import read_schedule
from nesting.templates.content import layout_template, panel_template
from nesting.templates.fullsize import FullSize
from nesting.values.bend import bend_of

ROOT = Path(__file__).parents[2]
JOB_FILE = ROOT / "examples" / "reading-room.toml"
OTHER = (
    r"[0-9.]+ %",  # shares
    r"[0-9.]+ (?:lb|kg|litres|ft2|ft3|in2|lb/ft3|degrees|°)",
    r"\([0-9.]+ kg\)",
    r"[0-9]+ / [0-9]+ = [0-9.]+",  # what a proof divides
    r"Scale 1:[0-9.]+",
)
"""Figures that no tape measures."""


@cache
def job():
    """Return the job in inches, with sizes in feet, on a drum and a flat table."""
    return read_job(JOB_FILE)


@cache
def schedule():
    """Return its schedule."""
    return read_schedule(ROOT / "output_svg" / "reading-room" / "schedule.json")


@cache
def report():
    """Return the report without its areas."""
    head, _, tail = report_schedule(job(), schedule()).partition("Areas in ft2")
    return head + tail.partition("\n\n")[2]


@cache
def sheets():
    """Return the words on every layout's sheet and on the overview."""
    drawings = [draw_layout(job(), schedule(), layout) for layout in schedule().layouts]
    drawings.append(draw_overview(job(), schedule()))
    return "\n".join(text.words for drawing in drawings for text in drawing.texts)


@cache
def fits():
    """Return the answers for sizes with and without a place."""
    sizes = ("5 ft 3 in x 2 ft 11 1/2 in", "60x40", "61.3x35.4")
    return "\n".join(answer(Question(str(JOB_FILE), sizes, mends=False)).texts)


@cache
def ranges():
    """Return the report on every size, and the words of its charts."""
    flat = map_region(survey(job().liner, job().rules))
    bends = [bend_of(job(), bed.name) for bed in job().beds]
    found = [BedRange(b.bed, scale_region(flat, b), list_ordered(job(), b)) for b in bends]
    charts = [draw_range(job(), each.region, each.bed.name, each.ordered) for each in found]
    words = [text.words for chart in charts for text in chart.texts]
    return "\n".join([report_range(job(), found), *words])


@cache
def templates():
    """Return the words of a layout's template and of a panel's."""
    drawn = [layout_template(job(), layout, FullSize()) for layout in schedule().layouts]
    drawn += [panel_template(job(), panel, FullSize()) for panel in job().panels]
    words = [words for each in drawn for label in each.labels for words in label.words]
    return "\n".join([*words, *(text for each in drawn for text in (*each.facts, *each.notes))])


OUTPUTS = {
    "report": report,
    "sheets": sheets,
    "fits": fits,
    "ranges": ranges,
    "templates": templates,
}


@pytest.mark.parametrize("output", OUTPUTS)
def test_no_decimal_and_no_mm_is_on_what_a_tape_measures(output):
    """Shares, masses, volumes and what a proof divides are left out: no tape measures them."""
    text = OUTPUTS[output]()
    for other in OTHER:
        text = re.sub(other, "", text)
    assert not re.findall(r".*[0-9]\.[0-9].*|.*\bmm\b.*", text)
    assert " = " not in text


LENGTHS = re.compile(
    "left|right|bottom|top|clearance|length|width|size|ordered|thickness|least|change|radius|"
    "flat size|dam length|face radius|neutral at|starts at x, y"
)
"""Columns of the packet's tables that hold lengths."""


def test_the_packet_has_no_length_in_decimals_or_mm():
    """In the columns of its tables that hold lengths, on its drawings and in its boxes to tick."""
    packet = make_packet(job(), schedule(), reckon_quantities(job(), schedule()))
    blocks = [each for section in packet.sections for each in flat(section.blocks)]
    told = [words for each in blocks if isinstance(each, Ticks) for words in each.tasks]
    for each in blocks:
        if isinstance(each, Figure):
            told += [text.words for text in each.drawing.texts]
        if isinstance(each, PacketTable):
            at = [column for column, title in enumerate(each.head) if LENGTHS.fullmatch(title)]
            told += [row.cells[column] for row in each.rows for column in at if row.cells[column]]
    cells = [re.sub(r"0\.5 of |idle [0-9.]+ %", "", each) for each in told if each != "-"]
    assert len(cells) > 200
    assert not [each for each in cells if re.search(r"[0-9]\.[0-9]|\bmm\b| = ", each)]
    assert "2 ft 5 in x 3 ft" in cells


def test_what_was_ordered_in_feet_is_printed_in_feet():
    """In the report, on the sheets, in the range, and in the answer to the question itself."""
    for output in ("report", "sheets"):
        assert "2 ft 5 in" in OUTPUTS[output]()
    assert "5 ft 3 in x 2 ft 11 1/2 in: fits." in fits()
    assert "R3     2 ft 5 in x 3 ft" in ranges()
