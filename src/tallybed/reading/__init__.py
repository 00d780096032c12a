"""From the gardener's text to values that know their file, line and column."""
