"""SVG from reckoned values: shapes and their words, without colours and without pages."""
