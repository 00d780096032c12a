"""Tables as plain data, for pages and for the terminal."""
