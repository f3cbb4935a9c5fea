"""What the key of a drawing explains that the drawing does not show."""

from nesting.drawings.record import Text

_OWN = {"rule"}  # the key's own frame
_FIGURES = "123"  # how the key shows a figure


def idle_marks(drawing):
    """Return the styles of the key's swatches that no shape outside key, strip and sheet has."""
    layers = {layer.name: layer.shapes for layer in drawing.layers}
    shown = [
        shape
        for name, shapes in layers.items()
        if name not in ("sheet", "key", "strip", "stamp")
        for shape in shapes
    ]
    styles = {shape.style for shape in shown if not isinstance(shape, Text)}
    figures = {shape.style for shape in shown if isinstance(shape, Text)}
    idle = set()
    for shape in layers.get("key", ()):
        if not isinstance(shape, Text):
            idle |= {shape.style} - styles - _OWN
        elif shape.words == _FIGURES:
            idle |= {shape.style} - figures
    return idle
