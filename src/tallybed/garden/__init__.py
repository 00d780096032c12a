"""What a garden is: frozen records, units, days, squares and findings; it imports nothing of ours."""
