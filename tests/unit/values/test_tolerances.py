"""Named tolerance classes: bands by length, and what job, check and report make of them."""

import itertools
from dataclasses import replace

import pytest
from handjob import MM, hand_job, hand_schedule
from jobtext import change, list_mistakes, write_job

from nesting.checking.schedule import check_schedule
from nesting.errors import InputError
from nesting.jobs.read import read_job
from nesting.schedules.report import report_schedule
from nesting.schedules.tolerances import list_tolerances
from nesting.units import STEPS_PER_INCH
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.tolerances import CLASSES, class_limits, find_band

FOOT = 12 * STEPS_PER_INCH
CLASS = 'must_show = ["heron"]\ntolerance = "{}"'


def read_with(folder, name, *changes):
    """Return the hand-sized job whose panel A1 has the class."""
    text = change(('must_show = ["heron"]', CLASS.format(name)), *changes)
    return read_job(write_job(folder, text))


def sixteenths(low, high):
    """Return limits given in sixteenths of an inch."""
    return low * STEPS_PER_INCH // 16, high * STEPS_PER_INCH // 16


@pytest.mark.parametrize("name", CLASSES)
def test_bands_rise_and_never_overlap(name):
    """The last one has no end, and a length in a band has limits around zero, to either end."""
    bands = CLASSES[name]
    assert all(one.longest <= next_one.over for one, next_one in itertools.pairwise(bands))
    assert bands[-1].longest == 0
    for band in bands:
        for end in (band.over + 1, band.longest or 33_000 * MM):
            low, high = class_limits(name, end)
            assert find_band(name, end) is band
            assert low < 0 < high


@pytest.mark.parametrize("name", CLASSES)
def test_limits_never_narrow_with_length(name):
    """A longer panel never has the narrower limits."""
    lengths = [feet * FOOT for feet in range(1, 109) if name == "small-unit" or not 10 < feet <= 20]
    found = [class_limits(name, length) for length in lengths]
    assert [low for low, _ in found] == sorted((low for low, _ in found), reverse=True)
    assert [high for _, high in found] == sorted(high for _, high in found)


def test_the_end_of_a_band_belongs_to_it():
    """At 10 ft the shorter band rules; the next one begins a step beyond 20 ft."""
    assert class_limits("architectural", 10 * FOOT) == sixteenths(-2, 2)
    assert class_limits("architectural", 20 * FOOT + 1) == sixteenths(-4, 4)


@pytest.mark.parametrize("length", [10 * FOOT + 1, 20 * FOOT])
def test_between_bands_a_class_refuses(length):
    """To the step: a table that was not read gives no limits, the shorter band's neither."""
    with pytest.raises(InputError, match=r"over 3048 to 6096 mm \(10 to 20 ft\), got .* mm; give"):
        class_limits("architectural", length)


def test_only_whole_further_ten_feet_widen():
    """From 40 ft on, 1/16 in comes with each whole 10 ft."""
    assert class_limits("architectural", 50 * FOOT - 1) == sixteenths(-4, 4)
    assert class_limits("architectural", 50 * FOOT) == sixteenths(-5, 5)
    assert class_limits("architectural", 100 * FOOT) == sixteenths(-10, 10)


def test_every_band_has_a_source():
    """Limits without a source are nowhere in the table."""
    assert all(len(band.source) > 20 for bands in CLASSES.values() for band in bands)
    assert not any("memory" in band.source for bands in CLASSES.values() for band in bands)


def test_width_and_height_have_bands_of_their_own(tmp_path):
    """A panel 24 ft wide and 3 ft high has two pairs of limits; the range on a bed uses both."""
    job = read_with(tmp_path, "architectural", ("size = [800, 650]", 'size = ["24 ft", "3 ft"]'))
    panel = job.panel("A1")
    assert panel.tolerance_class == "architectural"
    assert panel.limits == (sixteenths(-4, 4), sixteenths(-2, 2))
    width, height = Bend(Bed("table"), 13 * MM).flat_range(panel)
    assert width == (24 * FOOT + panel.limits[0][0], 24 * FOOT + panel.limits[0][1])
    assert height == (3 * FOOT + panel.limits[1][0], 3 * FOOT + panel.limits[1][1])


