"""Waits."""
