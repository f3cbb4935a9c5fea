"""Fewest casts, then fewest layouts: whole numbers in, whole numbers out."""
