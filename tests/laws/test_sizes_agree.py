"""Flat sizes are worked out twice, by radii for the search and by angles for the checker."""

from dataclasses import replace
from fractions import Fraction

from handjob import MM, hand_job, hand_schedule, sides
from hypothesis import example, given
from hypothesis import strategies as st

from nesting.checking.schedule import check_schedule
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.casts import Placement, Schedule
from nesting.values.castsizes import AsCast
from nesting.values.job import Job
from nesting.values.panels import Panel

BEDS = st.builds(
    Bed,
    name=st.just("bed"),
    form=st.sampled_from(["flat", "convex", "concave"]),
    radius=st.integers(400 * MM, 20_000 * MM),
    curved_axis=st.sampled_from(["x", "y"]),
    neutral=st.fractions(0, 1, max_denominator=64),
    ends=st.sampled_from(["square", "plumb"]),
)
LENGTHS = st.integers(MM, 600 * MM)
PANELS = st.builds(
    Panel,
    mark=st.just("P"),
    width=LENGTHS,
    height=LENGTHS,
    quantity=st.just(1),
    bed=st.just("bed"),
    measured_on=st.sampled_from(["face", "back", "chord"]),
    thickness=st.integers(1, 40 * MM),
    tolerance=st.tuples(st.integers(-900, 0), st.integers(0, 900)),
)
THICKNESSES = st.integers(1, 60 * MM)
SHRINKS = st.sampled_from([Fraction(0), Fraction(1, 2000), Fraction("0.0999")])


def size_faults(job: Job, width: int, height: int, off: tuple[int, int]) -> bool:
    """Tell whether the checker finds fault with the size of the one panel so placed."""
    panel = Placement("P", 0, 0, width, height, sides("rt"), off_nominal=off)
    layout = replace(hand_schedule().layouts[0], panels=(panel,), dams=(), bed="bed")
    found = check_schedule(job, Schedule(job.title, 0, (layout,)))
    return 303 in {finding.code for finding in found}


def one_panel(panel: Panel, bed: Bed, thickness: int, shrink: Fraction) -> Job:
    """Return the hand-sized job with this panel, bed, liner thickness and panel shrinkage."""
    job = hand_job()
    liner = replace(job.liner, thickness=thickness)
    as_cast = AsCast(panel_shrink=shrink)
    return replace(job, liner=liner, beds=(bed,), panels=(panel,), as_cast=as_cast)


@given(PANELS, BEDS, THICKNESSES, SHRINKS)
def test_the_nominal_flat_size_passes_and_three_steps_beside_it_do_not(
    panel, bed, thickness, shrink
):
    """The two workings differ by no more than one step of a chord or a plumb end."""
    job = one_panel(panel, bed, thickness, shrink)
    width, height = Bend(bed, thickness, shrink).flat_size(panel)
    assert not size_faults(job, width, height, (0, 0))
    assert size_faults(job, width + 3, height, (0, 0))
    assert size_faults(job, width, height - 3, (0, 0))


@example(
    # A flat size one step beside the nominal one, which rounds back to the size as ordered.
    Panel("P", 1_728_858, MM, 1, "bed", thickness=MM, tolerance=(0, 1)),
    Bed("bed", "convex", 5_643_449, "x", Fraction(25, 53)),
    1449,
    Fraction("0.0999"),
)
@given(PANELS, BEDS, THICKNESSES, SHRINKS)
def test_every_size_in_the_flat_range_passes_as_stated(panel, bed, thickness, shrink):
    """Least and greatest flat sizes, with what they are off the order, are within tolerance."""
    job = one_panel(panel, bed, thickness, shrink)
    bend = Bend(bed, thickness, shrink)
    widths, heights = bend.flat_range(panel)
    for width, height in zip(widths, heights, strict=True):
        off = bend.off_nominal(panel, (width, height))
        assert not size_faults(job, width, height, off)
