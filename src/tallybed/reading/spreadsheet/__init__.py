"""Spreadsheets as people keep them: tables, headings, rows, and what was taken from them before."""
