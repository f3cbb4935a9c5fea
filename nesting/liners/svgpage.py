"""The page of an SVG drawing: how long its unit is, and where its lower left corner lies."""

from nesting.errors import InputError, shown
from nesting.liners.options import DRAWING_UNITS, DrawingOptions
from nesting.liners.svgpath import MM_PER_LENGTH, read_length
from nesting.liners.svgtree import Element
from nesting.shapes.curves import Matrix


def read_page(where: str, root: Element, options: DrawingOptions) -> tuple[Matrix, list[str]]:
    """Return the map from user units to mm from the page's lower left, and how it was found."""
    sides = [_side(root, key) for key in ("width", "height")]
    box = _view_box(where, root)
    x, y, _, high = box or (0.0, 0.0, 0.0, (sides[1] or 0.0) / float(MM_PER_LENGTH["px"]))
    if options.units:
        scale = (float(DRAWING_UNITS[options.units]),) * 2
        notes = [f"One unit of the drawing is 1 {options.units}, as --units says"]
    else:
        scale, notes = _scale(where, root, sides, box)
    across, up = scale
    return (across, 0.0, 0.0, -up, -across * x, up * (y + high)), notes


def _scale(
    where: str, root: Element, sides: list[float | None], box: tuple[float, ...] | None
) -> tuple[tuple[float, float], list[str]]:
    width, height = sides
    texts = [root.attributes.get(key, "") for key in ("width", "height")]
    if width is None or height is None:
        rule = "the drawing does not tell its size, so its unit is not known"
        got = " and ".join(shown(text) for text in texts if text) or "neither width nor height"
        remedy = "give the unit of its numbers, for example --units mm"
        raise InputError(where, rule, got, remedy)
    notes = [f"The page is {texts[0].strip()} by {texts[1].strip()}"]
    if any(text.strip()[-1:].isdigit() or text.strip().endswith("px") for text in texts):
        notes[0] += ", 96 px to the inch as the standard has it; --units gives another unit"
    px = float(MM_PER_LENGTH["px"])
    if box is None:
        return (px, px), [*notes, "One unit of the drawing is 1/96 in"]
    across, up = width / box[2], height / box[3]
    if abs(across - up) > 1e-6 * max(across, up):
        fit = root.attributes.get("preserveAspectRatio", "")
        if fit.strip() == "none":
            notes.append("Warning: the drawing is stretched, x and y have different scales")
            return (across, up), notes
        across = up = max(across, up) if "slice" in fit else min(across, up)
    return (across, across), [*notes, f"One unit of the drawing is {across:.9g} mm"]


def _side(root: Element, key: str) -> float | None:
    """Return the page's width or height [mm]; None where it is not told."""
    text = root.attributes.get(key, "")
    try:
        value, unit = read_length(text)
    except InputError:
        return None
    if unit not in MM_PER_LENGTH or value <= 0:
        return None
    return value * float(MM_PER_LENGTH[unit])


def _view_box(where: str, root: Element) -> tuple[float, float, float, float] | None:
    text = root.attributes.get("viewBox")
    if text is None:
        return None
    try:
        x, y, width, height = (float(part) for part in text.replace(",", " ").split())
    except ValueError as error:
        raise InputError(f"{where}: viewBox", "must be four numbers", shown(text)) from error
    if not (0 < width < 1e9 and 0 < height < 1e9 and abs(x) < 1e9 and abs(y) < 1e9):
        raise InputError(f"{where}: viewBox", "must have a width and a height > 0", shown(text))
    return x, y, width, height


def is_in_inches(root: Element) -> bool:
    """Whether the page's width is told in inches."""
    return root.attributes.get("width", "").strip().endswith("in")
