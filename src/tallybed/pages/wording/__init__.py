"""How names, totals, days and the gardener's prose are worded."""
