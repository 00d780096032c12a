"""Files of daily weather: the garden's own columns, and those of public stations as they come."""
