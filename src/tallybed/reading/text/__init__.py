"""Texts that people type, as values: weights, lengths, dates, squares."""
