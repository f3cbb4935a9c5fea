"""docs/validation.md tells what the package gives today; ``pytest --redraw`` writes its parts anew.

Printed values come from the modules of tests/published and ours from the package, so that nothing
between the page's marks is written by hand.
"""

import ast
import re
from fractions import Fraction
from pathlib import Path

import pytest
from longcases import leave_long
from published import test_beds as beds
from published import test_cutting_stock as stock
from published import test_drawings as read_drawings
from published import test_packing_instances as packing
from published import test_quantities as quantities
from published import test_size_changes as size_changes
from published import test_strip_cutting as bins
from published import test_svg_units as drawings
from published import test_templates as templates
from published import test_units as units
from published import test_walls as walls

from nesting.ordering.cutting import cut_stock
from nesting.search.fewest import find_casts
from nesting.search.solver import Deadline
from nesting.units import decimal_text

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "validation.md"
BY_ITS_TEST = "by its test"


def table(head, rows):
    """Return a table as the page shows it."""
    lines = [head, "---" + " | ---" * head.count("|"), *(" | ".join(map(str, row)) for row in rows)]
    return "\n".join(f"| {line} |" for line in lines)


def figure_table(figures):
    """Return the table of printed figures, ours worked out now."""
    return table(
        "source | case | printed | ours | tolerance",
        [(f.source, f.case, f.printed, f.ours_text(), f.tolerance_text()) for f in figures],
    )


def sheet_table():
    """Return the table of rectangles on sheets."""
    return table(
        "instance | source | sheet | pieces | best value | ours | fewest sheets | ours",
        [sheet_row(name, sheet) for name, sheet in packing.PRINTED.items()],
    )


def sheet_row(name, sheet):
    """Return the row of one sheet."""
    value = count = BY_ITS_TEST
    if name not in packing.SLOW:
        value = proved(*packing.best_value(sheet))
        found = find_casts(packing.integers_of(sheet), Deadline(packing.LIMIT_S))
        count = proved(found.casts, found.certificate.bound)
    source = packing.SOURCES[name.rstrip("0123456789")]
    pieces = ", ".join(f"{w}x{h}x{limit}={worth}" for w, h, limit, worth in sheet.items)
    size = f"{sheet.width} x {sheet.height}"
    return name, source, size, pieces, sheet.best_value, value, sheet.fewest_sheets, count


def roll_table():
    """Return the table of rolls, a row for each quantity known."""
    return table(
        "source | roll | pieces | quantity | known | ours",
        [
            (roll.source, roll.width, ", ".join(f"{w} x {count}" for w, count in roll.pieces), *row)
            for roll in stock.ROLLS
            for row in roll_rows(roll)
        ],
    )


def roll_rows(roll):
    """Return each quantity known of a roll, with ours."""
    found = find_casts(stock.integers_of(roll), Deadline(stock.LIMIT_S))
    proof = found.certificate
    ours = decimal_text(Fraction(proof.demand, proof.heaviest), 3)
    within = ", patterns within the order" if roll.order_bound else ""
    known = decimal_text(roll.order_bound or roll.linear_bound, 3)
    rows = [(f"linear bound{within}", known, ours)]
    rows.append(("fewest rolls", roll.rolls, proved(found.casts, proof.bound)))
    return [*rows, ("fewest patterns", roll.patterns, BY_ITS_TEST)] if roll.patterns else rows


def bin_table():
    """Return the table of bins as lengths of stock."""
    rows = [bin_row(*each) for each in bins.INSTANCES.items()]
    return table("instance | capacity | items | known | ours", rows)


def bin_row(name, case):
    """Return the row of one instance."""
    count = BY_ITS_TEST
    if name not in bins.SLOW:
        plan = cut_stock(case.cutting, Deadline(bins.LIMIT_S))
        count = proved(plan.used, plan.bound)
    return name, case.capacity, sum(case.cutting.counts), case.optimum, count


def proved(found, limit):
    """Return what was found, which its proof must meet."""
    assert found == limit
    return found


def claims(*modules):
    """Return the names of the modules' tests as a list of sentences."""
    names = [
        node.name.removeprefix("test_").replace("_", " ").capitalize()
        for module in modules
        for node in ast.parse((ROOT / "tests" / module).read_text(encoding="utf-8")).body
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
    ]
    return "\n".join(f"- {name}." for name in names)


