"""The independent verdict: shares no code with maps, planning or search."""
