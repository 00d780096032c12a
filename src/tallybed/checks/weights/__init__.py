"""The ledger's weights held against what crops can give."""
