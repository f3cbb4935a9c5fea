"""Reads an SVG drawing: which shapes have a role, and where they lie."""

import re
from dataclasses import dataclass, field, replace

from nesting.errors import InputError, shown
from nesting.liners.options import DrawingOptions
from nesting.liners.svgpage import is_in_inches, read_page
from nesting.liners.svgpath import MM_PER_LENGTH, Subpath, read_length, read_transform
from nesting.liners.svgshapes import SHAPES, has_units, lacks_size, read_shape
from nesting.liners.svgstyles import apply_sheets
from nesting.liners.svgtree import Element, parse_svg
from nesting.shapes.curves import IDENTITY, Matrix, Spot, apply, combined
from nesting.shapes.pieces import Piece, Role, Sketch, Stray

MOST_VISITS = 200_000
"""Most elements that are walked through, copies made by ``use`` counted each time."""
MOST_COPIES = 20_000
"""Most elements that copies made by ``use`` may come to."""
MOST_CURVES = 400_000
"""Most curves of one drawing."""

_SILENT = tuple(
    """title desc metadata defs style script symbol clipPath mask pattern marker filter
    linearGradient radialGradient animate animateTransform set""".split()  # noqa: SIM905
)
_MOVES = ("transform", "transform-origin", "translate", "rotate", "scale")
_AUTOMATIC = re.compile(
    r"(?:path|rect|circle|ellipse|line|poly(?:line|gon)|use|g|group|layer|svg|shape|element)?"
    r"[-_ ]?[0-9]+(?:[-_][0-9]+)*(?:-[0-9a-z]+)?",
    re.IGNORECASE,
)
_FACTS = ("thickness", "relief", "unmarked", "on_panel", "fill")


@dataclass(frozen=True, slots=True)
class _Around:
    """What the elements around one pass on to it."""

    matrix: Matrix = IDENTITY
    role: Role | None = None
    layer: str = ""
    name: str = ""
    is_filled: bool = True
    hidden: str = ""
    unseen: str = ""
    copied: tuple[str, ...] = ()
    clip: str = ""


@dataclass(slots=True)
class _Walk:
    """The walk through the tree and what it has found."""

    where: str
    options: DrawingOptions
    by_id: dict[str, Element]
    pieces: list[Piece] = field(default_factory=list)
    strays: list[Stray] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    visits: int = 0
    copies: int = 0
    curves: int = 0


def read_svg(where: str, content: bytes, options: DrawingOptions) -> Sketch:
    """Return what an SVG file draws, in its own user units, y turned up by the sketch's map.

    Raises
    ------
    InputError
        For a file that is not SVG, is hostile, or does not tell its unit.
    """
    root = parse_svg(where, content)
    place, notes = read_page(where, root, options)
    unread = apply_sheets(where, root)
    walk = _Walk(where, options, _index(root), notes=notes)
    around = _around_all(root, where)
    for child in root.children:
        _visit(child, around, walk)
    if unread:
        listed = ", ".join(shown(each) for each in unread[:12])
        walk.notes.append(
            f"Warning: not read of the style sheets, shapes they hide are taken: {listed}"
        )
    in_inches = options.units in ("in", "ft") if options.units else is_in_inches(root)
    return Sketch(
        tuple(walk.pieces),
        place,
        "in" if in_inches else "mm",
        (),
        tuple(walk.strays),
        tuple(dict.fromkeys(walk.notes)),
    )


def _around_all(root: Element, where: str) -> _Around:
    """Return what the root passes on: neither role nor name, whatever the program called it."""
    if any(key in root.style or key in root.attributes for key in _MOVES):
        rule = "the drawing as a whole must not be transformed, programs do that in unlike ways"
        raise InputError(f"{where}: svg", rule, remedy="move and scale what is in it instead")
    is_filled = _is_filled(root, True)
    return _Around(is_filled=is_filled, hidden=_hidden(root), unseen=_unseen(root, ""))


def _index(root: Element) -> dict[str, Element]:
    found: dict[str, Element] = {}
    for element in root.descend():
        if "id" in element.attributes:
            found.setdefault(element.attributes["id"], element)
    return found


