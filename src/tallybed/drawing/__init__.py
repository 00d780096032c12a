"""SVG from reckoned values."""