@pytest.mark.parametrize("size", ['["12 ft", "3 ft"]', '["3 ft", "12 ft"]'])
def test_a_job_is_told_where_a_class_has_no_limits(tmp_path, size):
    """One line: where, why, the length got, and to give the limits of the contract."""
    text = change(
        ("size = [800, 650]", f"size = {size}"),
        ('must_show = ["heron"]', CLASS.format("architectural")),
    )
    assert list_mistakes(write_job(tmp_path, text)) == [
        "job.toml:32: panel[1].tolerance: class 'architectural' has no published limits for "
        "lengths over 3048 to 6096 mm (10 to 20 ft), got 3657.6 mm; give the limits of your "
        "contract as [low, high]."
    ]


def test_limits_of_ones_own_hold_for_both_sides(tmp_path):
    """A pair in the job is no class and is not listed in the report."""
    text = change(('must_show = ["heron"]', 'must_show = ["heron"]\ntolerance = [-2, 1]'))
    job = read_job(write_job(tmp_path, text))
    assert job.panel("A1").limits == ((-2 * MM, MM), (-2 * MM, MM))
    assert list_tolerances(job) == []


@pytest.mark.parametrize("name", ["smal-unit", "", "Architectural"])
def test_an_unknown_class_is_answered_with_the_known_ones(tmp_path, name):
    """The message has the place, the name got and every class there is."""
    text = change(('must_show = ["heron"]', CLASS.format(name)))
    assert list_mistakes(write_job(tmp_path, text)) == [
        f"job.toml:32: panel[1].tolerance: there is no such tolerance class, got '{name}'; "
        "give [low, high] or one of the known classes: small-unit, architectural."
    ]


def test_a_class_wider_than_the_panel_is_refused(tmp_path):
    """A panel must keep a size above zero on either side."""
    text = change(
        ("size = [800, 650]", "size = [800, 2]"),
        ('must_show = ["heron"]', CLASS.format("small-unit")),
    )
    (line,) = list_mistakes(write_job(tmp_path, text))
    assert "panel[1].tolerance: must leave a size > 0 mm, got -3 mm" in line


@pytest.mark.parametrize(("change_of_size", "codes"), [((0, 0), set()), ((0, -MM), {303})])
def test_the_check_judges_each_side_by_its_own_limits(change_of_size, codes):
    """Height limits of zero refuse 1 mm though the width would be allowed it."""
    job, schedule = hand_job(), hand_schedule()
    panels = tuple(replace(p, tolerance=(-MM, MM), tolerance_height=(0, 0)) for p in job.panels)
    job = replace(job, panels=panels)
    first = schedule.layouts[0]
    place = replace(first.panels[0], off_nominal=change_of_size)
    layouts = (replace(first, panels=(place, *first.panels[1:])), *schedule.layouts[1:])
    found = check_schedule(job, replace(schedule, layouts=layouts))
    assert {finding.code for finding in found} == codes


def test_the_report_prints_limits_source_and_method(tmp_path):
    """Where a class is used, the report says what it allows, by whom, and how it is judged."""
    job = read_with(tmp_path, "architectural")
    lines = list_tolerances(job)
    text = " ".join(" ".join(lines).split())
    assert lines[0] == "Tolerances by class, in millimetres:"
    assert "A1 architectural 800 -3.175 to +3.175 650 -3.175 to +3.175" in text
    assert "National Precast Concrete Association, typical tolerances (2023), after PCI" in text
    assert "absolute method of ASTM E29" in text
    assert max(map(len, lines)) <= 100
    assert "\n".join(lines) in report_schedule(job, hand_schedule())
