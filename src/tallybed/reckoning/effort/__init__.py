"""What a season took: work, water and money."""
