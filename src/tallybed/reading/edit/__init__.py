"""Cuts in the gardener's own text, every other character left as it is."""
