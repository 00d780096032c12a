"""Kinds of page that outlast a season: the first page, all seasons, crops, the garden's own pages."""
