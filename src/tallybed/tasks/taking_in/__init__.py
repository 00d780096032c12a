"""What becomes of a spreadsheet's rows, found before anything is written."""
