"""What every reader of a file stands on: scanners, keys, the collector of findings."""
