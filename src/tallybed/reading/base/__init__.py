"""What every reader of a file stands on: scanners, shapes of keys, the collector of findings."""
