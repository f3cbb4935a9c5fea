"""A reader of the PNG pictures a renderer returns: just enough to measure ink."""

import struct
import zlib


def read_png(data):
    """Return (width, height, rows) of an 8-bit RGB or RGBA picture; a row is a list of greys."""
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    at, packed, size = 8, b"", (0, 0)
    channels = 0
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at : at + 8])
        body = data[at + 8 : at + 8 + length]
        if kind == b"IHDR":
            *size, depth, colour = struct.unpack(">IIBB", body[:10])
            channels = {2: 3, 6: 4}[colour]
            assert depth == 8
        packed += body if kind == b"IDAT" else b""
        at += length + 12
    width, height = size
    return width, height, _rows(zlib.decompress(packed), width * channels, channels)


def _rows(raw, stride, channels):
    rows, above = [], bytes(stride)
    for start in range(0, len(raw), stride + 1):
        above = _unfilter(raw[start], raw[start + 1 : start + 1 + stride], above, channels)
        rows.append([sum(above[i : i + 3]) // 3 for i in range(0, stride, channels)])
    return rows


def _unfilter(kind, line, above, step):
    line = bytearray(line)
    for i, value in enumerate(line):
        left = line[i - step] if i >= step else 0
        corner = above[i - step] if i >= step else 0
        up = above[i]
        guess = left + up - corner
        paeth = min((left, up, corner), key=lambda each: abs(guess - each))
        line[i] = (value + (0, left, up, (left + up) // 2, paeth)[kind]) & 255
    return bytes(line)
