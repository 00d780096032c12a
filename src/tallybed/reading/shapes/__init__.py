"""One module for each file that the gardener writes: its keys, and what each may hold."""
