"""Where a liner must be left plain, before or after it is carved."""
