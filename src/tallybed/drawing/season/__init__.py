"""A bed's season as a strip: a line for each square, bars along the months."""