def _visit(element: Element, around: _Around, walk: _Walk) -> None:
    walk.visits += 1
    walk.copies += bool(around.copied)
    if walk.visits > MOST_VISITS or walk.copies > MOST_COPIES:
        rule = f"copies made by use may come to {MOST_COPIES} elements"
        remedy = "make them shapes of their own"
        raise InputError(f"{walk.where}:{element.line}", rule, remedy=remedy)
    if element.tag in _SILENT and not (element.tag == "symbol" and around.copied):
        return
    inside = _inside(element, around, walk)
    if inside is None:
        return
    if element.tag in SHAPES:
        _read(element, inside, walk)
    elif element.tag == "use":
        _copy(element, inside, walk)
    elif element.tag in ("g", "a", "switch") or _is_plain_symbol(element):
        for child in _shown_children(element):
            _visit(child, inside, walk)
    else:
        _pass_by(element, inside, walk)


def _shown_children(element: Element) -> list[Element]:
    """Return the children; of a switch the first one that asks for nothing (SVG 1.1, 5.8.2)."""
    if element.tag != "switch":
        return element.children
    asks = ("requiredExtensions", "requiredFeatures", "systemLanguage")
    plain = [each for each in element.children if not any(key in each.attributes for key in asks)]
    return [each for each in plain if each.tag != "foreignObject"][:1]


def _is_plain_symbol(element: Element) -> bool:
    return element.tag == "symbol" and "viewBox" not in element.attributes


def _inside(element: Element, around: _Around, walk: _Walk) -> _Around | None:
    """Return what the element passes on; None where its transform cannot be read."""
    names = _names(element)
    role = next((role for role in map(walk.options.role_of, names) if role), around.role)
    is_role_of_its_own = any(walk.options.role_of(name) for name in names)
    called = (element.attributes.get(key, "") for key in ("label", "id"))
    name = next((each for each in called if each and not walk.options.role_of(each)), "")
    name = "" if _AUTOMATIC.fullmatch(name) else name
    is_layer = element.tag == "g" and not around.layer
    hidden = around.hidden or _hidden(element)
    try:
        matrix = combined(around.matrix, _matrix(element))
    except InputError as error:
        is_needed = not hidden and (role is not None or _may_hold_role(element, walk))
        why = f"{error.rule}: {error.got}"
        walk.strays.append(Stray(_label(element), why, is_needed=is_needed))
        return None
    return _Around(
        matrix,
        role,
        (names or [""])[0] if is_layer else around.layer,
        (element.title or name) or ("" if is_role_of_its_own else around.name),
        _is_filled(element, around.is_filled),
        hidden,
        _unseen(element, around.unseen),
        around.copied,
        around.clip or next((key for key in ("clip-path", "mask") if _is_set(element, key)), ""),
    )


def _names(element: Element) -> list[str]:
    """Return what may tell a role or a name: label, id, classes."""
    label, own = element.attributes.get("label", ""), element.attributes.get("id", "")
    return [each for each in (label, own, *element.attributes.get("class", "").split()) if each]


def _matrix(element: Element) -> Matrix:
    """Return the element's own transform; InputError where it cannot be read."""
    styled = next((key for key in _MOVES if key in element.style), "")
    if styled or element.attributes.get("transform-origin"):
        rule = "must be told by the attribute transform alone"
        raise InputError(
            styled or "transform-origin",
            f"the element's place {rule}",
            styled or "transform-origin",
        )
    return read_transform(element.attributes.get("transform", ""))


def _may_hold_role(element: Element, walk: _Walk) -> bool:
    """Whether something in an element has a role, or is a copy that may have one."""
    return any(
        each.tag == "use" or any(map(walk.options.role_of, _names(each)))
        for each in element.descend()
    )


def _hidden(element: Element) -> str:
    """Return the name of an element that hides all within it."""
    return _called(element) if element.get("display") == "none" else ""


def _unseen(element: Element, around: str) -> str:
    """Return what makes an element invisible; an inner one may be seen again (SVG 1.1, 11.5)."""
    told = element.get("visibility")
    if told in ("hidden", "collapse"):
        return around or _called(element)
    return "" if told == "visible" else around


def _called(element: Element) -> str:
    return (_names(element) or [element.tag])[0]


def _is_filled(element: Element, around: bool) -> bool:
    fill = element.get("fill")
    return fill not in ("none", "transparent") if fill and fill != "inherit" else around


def _is_set(element: Element, key: str) -> bool:
    return element.get(key) not in ("", "none")


def _label(element: Element) -> str:
    return f"{element.tag} in line {element.line}"


