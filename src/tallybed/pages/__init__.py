"""One module a kind of page: what it shows, as plain data for its template."""
