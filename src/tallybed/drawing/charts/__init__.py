"""Charts: running totals, weeks, seasons and crops beside each other, and the weather."""
