"""Path data, transforms and lengths are read as the standard has them."""

import math

import pytest

from nesting.errors import InputError
from nesting.liners.svgpath import read_length, read_path, read_transform
from nesting.shapes.curves import Arc, Bezier, apply


def ends(data):
    """Return the start and the ends of the curves of each run, and whether it is closed."""
    return [
        ([run.curves[0].start, *(curve.end for curve in run.curves)], run.is_closed)
        for run in read_path(data)
    ]


@pytest.mark.parametrize(
    "data",
    [
        "M1 2 L4 2 L4 6 Z",
        "m1 2l3 0l0 4z",
        "M1,2H4V6Z",
        "M 1 2 4 2 4 6 z",
        "m1 2h3v4 z",
        "M1 2L4+2L4,6Z",
        "M1.0e0 2.L.4e1 2 4 6Z",
    ],
)
def test_one_triangle_in_many_ways(data):
    """Absolute and relative, repeated commands left out, any separators."""
    assert ends(data) == [([(1, 2), (4, 2), (4, 6), (1, 2)], True)]


def test_runs_are_parted_and_go_on_from_where_the_last_one_began():
    """A relative move after a closed run counts from its start."""
    assert ends("M10 10h5v5z m20 0h1") == [
        ([(10, 10), (15, 10), (15, 15), (10, 10)], True),
        ([(30, 10), (31, 10)], False),
    ]


def test_smooth_curves_take_up_the_handle():
    """S and T turn the last handle over; after another command it lies on the point."""
    first, second = read_path("M0 0C1 2 3 2 4 0S7-2 8 0")[0].curves
    assert isinstance(first, Bezier)
    assert second.points[1][:2] == (5.0, -2.0)
    assert read_path("M0 0L4 0S7-2 8 0")[0].curves[1].points[1][:2] == (4.0, 0.0)
    assert read_path("M0 0Q1 2 2 0T4 0")[0].curves[1].points[1][:2] == (3.0, -2.0)


def test_a_handle_of_the_other_family_is_not_taken_up():
    """S after Q and T after C begin with the point itself as handle."""
    assert read_path("M0 0Q1 2 2 0S5-2 6 0")[0].curves[1].points[1][:2] == (2.0, 0.0)
    assert read_path("M0 0C1 2 3 2 4 0T8 0")[0].curves[1].points[1][:2] == (4.0, 0.0)


@pytest.mark.parametrize(("flags", "middle"), [("01", (5.0, -5.0)), ("00", (5.0, 5.0))])
def test_arcs_run_as_their_sweep_says(flags, middle):
    """Sweep 1 turns with the angles of SVG, whose y grows down; flags may touch what follows."""
    (arc,) = read_path(f"M0 0a5 5 0 {flags}10 0")[0].curves
    assert isinstance(arc, Arc)
    assert arc.point(0.5) == pytest.approx(middle)
    assert arc.end == pytest.approx((10.0, 0.0))


def test_large_arcs_go_the_long_way():
    """Three quarters of the circle, not one."""
    (arc,) = read_path("M0 5A5 5 0 1 1 5 10")[0].curves
    assert abs(arc.sweep) == pytest.approx(1.5 * math.pi)


def test_radii_too_small_grow():
    """They become just large enough to reach, as the standard says."""
    (arc,) = read_path("M0 0A1 1 0 0 1 10 0")[0].curves
    assert math.hypot(*arc.across) == pytest.approx(5.0)
    assert read_path("M0 0A0 9 0 0 1 10 0")[0].curves[0].point(0.5) == (5.0, 0.0)
    assert read_path("M3 3A1 1 0 0 1 3 3") == ()


@pytest.mark.parametrize(
    ("data", "place"),
    [
        ("10 10", 1),
        ("L1 1", 2),
        ("M1", 3),
        ("M1 1X2", 6),
        ("M1 1Z 5", 7),
        ("M1 1a5 5 0 2 1", 12),
    ],
)
def test_bad_data_is_told_by_its_place(data, place):
    """The character where the data breaks a rule."""
    with pytest.raises(InputError, match=f"must be path data, character {place},"):
        read_path(data)


@pytest.mark.parametrize(
    ("text", "moved"),
    [
        ("", (2, 3)),
        ("translate(10)", (12, 3)),
        ("translate(10,-1) scale(2)", (14, 5)),
        ("scale(2,3)", (4, 9)),
        ("rotate(90)", (-3, 2)),
        ("rotate(180 1 1)", (0, -1)),
        ("matrix(1 0 0 1 5 6)", (7, 9)),
        ("skewX(45)", (5, 3)),
        ("skewY(45),translate(0 1)", (2, 6)),
    ],
)
def test_transforms(text, moved):
    """A list applies its last one first."""
    assert apply(read_transform(text), (2, 3)) == pytest.approx(moved)


@pytest.mark.parametrize("text", ["turn(3)", "rotate()", "scale(1", "matrix(1 2)", "rotate(1 2)"])
def test_what_is_no_transform(text):
    """Names not known and wrong counts are refused."""
    with pytest.raises(InputError, match="must be a"):
        read_transform(text)


def test_lengths():
    """A number and its unit, in any case."""
    assert read_length("-2.5 MM") == (-2.5, "mm")
    with pytest.raises(InputError, match="must be a length, got 'wide'"):
        read_length("wide")
