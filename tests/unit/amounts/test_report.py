"""The report of quantities: weights, handling, warnings, and the cautions at its end."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, change_panel, hand_schedule
from quantityjobs import make_job, make_quantities

from nesting.amounts.quantities import reckon_quantities
from nesting.amounts.report import (
    handling_of,
    list_layouts,
    list_warnings,
    report_quantities,
)
from nesting.schedules.cautions import short_cautions
from nesting.values.material import USUAL, Lifting


def report(**options):
    """Return the report of the hand-sized job as lines."""
    return report_quantities(*make_quantities(**options)).splitlines()


def row(lines, mark, after):
    """Return the first row of a mark below a line that begins so, as cells."""
    start = next(number for number, line in enumerate(lines) if line.startswith(after))
    return next(line for line in lines[start:] if line.startswith(f"  {mark} ")).split()


def test_the_first_line_is_the_result():
    """Panels, casts, and what all of them weigh, wet and cured, in both units."""
    _, found = make_quantities()
    wet, cured = found.weight.wet, found.weight.cured
    assert report()[0] == (
        f"Bath house, foyer: 3 panels in 2 casts; {float(wet):.1f} kg "
        f"({float(wet) / 0.45359237:.1f} lb) wet, {float(cured):.1f} kg "
        f"({float(cured) / 0.45359237:.1f} lb) cured."
    )


def test_what_the_schedule_notes_is_told():
    """A time limit reached bears on every figure, so it stands at the top."""
    job, found = make_quantities()
    text = report_quantities(job, replace(found, notes=("The time limit of 2 s was reached.",)))
    assert text.split("\n\n")[1] == "Note: The time limit of 2 s was reached."


def test_a_panel_has_face_coat_and_backing_apart():
    """0.52 m2 with 4 mm of 2000 kg/m3 in front of 16 mm and half a boss."""
    cells = row(report(), "A1", "One panel")
    assert cells[:9] == ["A1", "1", "1", "0.5200", "20", "20", "4.2", "17.4", "21.6"]
    assert cells[-1] == "heron"


@pytest.mark.parametrize(
    ("limit", "words"),
    [
        (22, "one person, in ideal conditions only"),
        (20, "two people or a lift"),
        (10, "a lift"),
    ],
)
def test_a_heavy_panel_is_not_for_one_person(limit, words):
    """Over the limit it takes two or a lift, over twice the limit a lift."""
    job, found = make_quantities(lifting=Lifting(4, Fraction(limit)))
    panel = found.panels[0].panel
    assert handling_of(job, panel) == words
    assert words in next(
        line for line in report(lifting=job.materials.lifting) if "21.6 kg (" in line
    )


def test_exactly_the_limit_is_still_for_one():
    """The limit itself may be lifted."""
    _, found = make_quantities()
    panel = found.panels[0].panel
    job = make_job(lifting=Lifting(2, panel.weight.heaviest))
    assert handling_of(job, panel).startswith("one person")


def test_lifting_points_have_a_plain_share_and_the_published_factors():
    """A quarter at each of four points, the law's factors, and who designs a lift."""
    text = " ".join(" ".join(report(lifting=Lifting(4, Fraction(23)))).split())
    assert "at each of 4 points" in text
    assert "21.6 kg (47.6 lb) 5.4 kg (11.9 lb)" in text
    for words in ("29 CFR 1926.704", "NIOSH 94-110", "A competent person designs every lift."):
        assert words in text


def test_a_thin_panel_is_warned_of():
    """Under the least thickness, with the hollow that makes it so and what was asked for."""
    job, found = make_quantities(on_panel="hollow", relief=11)
    first, second = list_warnings(job, found)
    assert first == (
        "panel 'A1' is 9 mm thick over 'heron', of 20 mm in all; at least 10 mm is asked for."
    )
    assert second.startswith("panel 'C1' is 9 mm")
    assert f"Warning: {first}" in report_quantities(job, found)
    assert list_warnings(*make_quantities(on_panel="hollow", relief=10)) == []


def test_a_thin_panel_without_a_hollow_is_warned_of_too():
    """A panel of 8 mm is too thin by itself."""
    job = change_panel(make_job(), "B1", thickness=8 * MM)
    (only,) = list_warnings(job, reckon_quantities(job, hand_schedule()))
    assert only == "panel 'B1' is 8 mm thick, of 8 mm in all; at least 10 mm is asked for."


def test_ornaments_of_unstated_kind_are_named():
    """Which side is safe is said; an ornament without relief needs nothing stated."""
    job, found = make_quantities(on_panel="")
    assert list_warnings(job, found) == [
        "on_panel is not stated for: heron. Each counts as a boss for the weight and as a hollow "
        "for the least thickness, which is the safe side of both."
    ]
    assert not [text for text in report(on_panel="", relief=0) if "on_panel" in text]


def test_an_inch_job_has_pounds_first():
    """Weights in lb, areas in ft2, lengths in inches."""
    job = replace(make_job(), units="in", materials=USUAL)
    lines = report_quantities(job, reckon_quantities(job, hand_schedule())).splitlines()
    assert any(line.startswith("One panel, in lb where no unit stands") for line in lines)
    assert row(lines, "A1", "One panel")[3] == f"{0.52 / 0.09290304:.4f}"


def test_the_report_ends_with_the_cautions():
    """Whatever else is printed, they are last; and running text keeps within the page."""
    lines = report()
    assert lines[-len(short_cautions()) :] == short_cautions()


def test_layouts_are_listed():
    """Numbers with commas."""
    _, found = make_quantities()
    assert list_layouts(replace(found.panels[0], layouts=(1, 3))) == "1, 3"


def test_a_scale_too_coarse_for_an_ingredient_is_told():
    """The one it puts out most, with what is weighed and what the mix asks for; else nothing."""
    job, found = make_quantities(batch=replace(USUAL.batch, scale=Fraction("0.1")))
    (text,) = list_warnings(job, found)
    assert text.startswith("the scale's division is coarse for plasticiser: for the face coat of ")
    assert text.endswith(
        "it weighs 0 kg where the mix asks for 0.031 kg. Weigh it on a finer scale."
    )
    assert list_warnings(*make_quantities()) == []
