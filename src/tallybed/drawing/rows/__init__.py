"""Drawings of the page that holds the beds against ordinary rows."""
