"""What is told of a crop's care and year, figure by figure with its source, and the cautions for people."""
