"""Which records of plan, log and ledger belong to one planting."""
