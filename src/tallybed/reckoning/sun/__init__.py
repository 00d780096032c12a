"""Where the sun stands, what stands before it, and how many hours of it each square is left."""
