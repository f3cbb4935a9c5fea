"""The page on which sizes are tried by hand."""
