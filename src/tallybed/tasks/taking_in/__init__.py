"""What becomes of a spreadsheet's rows: found and shown before anything is written."""
