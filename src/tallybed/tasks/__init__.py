"""One module a command's work: the place where reading, reckoning, pages and writing meet."""
