"""What the days bring: freezes, windows, stages, jobs due, changes, the months of a bed."""
