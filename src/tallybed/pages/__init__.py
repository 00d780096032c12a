"""What each page of the site says, as plain data for its template."""
