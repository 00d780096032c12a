"""Drawings and photographs as pages hold them: wide and narrow, with ids and links of their page."""
