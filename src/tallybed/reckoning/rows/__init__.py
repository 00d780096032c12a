"""Is close planting better than ordinary rows? A season's weight held against printed row yields."""
