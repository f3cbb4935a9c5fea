"""Strips of all layouts: which serve again, what is cut from which stock, re-set sheets."""
