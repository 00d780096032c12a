"""Cuts in the gardener's own text that leave every other character as it is."""
