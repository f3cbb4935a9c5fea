"""Job and liner files: read and written."""
