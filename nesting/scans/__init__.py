"""Liners from scans."""
