"""Meshes looked at from above, against heights known by formula."""

from fractions import Fraction

import numpy as np
import pytest
from brokenscans import SQUARE, binary, text

from nesting.errors import InputError
from nesting.scans.mesh import look_from_above, read_mesh
from nesting.scans.scale import ScanScale


def grid_mesh(function, columns=40, rows=30, cell=1.0):
    """Return two triangles per cell under a function of x and y."""
    found = []
    for j in range(rows):
        for i in range(columns):
            corners = [
                (x * cell, y * cell, function(x * cell, y * cell))
                for x, y in ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1))
            ]
            found += [corners[:3], [corners[0], *corners[2:]]]
    return np.array(found)


@pytest.mark.parametrize("form", [binary, text])
def test_both_forms_give_the_corners(form):
    """Corners come as they were written."""
    assert (read_mesh("m", form(SQUARE)) == SQUARE).all()


@pytest.mark.parametrize(("cell", "pixel"), [(1, 1), (10, 1), (1, "1/3"), (3, 2)])
def test_a_slope_is_read_at_the_middle_of_each_pixel(cell, pixel):
    """Small triangles and large ones leave no gap and give the plane's own height."""
    mesh = grid_mesh(lambda x, y: 0.05 * x - 0.02 * y, 40 // cell, 30 // cell, cell)
    scan = look_from_above("m", mesh, ScanScale(pixel=Fraction(pixel)))
    pixel = float(Fraction(pixel))
    y, x = (np.mgrid[0 : scan.rows, 0 : scan.columns] + 0.5) * pixel
    rise = scan.heights - (0.05 * x - 0.02 * y)
    assert np.ptp(rise) < 1e-5
    assert scan.columns == int(mesh[:, :, 0].max() / pixel + 1e-6)


def test_the_highest_surface_counts():
    """A block under a lid is not seen; upright walls cast no height."""
    lid = np.add(SQUARE, (0, 0, 5))
    wall = np.array([[[20, 0, 0], [20, 30, 0], [20, 30, 90]]], float)
    scan = look_from_above("m", np.concatenate((SQUARE, lid, wall)), ScanScale())
    assert (scan.heights == 6).all()  # counted from the lowest corner of the mesh


def test_openings_are_ground_without_readings():
    """Pixels over which the mesh has no surface are not measured."""
    scan = look_from_above("m", SQUARE[:1], ScanScale())
    y, x = np.mgrid[0:30, 0:40] + 0.5
    assert (np.isnan(scan.heights) == (y * 4 > x * 3 + 1e-6)).all()


def test_a_mesh_is_scaled_in_all_three_axes():
    """A width, or a unit, scales x, y and z alike."""
    slope = grid_mesh(lambda x, y: x / 10)
    wide = look_from_above("m", slope, ScanScale(width=Fraction(400), pixel=Fraction(10)))
    assert (wide.columns, wide.rows) == (40, 30)
    assert np.ptp(wide.heights) == pytest.approx(39)
    metres = look_from_above("m", slope / 1000, ScanScale(height_unit=Fraction(1000)))
    assert (metres.columns, float(np.ptp(metres.heights))) == (40, pytest.approx(3.9))


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (
            binary(SQUARE)[:-1],
            "m: the file is no STL mesh, or is cut short, got 2 triangles told and 1 held",
        ),
        (binary(SQUARE) + b"x", "2 triangles told and 2 held"),
        (
            b"\x00" * 80 + b"\xff\xff\xff\xff" + b"\x00" * 100,
            "4294967295 triangles told and 2 held",
        ),
        (b"solid", "no STL mesh, or is cut short, got 5 bytes"),
        (b"garbage of letters", "got 18 bytes"),
        (binary(SQUARE[:0]), "at least one triangle"),
        (text(SQUARE)[:-40], "the mesh is cut short"),
        (
            text(SQUARE).replace(b"vertex 40.0 0", b"vertex 40.0 x"),
            "a corner must be three numbers",
        ),
        (
            text(SQUARE).replace(b"vertex 40.0 0.0 1.0", b"vertex 40.0", 1),
            "cut short|three numbers",
        ),
        (binary(SQUARE * np.nan), "finite coordinates"),
        (b"solid facet\nendsolid", "at least one triangle"),
    ],
)
def test_what_is_no_mesh_is_refused(content, told):
    """Each broken file has one line."""
    with pytest.raises(InputError, match=told):
        read_mesh("m", content)


@pytest.mark.parametrize(
    ("corners", "scale", "told"),
    [
        (SQUARE, ScanScale(relief=Fraction(1)), "--relief is for pictures, got a mesh"),
        (SQUARE, ScanScale(no_data=1), "--no-data is for pictures"),
        (SQUARE, ScanScale(Fraction(1), height_unit=Fraction(1)), "one scale for x, y and z"),
        (SQUARE[:, :, [0, 0, 2]] * [1, 0, 1], ScanScale(), "must have width and height"),
        (SQUARE * 1e6, ScanScale(), "at most 25 million pixels"),
        (SQUARE * 1e300, ScanScale(), "at most 25 million pixels"),
        (SQUARE / 10, ScanScale(), "at least 8 pixels"),
        (
            np.tile(grid_mesh(lambda x, y: 0, 1, 1, 4000.0), (30, 1, 1)),
            ScanScale(),
            "over and over",
        ),
    ],
)
def test_what_cannot_be_looked_at_is_refused(corners, scale, told):
    """Options that do not belong, and meshes that have no ground or too much."""
    with pytest.raises(InputError, match=told):
        look_from_above("m", corners, scale)
