"""The packet for the shop, as HTML and PDF."""
