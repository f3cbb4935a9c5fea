"""Exact polygons on the grid, curves, pixels: geometry that knows nothing of panels."""
