"""Kinds of page that belong to one season."""
