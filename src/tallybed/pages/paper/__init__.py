"""Kinds of page that are sheets to print."""
