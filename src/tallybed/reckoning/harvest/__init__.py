"""What the beds gave: sums by any cut, and which planting a picking came from."""
