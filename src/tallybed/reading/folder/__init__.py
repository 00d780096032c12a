"""A garden's folder and the crop library: which files there are, and all their records together."""
