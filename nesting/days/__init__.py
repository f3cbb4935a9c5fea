"""From casts to working days."""
