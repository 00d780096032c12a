"""What every command asks, prints and takes alike."""
