"""Casts on days: whole numbers in, whole numbers out."""
