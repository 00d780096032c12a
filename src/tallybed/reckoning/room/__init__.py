"""How many plants have room in some squares, where they stand, and how wide they have grown."""
