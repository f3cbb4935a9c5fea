"""Pictures and arrays of heights: what is read, and what is refused."""

import io
import struct

import numpy as np
import pytest
from brokenscans import ARRAYS, GREY, PICTURES, chunk, npy, picture, png
from PIL import Image

from nesting.errors import InputError
from nesting.scans.image import read_array, read_image


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (picture(GREY), GREY),
        (picture((GREY // 257).astype(np.uint8)), GREY // 257),
        (picture(GREY, "TIFF"), GREY),
        (picture(GREY, "TIFF", compression="tiff_adobe_deflate"), GREY),
        (picture(GREY.astype(np.float32) / 7, "TIFF"), GREY.astype(np.float32) / 7),
    ],
)
def test_grey_pictures_give_their_numbers(content, expected):
    """8 and 16 bits and decimals come out as they went in, the uppermost row first."""
    values, hidden = read_image("s", content)
    assert (values == expected).all()
    assert values.dtype.kind == expected.dtype.kind
    assert hidden is None


def test_the_transparent_grey_of_a_png_is_no_reading():
    """A PNG may name one grey as transparent; it is told beside the pixels."""
    raw = b"".join(b"\0" + GREY[row].astype(">u2").tobytes() for row in range(10))
    values, hidden = read_image("s", png(20, 10, raw, chunk(b"tRNS", struct.pack(">H", 656))))
    assert hidden == 656
    assert (values == GREY).all()


@pytest.mark.parametrize("dtype", ["<f2", "<f4", ">f8", "u1", "<u2", ">u2"])
def test_arrays_of_heights_give_their_numbers(dtype):
    """Decimals and whole numbers of either byte order are read."""
    array = (GREY % 200).astype(dtype)
    found = read_array("s", npy(array))
    assert (found == array).all()
    assert found.dtype.isnative


def test_an_array_stored_by_columns_is_read_alike():
    """The order in memory does not turn the scan."""
    assert (read_array("s", npy(np.asfortranarray(GREY))) == GREY).all()


@pytest.mark.parametrize("name", PICTURES)
def test_pictures_that_are_none_are_refused(name):
    """Each has one line with the rule, and never another error."""
    content, told = PICTURES[name]
    with pytest.raises(InputError, match=told) as caught:
        read_image("s", content)
    assert str(caught.value).startswith("s: ")
    assert "\n" not in str(caught.value)


def test_a_picture_of_several_pages_is_refused():
    """Which page is meant cannot be told."""
    stream = io.BytesIO()
    page = Image.fromarray(GREY)
    page.save(stream, "TIFF", save_all=True, append_images=[page])
    with pytest.raises(InputError, match="a scan has one page, got 2; save the page alone"):
        read_image("s", stream.getvalue())


@pytest.mark.parametrize("name", ARRAYS)
def test_arrays_that_are_no_heights_are_refused(name):
    """Each has one line with the rule, and nothing in the file is run or made room for."""
    content, told = ARRAYS[name]
    with pytest.raises(InputError, match=told) as caught:
        read_array("s", content)
    assert "\n" not in str(caught.value)
