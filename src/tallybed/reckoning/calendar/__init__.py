"""What the days bring: freezes, windows, stages, jobs that are due, changes, the months of a bed."""
