"""Liners from drawings, and back."""
