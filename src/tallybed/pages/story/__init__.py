"""A season told as a story: the titles of its log, its months one after the other, and what was lost."""
