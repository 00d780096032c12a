"""Pickings as people say them at the scale, and the names that mean something there."""
