"""From a wall to the order."""
