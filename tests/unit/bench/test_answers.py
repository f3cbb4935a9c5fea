"""A liner tried with sizes: what each part of an answer holds."""

from dataclasses import replace

import pytest
from handjob import hand_job
from makejobs import island_job

from nesting.bench.answers import Asked, TryOut
from nesting.errors import InputError
from nesting.values.bed import Bed


def test_a_quick_no_on_slopes_has_neither_panel_nor_dams():
    """It is as certain as on stepped ground: places are asked for exactly."""
    tryout = TryOut(island_job(3, islands=50), "islands.toml")
    answer = tryout.answer("fit", Asked("900", "700"))
    assert answer == {"fits": False, "size": "900 x 700 mm", "panel": None, "dams": []}


def test_a_bed_changes_the_flat_size():
    """On a drum the face lies half a liner farther out than the middle that keeps its length."""
    job = hand_job()
    job = replace(job, liner=replace(job.liner, unmarked="blank"))
    job = replace(job, beds=(*job.beds, Bed("drum two", "convex", 3000 * 8000)))
    tryout = TryOut(job, "hand.toml")
    bent, flat = (
        tryout.answer("fit", Asked("700", "500", bed))["panel"] for bed in ("drum two", "")
    )
    half = job.liner.thickness / 8000 / 2
    assert flat[2] - flat[0] == 700
    assert bent[2] - bent[0] == pytest.approx(700 * (3000 + half) / (3000 + 2 * half), abs=0.001)


def test_a_size_no_bed_can_bend_to_is_refused():
    """A panel that would go round its bed more than it can is told of with the bed."""
    job = hand_job()
    job = replace(job, beds=(Bed("small drum", "convex", 100 * 8000),))
    with pytest.raises(InputError, match="no panel on bed 'small drum' can have that size"):
        TryOut(job, "hand.toml").answer("fit", Asked("1100", "300"))


def test_the_description_holds_what_is_drawn():
    """Liner, ornaments and zones are described in mm; the first size is half the liner."""
    told = TryOut(hand_job(), "hand.toml").describe()
    assert told["box"] == [0, 0, 1200, 800]
    assert told["first"] == ["600", "400"]
    assert [zone["name"] for zone in told["zones"]] == ["east", "north"]
    assert told["ornaments"][0]["rings"] == [[[300, 200], [520, 200], [520, 600], [300, 600]]]


def test_an_inch_job_counts_in_inches():
    """One unit is 25.4 mm and the first size is whole inches."""
    told = TryOut(replace(hand_job(), units="in"), "hand.toml").describe()
    assert told["mm_per_unit"] == 25.4
    assert told["first"] == ["23", "15"]
