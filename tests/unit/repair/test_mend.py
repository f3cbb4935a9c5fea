"""The least to be taken off or filled up on a liner that exists, worked out by hand."""

from dataclasses import replace
from fractions import Fraction

import pytest
from makemotifs import MM
from motiffiles import load_motif

from nesting.errors import RefusedError
from nesting.jobs.read import read_job_text
from nesting.jobs.write import write_job
from nesting.repair.mend import LinerChange, change_liner, mend_liner, plan_repair
from nesting.search.solver import Deadline, TimeUpError
from nesting.shapes.geometry import Box
from nesting.values.casts import Areas
from nesting.values.castsizes import AsCast, lay_liner
from nesting.values.material import SecondLiner
from nesting.values.motif import make_job
from nesting.values.panels import Panel

LOST = Panel("340x400", 340 * MM, 400 * MM, 1, "flat")


@pytest.fixture
def job(tmp_path):
    """Return a liner with wave and leaf, plain from 300 to 352, and no order."""
    motif = load_motif(tmp_path)
    return replace(make_job(motif, (52 * MM,)), panels=())


def by_change(repair):
    """Return amount and area of each remedy in mm and mm2, by what is done."""
    return {
        (r.change.kind, r.change.name, r.change.side): (r.amount / MM, r.area / MM**2)
        for r in repair.remedies
    }


def test_a_zone_is_widened_by_just_what_the_dam_lacks(job):
    """340 from the left rim: its dam ends at 360, the zone at 352. From the right rim the same."""
    repair = plan_repair(job, LOST, Deadline())
    assert not repair.has_place
    found = by_change(repair)
    assert found["widen", "S1", "right"] == (8, 8 * 400)
    assert found["widen", "S1", "left"] == (8, 8 * 400)
    assert repair.least == 8 * MM
    assert repair.proved
    assert repair.remedies[0].area == min(remedy.area for remedy in repair.remedies)


def test_a_size_with_a_place_needs_nothing(job):
    """The zone holds the dam of a panel of 330."""
    repair = plan_repair(job, replace(LOST, width=330 * MM), Deadline())
    assert repair.has_place
    assert repair.remedies == ()


def test_an_ornament_in_the_way_on_plain_ground_is_trimmed_or_taken_away(job):
    """380 from the left rim: dam to 400, clearance to 405; the leaf begins at 372: 33 mm too far.

    From the right rim the face is at 272 and the wave must end 5 before the dam at 252, by 247.
    """
    plain = replace(job, liner=replace(job.liner, unmarked="blank"))
    found = by_change(plan_repair(plain, replace(LOST, width=380 * MM), Deadline()))
    assert found["trim", "leaf", "left"] == (33, 33 * 360)
    assert found["trim", "wave", "right"] == (33, 33 * 360)
    assert found["remove", "leaf", ""][1] == 260 * 360
    assert not any(name == "S1" for _, name, _ in found)


def test_an_ornament_that_must_be_shown_is_left_alone(job):
    """Then only the other one may be ground."""
    plain = replace(job, liner=replace(job.liner, unmarked="blank"))
    shown = replace(LOST, width=380 * MM, must_show=("wave",))
    assert {name for _, name, _ in by_change(plan_repair(plain, shown, Deadline()))} == {"leaf"}


def test_nothing_single_may_help(job):
    """From rim to dam 640 leaves 12 mm of the liner for a dam of 20, whatever is ground off."""
    repair = plan_repair(job, replace(LOST, width=640 * MM), Deadline())
    assert repair.remedies == ()
    assert repair.least is None
    assert not repair.proved


def test_changed_ground_is_plain_afterwards(job):
    """A trimmed ornament is smaller, one taken away is gone, and both leave a blank zone."""
    trimmed = change_liner(job.liner, LinerChange("trim", "leaf", "bottom"), 10 * MM)
    assert trimmed.ornaments[1].outline.bounds == Box(372 * MM, 30 * MM, 632 * MM, 380 * MM)
    assert trimmed.zones[-1].outline.bounds == Box(372 * MM, 20 * MM, 632 * MM, 30 * MM)
    gone = change_liner(job.liner, LinerChange("remove", "leaf"), 1)
    assert [ornament.name for ornament in gone.ornaments] == ["wave"]
    assert gone.zones[-1].outline == job.liner.ornaments[1].outline


def test_a_repair_the_checker_refuses_is_not_told(job, monkeypatch):
    """The first remedy is planned and checked before anything is said."""
    import nesting.schedules.findings

    monkeypatch.setattr(
        nesting.schedules.findings, "check_schedule", lambda *_: (Areas(1, 1, 0, 0),)
    )
    with pytest.raises(RefusedError, match="Our own checker refused"):
        plan_repair(job, LOST, Deadline())


class Looks(Deadline):
    """A deadline that comes once it was looked at so often."""

    def __init__(self, most):
        super().__init__()
        self.most = most

    @property
    def passed(self):
        """Count down."""
        self.most -= 1
        return self.most < 0


def test_at_the_deadline_stands_what_was_found_by_then(job):
    """Of all changes those tried so far, each exact; the patch is not looked for any more."""
    whole = plan_repair(job, LOST, Deadline())
    assert not whole.stopped
    found = [plan_repair(job, LOST, Looks(most)) for most in (0, 30, 60)]
    assert [repair.stopped for repair in found] == [True] * 3
    assert [repair.can_have_place for repair in found][::2] == [False, True]
    assert all(remedy in whole.remedies for repair in found for remedy in repair.remedies)
    assert [repair.patch for repair in found] == [None] * 3


def test_a_liner_is_not_mended_in_part(job):
    """Without time for a patch there is no liner to show."""
    with pytest.raises(TimeUpError):
        mend_liner(job, (LOST,), Deadline(0))


@pytest.mark.parametrize("degrees", [9, 20, 33])
def test_a_mended_liner_is_written_as_it_was_measured(job, degrees):
    """Cold, as measured, warm: the job has its rules on warmth still, and reads back equal."""
    second = SecondLiner(MM, MM, MM, tuple(each.name for each in job.liner.ornaments))
    rubber = replace(job.materials.rubber, second=second)
    as_cast = AsCast(Fraction(0), Fraction(degrees), Fraction(20), Fraction(2, 10_000))
    job = replace(
        job,
        liner=lay_liner(job.liner, as_cast),
        as_cast=replace(as_cast, drawn=job.liner if degrees != 20 else None),
        materials=replace(job.materials, rubber=rubber),
        shop=replace(job.shop, liners=3),
    )
    wide = replace(LOST, width=500 * MM, height=300 * MM)
    mended = mend_liner(job, (wide,), Deadline()).job
    assert read_job_text(write_job(mended), "job") == mended
    assert (mended.as_cast.factor, mended.shop) == (as_cast.factor, job.shop)
    assert lay_liner(mended.drawn, mended.as_cast) == mended.liner
    left = tuple(each.name for each in mended.liner.ornaments)
    assert mended.materials.rubber.second.ornaments == left != second.ornaments
