"""What writes into a garden's folder: ledger rows, log entries, a new garden."""
