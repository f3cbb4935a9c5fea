"""Frozen values: liner, bed, panel, job, schedule, calendar."""
