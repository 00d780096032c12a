"""One module for each command's work: the place where reading, reckoning, pages and writing meet."""
