"""Reads the numbers of a scan: a grey PNG or TIFF, or an array of numpy's NPY format."""

from __future__ import annotations

import io
import warnings
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image, UnidentifiedImageError

from nesting.errors import InputError
from nesting.scans.heightmap import MOST_PIXELS

if TYPE_CHECKING:
    from PIL.ImageFile import ImageFile

_GREY = {"L": "uint8", "I;16": "uint16", "I;16B": "uint16", "F": "float32"}
_WHITE_IS_ZERO = 0
_PHOTOMETRIC = 262  # TIFF tag, TIFF 6.0 section 8
_ONE = "a scan is one grey channel of 8 or 16 bits, or of decimal heights"


def read_image(where: str, content: bytes) -> tuple[NDArray[Any], float | None]:
    """Return the pixels of a PNG or TIFF, uppermost row first, and its own number for no reading.

    Raises
    ------
    InputError
        With ``where`` in front: no such picture, cut short, colours, too large.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of large pictures: told below
            with Image.open(io.BytesIO(content), formats=("PNG", "TIFF")) as picture:
                return _pixels(where, picture)
    except InputError:
        raise
    except Image.DecompressionBombError as error:
        raise _too_large(where, "more") from error
    except UnidentifiedImageError as error:
        raise InputError(where, "the file is no PNG or TIFF picture") from error
    except Exception as error:  # on damaged files decoders raise whatever comes up
        what = str(error).splitlines()[0].rstrip(".").lower() if str(error) else "it is damaged"
        raise InputError(where, f"the picture cannot be read: {what}") from error


def read_array(where: str, content: bytes) -> NDArray[Any]:
    """Return the array of an NPY file of heights; whole numbers must be unsigned, of 8 or 16 bits.

    Raises
    ------
    InputError
        With ``where`` in front: not NPY, not two axes, other numbers, cut short, too large.
    """
    stream = io.BytesIO(content)
    try:
        version = np.lib.format.read_magic(stream)
        read_header = {
            (1, 0): np.lib.format.read_array_header_1_0,
            (2, 0): np.lib.format.read_array_header_2_0,
        }[version]
        shape, _, dtype = read_header(stream)
    except Exception as error:  # so does the reader of heads
        raise InputError(where, "the file is no NPY array") from error
    if len(shape) != 2:
        rule = "an array of heights has two axes, rows and columns"
        raise InputError(where, rule, f"{len(shape)}")
    if (
        dtype.hasobject
        or dtype.kind not in "fu"
        or dtype.itemsize > (8 if dtype.kind == "f" else 2)
    ):
        rule = (
            "heights are decimals of 16 to 64 bits, or whole numbers of 8 or 16 bits without sign"
        )
        raise InputError(where, rule, str(dtype)[:60])
    rows, columns = shape
    if min(shape) < 0 or rows * columns > MOST_PIXELS:
        raise _too_large(where, f"{columns} x {rows}")
    held = (len(content) - stream.tell()) // dtype.itemsize
    if held < rows * columns:
        rule = "the file is cut short"
        raise InputError(where, rule, f"{held} of {rows * columns} heights")
    stream.seek(0)
    array: NDArray[Any] = np.load(stream, allow_pickle=False)
    return array.astype(array.dtype.newbyteorder("="))


def _pixels(where: str, picture: ImageFile) -> tuple[NDArray[Any], float | None]:
    """Return the pixels, after all that can be told from the head of the file was asked."""
    if picture.width * picture.height > MOST_PIXELS:
        raise _too_large(where, f"{picture.width} x {picture.height}")
    if picture.mode not in _GREY:
        remedy = "save it in grey with 16 bits, without colours and without transparency"
        raise InputError(where, _ONE, f"mode {picture.mode}", remedy)
    pages = int(getattr(picture, "n_frames", 1))
    if pages > 1:
        raise InputError(where, "a scan has one page", str(pages), "save the page alone")
    tags = getattr(picture, "tag_v2", {})
    if tags.get(_PHOTOMETRIC) == _WHITE_IS_ZERO:
        remedy = "save it with black as the lowest number"
        raise InputError(where, "black must be the lowest number", "white as the lowest", remedy)
    picture.load()
    hidden = picture.info.get("transparency")
    values = np.array(picture).astype(_GREY[picture.mode])
    return values, float(hidden) if isinstance(hidden, int) else None


def _too_large(where: str, got: str) -> InputError:
    rule = f"a scan has at most {MOST_PIXELS // 1_000_000} million pixels"
    return InputError(where, rule, got, "scale it down; 20 pixels to a dam width are plenty")
