"""Files that lie beside the pages, as bytes: feed, calendars, data, archive, comma-separated values."""
