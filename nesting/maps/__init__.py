"""Where a panel may lie, and which sizes may: position maps and what comes of them."""
