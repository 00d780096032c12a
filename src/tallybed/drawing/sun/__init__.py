"""Maps of the sun over a bed."""
