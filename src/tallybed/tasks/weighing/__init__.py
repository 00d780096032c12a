"""What is said at the scale: understood, shown, and written as rows of the ledger."""
