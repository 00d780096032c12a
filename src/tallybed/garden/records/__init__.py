"""What the gardener writes down: plan, log, ledger, treatments, soil tests."""
