"""A schedule as text."""
