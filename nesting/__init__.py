"""Dams, casts and masking layouts for relief panels from one flexible liner."""
