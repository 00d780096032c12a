"""The large map of one bed in one month, with its legend and its description."""
