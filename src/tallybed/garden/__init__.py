"""The domain: frozen records, units, days and squares. Pure: no files, no clock, no imports of ours."""
