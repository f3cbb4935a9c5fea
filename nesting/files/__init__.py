"""Files people write and read, and the output folder."""