PARTS = {
    "units": lambda: figure_table(units.FIGURES),
    "arcs": lambda: figure_table(f for f in beds.FIGURES if f.source != beds.OWN),
    "beds": lambda: figure_table(f for f in beds.FIGURES if f.source == beds.OWN),
    "tolerances": lambda: claims("published/test_tolerances.py"),
    "size changes": lambda: figure_table(size_changes.FIGURES),
    "walls": lambda: figure_table(walls.FIGURES),
    "quantities": lambda: figure_table(quantities.FIGURES),
    "drawings": lambda: figure_table(drawings.FIGURES),
    "templates": lambda: figure_table(templates.FIGURES),
    "scans": lambda: claims("published/test_scans.py"),
    "liners from drawings": lambda: figure_table(read_drawings.FIGURES),
    "sheets": sheet_table,
    "rolls": roll_table,
    "bins": bin_table,
    "second opinion": lambda: claims("published/test_second_opinion.py"),
    "brute force": lambda: claims("published/test_position_maps.py"),
    "laws of schedules": lambda: claims("laws/test_schedule_laws.py"),
    "laws of sizes as cast": lambda: claims("laws/test_cast_size_laws.py"),
    "laws of fits": lambda: claims("laws/test_fit_laws.py"),
    "laws of slopes": lambda: claims("laws/test_slope_laws.py"),
    "laws of kept places": lambda: claims("laws/test_keep_clear_laws.py"),
    "laws of gaps": lambda: claims("laws/test_strip_laws.py"),
    "laws of front views": lambda: claims("laws/test_front_laws.py"),
    "laws of walls": lambda: claims("unit/walls/test_widths.py", "laws/test_tie_laws.py"),
    "laws of beds": lambda: claims("laws/test_bed_dam_laws.py"),
    "laws of job files": lambda: claims("laws/test_job_file_laws.py"),
    "laws of lengths": lambda: claims("laws/test_tape_laws.py", "unit/test_tape.py"),
    "laws of calendars": lambda: claims(
        "laws/test_calendar_laws.py",
        "unit/ordering/test_order.py",
        "unit/ordering/test_bounds.py",
    ),
    "laws of layings": lambda: claims("laws/test_reset_laws.py"),
    "laws of strips": lambda: claims("laws/test_zone_laws.py"),
    "laws of sheets": lambda: claims("laws/test_sheet_laws.py"),
    "laws of the checker": lambda: claims(
        "laws/test_check_laws.py", "laws/test_check_mutations.py", "laws/test_sizes_agree.py"
    ),
}


def pattern(name):
    """Return the pattern of one part of the page between its two marks."""
    return re.compile(rf"(?<=<!-- {name} begins -->\n).*?(?=<!-- {name} ends -->)", re.DOTALL)


@pytest.mark.parametrize(
    "name", leave_long(PARTS, {"drawings", "sheets", "templates"}.__contains__)
)
def test_the_page_shows_what_comes_out_today(name, request):
    """Printed and worked-out values, and the names of tests, stand on the page as they are."""
    fresh = f"\n{PARTS[name]()}\n\n"
    page = PAGE.read_text(encoding="utf-8")
    if request.config.getoption("--redraw"):
        page = pattern(name).sub(lambda _: fresh, page)
        PAGE.write_text(page, encoding="utf-8", newline="\n")
    assert pattern(name).search(page)[0] == fresh, "look at what changed, then pytest --redraw"


def test_every_mark_on_the_page_has_its_part():
    """No part is forgotten between marks that nothing fills, and every mark is closed."""
    page = PAGE.read_text(encoding="utf-8")
    marks = re.findall(r"<!-- ([a-z ]+) (begins|ends) -->", page)
    assert marks == [(name, end) for name in PARTS for end in ("begins", "ends")]


def test_every_published_module_is_on_the_page():
    """Each file of tests/published and tests/laws is named, and each link leads somewhere."""
    page = PAGE.read_text(encoding="utf-8")
    links = set(re.findall(r"\]\(([^)#:]+)", page))
    assert [link for link in sorted(links) if not (PAGE.parent / link).exists()] == []
    checks = [*ROOT.glob("tests/published/test_*.py"), *ROOT.glob("tests/laws/test_*.py")]
    assert {f"../tests/{path.parent.name}/{path.name}" for path in checks} <= links
