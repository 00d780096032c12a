"""Drawings of a crop's own page: its year, its spacing, and what it gave beside rows."""
