"""Who holds which square on which day, and how well that is known."""
