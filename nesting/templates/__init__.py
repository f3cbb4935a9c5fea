"""Full-size paper templates."""
