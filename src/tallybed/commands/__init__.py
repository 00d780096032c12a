"""Commands that talk with a person: each parses words, calls one module at the top, asks and prints."""
