"""A schedule as a file and as text."""
