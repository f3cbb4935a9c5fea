"""Casts on days, strips from stock, pairs: whole numbers in, whole numbers out."""
