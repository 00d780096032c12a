"""How long to wait after treatments and manure before picking, and before anybody works in a square."""
