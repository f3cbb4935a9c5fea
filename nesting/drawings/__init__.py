"""The drawing record, what is drawn of a layout, and SVG and PDF of it."""
