"""What is said at the scale, by a command or in a form, as rows of the ledger."""
