"""Charts of weights: running totals, weeks, seasons and crops beside each other."""
