"""Scans written byte by byte, whole and broken in every way that came to mind."""

import io
import struct
import zlib

import numpy as np
from PIL import Image

GREY = np.arange(0, 65536, 328, dtype=np.uint16).reshape(10, 20)


def picture(array, form="PNG", **options):
    """Return an array written as a picture."""
    stream = io.BytesIO()
    Image.fromarray(array).save(stream, form, **options)
    return stream.getvalue()


def npy(array, pickled=False):
    """Return an array written as NPY."""
    stream = io.BytesIO()
    np.save(stream, array, allow_pickle=pickled)
    return stream.getvalue()


def chunk(kind, body):
    """Return a chunk of a PNG."""
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def png(width, height, raw=b"", more=b"", colour=0):
    """Return a PNG of 16 bits with that head and those raw rows."""
    head = struct.pack(">IIBBBBB", width, height, 16, colour, 0, 0, 0)
    rows = chunk(b"IHDR", head) + more + chunk(b"IDAT", zlib.compress(raw)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + rows


def head_only(shape, dtype="<f4"):
    """Return the head of an NPY file that promises a shape, and nothing after it."""
    stream = io.BytesIO()
    np.lib.format.write_array_header_1_0(
        stream, {"descr": dtype, "fortran_order": False, "shape": shape}
    )
    return stream.getvalue()


SQUARE = np.array(
    [[[0, 0, 1], [40, 0, 1], [40, 30, 1]], [[0, 0, 1], [40, 30, 1], [0, 30, 1]]], float
)


RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")])


def binary(corners):
    """Return the triangles as binary STL."""
    records = np.zeros(len(corners), RECORD)
    records["corners"] = corners
    return bytes(80) + len(corners).to_bytes(4, "little") + records.tobytes()


def text(corners):
    """Return the triangles as text STL."""
    facets = "".join(
        "facet normal 0 0 1\nouter loop\n"
        + "".join(f"vertex {x} {y} {z}\n" for x, y, z in triangle)
        + "endloop\nendfacet\n"
        for triangle in corners
    )
    return f"solid tray\n{facets}endsolid tray\n".encode()


WHITE_IS_ZERO = picture(GREY, "TIFF", tiffinfo={262: 0})

PICTURES = {
    "cut short": (picture(GREY)[:-60], "the picture cannot be read"),
    "cut in its head": (picture(GREY)[:20], "no PNG or TIFF picture|cannot be read"),
    "no rows": (png(20, 10, b""), "the picture cannot be read"),
    "a bomb in its head": (png(200_000, 200_000), "at most 25 million pixels"),
    "large": (png(6000, 6000), "at most 25 million pixels, got 6000 x 6000; scale it down"),
    "colours": (picture(np.zeros((9, 9, 3), np.uint8)), "one grey channel .*, got mode RGB"),
    "colours of 16 bits": (png(9, 9, bytes(9 * 55), colour=2), "one grey channel"),
    "transparency": (picture(np.zeros((9, 9, 4), np.uint8)), "got mode RGBA"),
    "grey and transparency": (png(9, 9, bytes(9 * 37), colour=4), "one grey channel"),
    "black and white": (picture(np.zeros((9, 9), bool)), "got mode 1"),
    "whole numbers of 32 bits": (picture(GREY.astype(np.int32), "TIFF"), "got mode I"),
    "white as zero": (WHITE_IS_ZERO, "black must be the lowest number"),
    "another form": (picture((GREY // 257).astype(np.uint8), "GIF"), "no PNG or TIFF picture"),
    "letters": (b"once upon a time", "no PNG or TIFF picture"),
    "a TIFF cut short": (picture(GREY, "TIFF")[:90], "no PNG or TIFF picture|cannot be read"),
    "a TIFF's head alone": (b"II*\0\xff\xff\xff\xff", "no PNG or TIFF picture|cannot be read"),
}

ARRAYS = {
    "objects": (npy(np.array([[None, {}]]), pickled=True), "heights are decimals .*, got object"),
    "three axes": (npy(np.zeros((9, 9, 3))), "has two axes, rows and columns, got 3"),
    "one axis": (npy(np.zeros(99)), "has two axes, rows and columns, got 1"),
    "complex": (npy(np.zeros((9, 9), complex)), "heights are decimals"),
    "signed": (npy(np.zeros((9, 9), np.int16)), "whole numbers of 8 or 16 bits without sign"),
    "wide whole numbers": (npy(np.zeros((9, 9), np.uint32)), "heights are decimals"),
    "letters": (npy(np.full((9, 9), "heron")), "heights are decimals"),
    "dates": (npy(np.zeros((9, 9), "M8[s]")), "heights are decimals"),
    "records": (npy(np.zeros((9, 9), [("z", "f4")])), "heights are decimals"),
    "cut short": (npy(GREY)[:-10], "the file is cut short, got 195 of 200 heights"),
    "huge": (head_only((10**9, 10**9)), "at most 25 million pixels"),
    "promised": (head_only((4000, 4000)), "cut short, got 0 of 16000000 heights"),
    "negative": (head_only((-5, -5)), "at most 25 million pixels|no NPY array"),
    "no head": (b"\x93NUMPY", "no NPY array"),
    "another version": (b"\x93NUMPY\x09\x00" + bytes(99), "no NPY array"),
    "code in its head": (
        b"\x93NUMPY\x01\x00\x20\x00" + b"__import__('os').getcwd()".ljust(32),
        "no NPY array",
    ),
    "zip": (b"PK\x03\x04" + bytes(99), "no NPY array"),
    "empty": (b"", "no NPY array"),
}
