"""The large map of one bed in one month."""
