"""What is told of a crop's care and year, figure by figure with its source, and cautions for people."""
