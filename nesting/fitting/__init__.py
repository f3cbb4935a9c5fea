"""Whether a size fits a liner, and which sizes it gives."""
