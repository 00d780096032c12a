"""Rendering, assets, and writing the site."""
