"""The least to be mended on a liner that exists."""
