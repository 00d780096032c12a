"""A season's tables for reuse: what a column is, a module for each table, and which tables a season has."""
