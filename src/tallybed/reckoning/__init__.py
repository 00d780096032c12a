"""Computation over the domain. Pure."""
