"""A small bed on show: its plan, log and ledger, and the public site that follows from them."""
