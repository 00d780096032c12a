"""The plan and the log held against the year: freezes, heat, day length, winter, and time indoors."""
