"""Scans as files: which endings are read, and how trouble is told."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from makescans import MM, RULES, example_grey, leafy_scan
from PIL import Image

from nesting.errors import InputError
from nesting.scans.read import read_scan, read_scanned_liner
from nesting.scans.scale import ScanScale

SCALE = ScanScale(width=Fraction(2400), relief=Fraction(14))


def test_the_same_scan_in_every_form_gives_the_same_liner(tmp_path):
    """PNG, TIFF and NPY of the same numbers agree to the step."""
    grey = example_grey()
    Image.fromarray(grey).save(tmp_path / "a.png")
    Image.fromarray(grey).save(tmp_path / "a.tif")
    Image.fromarray(grey).save(tmp_path / "a.TIFF")
    np.save(tmp_path / "a.npy", grey)
    names = ("a.png", "a.tif", "a.TIFF", "a.npy")
    found = [read_scanned_liner(tmp_path / n, SCALE, RULES, "reeds", 13 * MM) for n in names]
    assert len(found[0].liner.ornaments) > 3
    assert all(each.liner == found[0].liner for each in found)


def test_decimal_heights_need_no_relief(tmp_path):
    """An NPY of millimetres is read with a pixel alone."""
    np.save(tmp_path / "a.npy", leafy_scan(1)[0][::-1])
    scan = read_scan(tmp_path / "a.npy", ScanScale(pixel=Fraction(1)))
    assert (scan.heights == leafy_scan(1)[0].astype(np.float32)).all()


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("a.jpg", b"x", r"a\.jpg: a scan ends in \.png, \.tif, \.tiff, \.npy, \.stl, got \.jpg"),
        ("a", b"x", "got no ending"),
        ("a.png", b"", "the file is empty"),
        ("a.png", b"x", "no PNG or TIFF picture"),
        ("a.npy", b"x", "no NPY array"),
        ("a.stl", b"x", "no STL mesh"),
        ("gone.stl", None, "there is no such file"),
    ],
)
def test_files_that_are_no_scans_are_refused(tmp_path, name, content, told):
    """The line begins with the file."""
    if content is not None:
        (tmp_path / name).write_bytes(content)
    with pytest.raises(InputError, match=told) as caught:
        read_scan(tmp_path / name, SCALE)
    assert str(caught.value).startswith(str(tmp_path / name))


def test_a_scan_of_noise_is_told_with_its_remedy(tmp_path):
    """Too much to outline names the option to raise."""
    np.save(tmp_path / "a.npy", np.random.default_rng(0).normal(0, 0.6, (400, 600)))
    rules = replace(RULES, threshold=MM, join=0, speck=0)
    with pytest.raises(InputError, match=r"must be few ornaments, got .*; raise --threshold"):
        read_scanned_liner(tmp_path / "a.npy", ScanScale(pixel=Fraction(1)), rules, "r", MM)


def test_a_scan_without_ground_beside_missing_readings_is_told(tmp_path):
    """A few readings in the middle of nothing leave no liner."""
    heights = np.full((40, 40), np.nan)
    heights[20:22, 20:22] = 1
    np.save(tmp_path / "a.npy", heights)
    with pytest.raises(InputError, match="no ground is left"):
        read_scanned_liner(tmp_path / "a.npy", ScanScale(pixel=Fraction(1)), RULES, "r", MM)
