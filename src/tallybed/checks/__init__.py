"""Plan, log and ledger held against each other and against what is normal."""
