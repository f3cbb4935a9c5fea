"""What a PDF draws, read by independent readers: paths in page mm, and ink in rendered pixels."""

import re
from dataclasses import dataclass
from io import BytesIO

import pypdfium2
import resvg_py
from PIL import Image
from pypdf import PdfReader
from pypdf.generic import ContentStream, StreamObject

MM = 25.4 / 72


@dataclass(frozen=True)
class Path:
    """One painted path: rings of points in mm from the page's lower left, and how it is painted."""

    rings: tuple
    stroked: bool
    width: float


def page_sizes(pdf):
    """Return width and height of every page [mm], by its media box."""
    pages = PdfReader(BytesIO(pdf)).pages
    return [(float(page.mediabox.width) * MM, float(page.mediabox.height) * MM) for page in pages]


def read_paths(pdf, number=0):
    """Return every painted path of a page, those of the forms it shows too, clipping ignored."""
    reader = PdfReader(BytesIO(pdf))
    page = reader.pages[number]
    found = []
    _walk(page.get_contents(), page["/Resources"], (1, 0, 0, 1, 0, 0), reader, found)
    return found


def read_texts(pdf, number=0):
    """Return the words of a page as a reader extracts them."""
    return PdfReader(BytesIO(pdf)).pages[number].extract_text()


def _walk(stream, resources, matrix, reader, found):
    stack, width, rings = [], 1.0, []
    for operands, operator in ContentStream(stream, reader).operations:
        name = operator.decode()
        values = [float(each) for each in operands] if name in ("cm", "m", "l", "w", "re") else []
        if name == "q":
            stack.append((matrix, width))
        elif name == "Q":
            matrix, width = stack.pop()
        elif name == "cm":
            matrix = _times(values, matrix)
        elif name == "w":
            width = values[0]
        elif name == "m":
            rings.append([_at(values, matrix)])
        elif name == "l":
            rings[-1].append(_at(values, matrix))
        elif name == "re":
            x, y, w, h = values
            corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
            rings.append([_at(corner, matrix) for corner in corners])
        elif name in ("S", "f", "f*", "B", "B*", "n"):
            if name != "n":
                scaled = width * abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]) ** 0.5 * MM
                found.append(Path(tuple(map(tuple, rings)), name not in ("f", "f*"), scaled))
            rings = []
        elif name == "Do":
            form = resources["/XObject"][operands[0]]
            _walk(form, form.get("/Resources", resources), matrix, reader, found)


def _times(a, b):
    return (
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    )


def _at(point, m):
    x, y = point
    return (x * m[0] + y * m[2] + m[4]) * MM, (x * m[1] + y * m[3] + m[5]) * MM


@dataclass(frozen=True)
class Picture:
    """Rows of greys, the uppermost first, and pixels per mm across and up the page."""

    rows: list
    across: float
    up: float

    def ink_centre(self, box):
        """Return the centre of the ink in a box (x0, y0, x1, y1), mm from the lower left."""
        high = len(self.rows)
        x0, x1 = (round(side * self.across) for side in box[::2])
        y0, y1 = (round(side * self.up) for side in box[1::2])
        total = across = up = 0
        for row in range(high - y1, high - y0):
            for column in range(x0, x1):
                ink = 255 - self.rows[row][column]
                total += ink
                across += ink * (column + 0.5)
                up += ink * (high - row - 0.5)
        assert total, f"no ink in {box}"
        return across / total / self.across, up / total / self.up


def render(pdf, number=0, dpi=300):
    """Return a page as a picture."""
    page = pypdfium2.PdfDocument(pdf)[number]
    width, height = page.get_size()
    picture = page.render(scale=dpi / 72, grayscale=True).to_pil()
    wide, high = picture.size  # whole pixels, so that the true scale differs a little from dpi
    greys = picture.tobytes()
    rows = [greys[row * wide : (row + 1) * wide] for row in range(high)]
    return Picture(rows, wide / (width * MM), high / (height * MM))


def render_svg(svg, width, height, dpi=300):
    """Return an SVG sheet of that size [mm] as a picture."""
    png = bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=dpi, background="white"))
    picture = Image.open(BytesIO(png)).convert("L")
    wide, high = picture.size
    greys = picture.tobytes()
    rows = [greys[row * wide : (row + 1) * wide] for row in range(high)]
    assert (wide, high) == (round(width * dpi / 25.4), round(height * dpi / 25.4))
    return Picture(rows, dpi / 25.4, dpi / 25.4)  # drawn to the dpi, then cut at whole pixels


def unpack(content):
    """Return the objects of a PDF, streams unpacked; any other content as it is.

    Two that are drawn alike are then equal, whatever packed them on either machine.
    """
    if not content.startswith(b"%PDF"):
        return content
    reader = PdfReader(BytesIO(content))
    count = int(reader.trailer["/Size"])
    return [_unpack_object(reader.get_object(number)) for number in range(1, count)]


def _unpack_object(found):
    if not isinstance(found, StreamObject):
        return _written(found)
    keys = {key: _written(found.raw_get(key)) for key in sorted(found) if key != "/Length"}
    return keys, found.get_data()


def _written(value):
    """Return a value as text, what it refers to by number."""
    return re.sub(r"IndirectObject\((\d+), 0, \d+\)", r"\1 0 R", repr(value))
