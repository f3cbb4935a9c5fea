"""Finished faces as they will hang, seen from the front."""