def _read(element: Element, around: _Around, walk: _Walk) -> None:
    """Take in a shape with a role; note any other as left out."""
    what = _label(element)
    try:
        runs = read_shape(element)
    except InputError as error:
        why = f"{error.where}: {error.rule}" + (f", got {error.got}" if error.got else "")
        is_needed = around.role is not None and not around.hidden
        walk.strays.append(Stray(what, why, is_needed=is_needed))
        return
    walk.curves += sum(len(run.curves) for run in runs)
    if walk.curves > MOST_CURVES:
        rule = f"a drawing has at most {MOST_CURVES} curves"
        raise InputError(f"{walk.where}:{element.line}", rule)
    for run in runs:
        _take(element, run, around, walk)
    if not runs and around.role and not around.hidden:
        why = "it has no size, so by the standard it is not shown"
        walk.strays.append(Stray(what, why, is_needed=lacks_size(element)))
    if around.role and around.clip:
        walk.notes.append("Clips and masks are not applied; ornaments under them are taken whole")
    if around.role and has_units(element):
        walk.notes.append(
            "Warning: a length with a unit inside the drawing counts 96 px to the inch, by the "
            f"standard, and not by the page's scale: {what}"
        )


def _take(element: Element, run: Subpath, around: _Around, walk: _Walk) -> None:
    """Note one run of a shape as a piece, or as left out."""
    curves = tuple(curve.moved(around.matrix) for curve in run.curves)
    what = _label(element)
    told = ((key, element.attributes.get(f"data-{key}")) for key in _FACTS)
    piece = Piece(
        around.role or "outline",
        curves,
        run.is_closed,
        what,
        around.name,
        f"{element.line}-{walk.visits}",
        around.is_filled and element.tag != "line" and len(curves) > 1,
        tuple((key, text) for key, text in told if text is not None),
    )
    why = _reason_to_leave(around)
    if why:
        on = f"on layer '{around.layer}'" if around.layer else "outside any layer"
        walk.strays.append(Stray(f"a shape {on}", why, piece.spots[:400]))
    elif around.clip and around.role != "ornament":
        why = f"its {around.clip} is not applied"
        walk.strays.append(Stray(what, why, piece.spots[:400], is_needed=True))
    else:
        walk.pieces.append(piece)


def _reason_to_leave(around: _Around) -> str:
    if around.role is None:
        return "the layer has no role; give it one with --layer"
    hidden = around.hidden or around.unseen
    return f"'{hidden}' is hidden" if hidden else ""


def _copy(element: Element, around: _Around, walk: _Walk) -> None:
    """Visit what a ``use`` refers to, moved as it says.

    What cannot be copied may hold an ornament, whatever the role of the copy.
    """
    target = element.attributes.get("href", "")
    source = walk.by_id.get(target[1:]) if target.startswith("#") else None
    why, spot = "", (0.0, 0.0)
    if source is None:
        why = f"{shown(target)} is not in the file, and nothing outside is fetched"
    elif target in around.copied:
        why = f"{shown(target)} holds itself"
    else:
        try:
            spot = _offset(element)
        except InputError as error:
            why = f"{error.rule}: {error.got}"
    if source is None or why:
        walk.strays.append(Stray(_label(element), why, is_needed=not around.hidden))
        return
    matrix = combined(around.matrix, (1.0, 0.0, 0.0, 1.0, *spot))
    _visit(source, replace(around, matrix=matrix, copied=(*around.copied, target)), walk)


def _offset(element: Element) -> Spot:
    values = []
    for key in ("x", "y"):
        value, unit = read_length(element.attributes.get(key, "0"))
        if unit not in MM_PER_LENGTH:
            raise InputError(key, "must be a length without a relative unit", unit)
        values.append(value * float(MM_PER_LENGTH[unit] / MM_PER_LENGTH["px"]))
    return values[0], values[1]


def _pass_by(element: Element, around: _Around, walk: _Walk) -> None:
    """Note an element that is not read: a mistake where it has a role."""
    why = {
        "text": "text is not read; turn it into paths, or move it to a layer without a role",
        "image": "an image is not read; trace it first",
        "svg": "a drawing within the drawing is not read; ungroup it",
        "symbol": "a symbol with a viewBox is not read; make its copies shapes of their own",
    }.get(element.tag, "such an element is not read")
    is_needed = around.role is not None or _may_hold_role(element, walk)
    is_needed = is_needed and not around.hidden
    if element.is_foreign and not is_needed:
        return
    what = element.tag if around.role is None else _label(element)
    spots = (apply(around.matrix, (0.0, 0.0)),) if element.tag != "text" else ()
    what = _label(element) if is_needed else what
    walk.strays.append(Stray(what, why, spots if not is_needed else (), is_needed=is_needed))
