"""From a job to its schedule."""
