"""One module for each command: it parses words, calls one task, asks and prints."""
