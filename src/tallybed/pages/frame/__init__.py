"""What stands around every page and leads between pages: addresses, links, the head, linked data."""
