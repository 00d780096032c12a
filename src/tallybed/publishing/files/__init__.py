"""Files that lie beside the pages, as bytes."""
