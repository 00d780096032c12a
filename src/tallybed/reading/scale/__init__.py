"""Pickings as they are said at the scale."""
