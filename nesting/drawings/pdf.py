"""From drawing records to one PDF, a page each, true to size: beside `svg`, its like.

A page is as large as its drawing, one unit of its content is one millimetre, and y points up in
both. A PDF unit is 1/72 in (ISO 32000), so all of a page lies under one scale of 72/25.4. Shapes
that several pages show through windows are stored once. The fonts come with the package, so that
a page looks alike on every machine; the same records give the same bytes.
"""

from collections.abc import Sequence
from importlib.resources import files
from io import BytesIO
from math import ceil, floor, sqrt

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import FILL_EVEN_ODD, Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from nesting.drawings.lettering import CAPITAL, clean
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Spot, Text, bounds_of
from nesting.drawings.styles import AREAS, HATCHED, INK, LINES, MASKED, Look

POINTS_PER_MM = 72 / 25.4
LONGEST_PAGE = 5080.0
"""The longest side of a page [mm]: 14,400 units, the limit most readers keep to."""

FACES = {"plain": "DejaVuSans", "bold": "DejaVuSans-Bold"}
_CAPS, _JOINS = {"butt": 0, "round": 1}, {"miter": 0, "round": 1}
_Rings = Sequence[tuple[Spot, ...]]


def to_pdf(pages: Sequence[Drawing], title: str = "") -> bytes:
    """Return one PDF of the drawings in turn, each with a bookmark that bears its title.

    Parameters
    ----------
    pages
        At least one. Layers with a window that show equal shapes share them.
    title
        Of the whole; that of the first page unless given.

    Raises
    ------
    ValueError
        For no page, and for one longer than a PDF can have.
    """
    if not pages:
        raise ValueError("a PDF has at least one page")
    load_fonts()
    target = BytesIO()
    canvas = Canvas(target, invariant=1, pageCompression=1, initialFontName=FACES["plain"])
    canvas.setTitle(clean(title or pages[0].title))
    canvas.setCreator("nesting")
    canvas.setViewerPreference("PrintScaling", "None")
    shared = _share(canvas, pages)
    for number, page in enumerate(pages, start=1):
        _draw_page(canvas, page, number, shared)
    canvas.save()
    return target.getvalue()


def load_fonts() -> None:
    """Make the package's own fonts known to reportlab, and let packed parts stay bytes.

    Both hold for the whole process, so every PDF begins with this, whatever was written before.
    """
    rl_config.useA85 = 0  # as letters they would be a quarter longer
    folder = files("nesting.drawings") / "fonts"
    for face in FACES.values():
        if face not in pdfmetrics.getRegisteredFontNames():
            with (folder / f"{face}.ttf").open("rb") as stream:
                pdfmetrics.registerFont(TTFont(face, BytesIO(stream.read())))


def _share(canvas: Canvas, pages: Sequence[Drawing]) -> dict[tuple[Shape, ...], str]:
    """Store what pages show through windows, each picture once; return the names by the shapes."""
    names: dict[tuple[Shape, ...], str] = {}
    for page in pages:
        for layer in page.layers:
            if layer.window is None or not layer.shapes or layer.shapes in names:
                continue
            names[layer.shapes] = f"art{len(names) + 1}"
            room = bounds_of(layer.shapes).grown(5.0)
            corners = (floor(room.x0), floor(room.y0), ceil(room.x1), ceil(room.y1))
            canvas.beginForm(names[layer.shapes], *corners)
            draw_shapes(canvas, layer.shapes)
            canvas.endForm()
    return names


def _draw_page(
    canvas: Canvas, page: Drawing, number: int, shared: dict[tuple[Shape, ...], str]
) -> None:
    if max(page.width, page.height) > LONGEST_PAGE:
        raise ValueError(f"a page of a PDF is at most {LONGEST_PAGE:g} mm long")
    canvas.setPageSize((page.width * POINTS_PER_MM, page.height * POINTS_PER_MM))
    canvas.bookmarkPage(f"page{number}")
    canvas.addOutlineEntry(clean(page.title), f"page{number}")
    canvas.scale(POINTS_PER_MM, POINTS_PER_MM)
    for layer in page.layers:
        if layer.window is None:
            draw_shapes(canvas, layer.shapes)
        elif layer.shapes:
            _show(canvas, layer, layer.window, shared[layer.shapes])
    canvas.showPage()


def _show(canvas: Canvas, layer: Layer, window: Rect, name: str) -> None:
    """Show stored shapes through a window of the page."""
    canvas.saveState()
    canvas.clipPath(_path(canvas, [window.ring], close=True), stroke=0, fill=0)
    canvas.translate(*layer.origin)
    canvas.doForm(name)
    canvas.restoreState()


def draw_shapes(canvas: Canvas, shapes: Sequence[Shape]) -> None:
    """Draw shapes where the canvas is, one unit for each mm of theirs."""
    for shape in shapes:
        if isinstance(shape, Text):
            _write(canvas, shape)
        elif isinstance(shape, Line):
            _paint(canvas, [shape.points], LINES[shape.style], close=False)
        elif shape.style in HATCHED:
            _hatch(canvas, shape)
        else:
            _paint(canvas, shape.rings, AREAS[shape.style], close=True)


def _paint(canvas: Canvas, rings: _Rings, look: Look, *, close: bool) -> None:
    canvas.saveState()
    if look.fill:
        canvas.setFillColor(HexColor(look.fill))
        if look.opacity < 1:
            canvas.setFillAlpha(look.opacity)
    if look.stroke:
        canvas.setStrokeColor(HexColor(look.stroke))
        canvas.setLineWidth(look.width)
        canvas.setDash(list(look.dash))
        canvas.setLineCap(_CAPS[look.cap])
        canvas.setLineJoin(_JOINS[look.join])
    path = _path(canvas, rings, close=close)
    canvas.drawPath(path, stroke=bool(look.stroke), fill=bool(look.fill), fillMode=FILL_EVEN_ODD)
    canvas.restoreState()


def _path(canvas: Canvas, rings: _Rings, *, close: bool) -> PDFPathObject:
    path = canvas.beginPath()
    for start, *others in rings:
        path.moveTo(*start)
        for point in others:
            path.lineTo(*point)
        if close:
            path.close()
    return path


def _hatch(canvas: Canvas, area: Area) -> None:
    """Draw the lines of hatched ground through its outline; they run like those of the SVG."""
    canvas.saveState()
    path = _path(canvas, area.rings, close=True)
    canvas.clipPath(path, stroke=0, fill=0, fillMode=FILL_EVEN_ODD)
    canvas.setStrokeColor(HexColor(MASKED.ink))
    canvas.setLineWidth(MASKED.width)
    room = bounds_of([area])
    pitch = MASKED.pitch * sqrt(2)  # along x, between lines that rise by 45 degrees
    for number in range(floor((room.x0 - room.y1) / pitch), ceil((room.x1 - room.y0) / pitch) + 1):
        start = number * pitch
        canvas.line(start + room.y0, room.y0, start + room.y1, room.y1)
    canvas.restoreState()


def _write(canvas: Canvas, text: Text) -> None:
    size, face = text.height / CAPITAL, FACES[text.style]
    share = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
    start = -share * pdfmetrics.stringWidth(text.words, face, size)
    canvas.saveState()
    canvas.setFillColor(HexColor(INK))
    canvas.translate(text.x, text.y)
    if text.upright:
        canvas.rotate(90)
    canvas.setFont(face, size)
    canvas.drawString(start, 0, text.words)
    canvas.restoreState()
