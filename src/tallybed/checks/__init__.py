"""Plan, log and ledger compared with each other and with what is normal: one function for each check."""
